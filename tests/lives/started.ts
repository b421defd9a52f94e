import { readSession } from '../../src/domain/session';
import { shown } from '../../src/merge/shown';
import { must } from './book';
import { canaryOf, movedTexts } from './canaries';
import type { Life, Phone } from './kinds';
import { everythingOn, rowsOn } from './snapshot';

/* What must hold of a phone whenever its app has started. */

/** [M10] Throws where a phone keeps anything of an erased client, wherever: whatever was written of them bears a canary. */
export function keepsNothingErased({ broughtBack }: Life, phone: Phone): void {
  const erased = [...phone.marks].filter((stream) => !broughtBack.has(stream) && !phone.erasing.has(stream));
  if (erased.length === 0) return;
  let everything = everythingOn(phone.device);
  for (const text of movedTexts) everything = everything.replaceAll(new RegExp(`${text}(?!\\d)`, 'g'), '');
  for (const stream of erased) {
    const found = everything.indexOf(canaryOf(stream));
    must(found < 0, () => `[M10] ${phone.name} keeps of ${stream}: ${everything.slice(found - 200, found + 40)}`);
  }
}

/** Throws where a session runs and is not in memory: the Floor would not know of it. */
export function holdsWhatRuns(phone: Phone): void {
  for (const row of rowsOn(phone.device.disk).values()) {
    const isThere = phone.app.log.get(`${row.stream}/${row.id}`) !== undefined;
    if (isThere || row.kind !== 'session' || Object.keys(shown(row)).length === 0) continue;
    const read = readSession(row.id, [{ id: row.id, values: shown(row) }]);
    must(!read || read.end !== undefined, () => `${phone.name} started without its session ${row.id}`);
  }
}
