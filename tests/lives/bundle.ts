import type { Saving } from '../../src/log/log';
import { EXPORT_FORMAT } from '../../src/merge/exportLines';
import { inNewStream } from '../../src/merge/newStream';
import type { Row } from '../../src/merge/row';
import { type Deeds, must } from './book';
import type { Life, Phone, Version } from './kinds';
import { comesIn, isErasing, observe } from './phone';
import { quiet, rowsOn, textIn } from './snapshot';
import { turns } from './timers';

/** Rows as they go from phone to phone: a text, and what its maker knew. */
export type Bundle = {
  readonly text: string;
  readonly rows: readonly Row[];
  readonly knows: ReadonlyMap<string, Deeds>;
  readonly marks: ReadonlySet<string>;
};

/** Returns a bundle of all that a phone holds, or of one client's rows with those of `main`. */
export async function bundleOf({ room }: Life, phone: Phone, stream?: string): Promise<Bundle> {
  const rows: Row[] = [];
  for (const one of stream === undefined ? [undefined] : ['main', stream]) {
    const read = await room.scanRows(phone.app.log, (some) => void rows.push(...some), one);
    must(read, () => `${phone.name} could not be read`);
  }
  const knows = new Map<string, Deeds>();
  for (const row of rows) {
    const key = `${row.stream}/${row.id}`;
    const last = phone.held.get(key)?.at(-1);
    if (last) knows.set(key, last.knows);
    must(row.kind === 'erased' || last !== undefined, () => `${phone.name} exports ${key}, and nobody put it there`);
    must(!phone.marks.has(row.stream), () => `[M10] ${phone.name} exports ${key}, which it erased`);
  }
  const head = JSON.stringify({ format: EXPORT_FORMAT, log: 'log', at: 0, rows: rows.length, databaseRead: true });
  const text = [head, ...rows.map((row) => JSON.stringify(row)), ''].join('\n');
  return { text, rows, knows, marks: new Set(rows.flatMap((row) => (row.kind === 'erased' ? [row.id] : []))) };
}

/** A file that was cut off is refused whole. */
export async function isCutOff({ room }: Life, { text }: Bundle, at: number): Promise<void> {
  const cut = text.slice(0, at % text.length);
  const read = await room.readExport(inPieces(cut), () => undefined);
  must(!read.ok, () => `a file of ${text.length} characters, cut at ${cut.length}, was taken`);
}

/** Prepares an import of a bundle and does not carry it out: nothing may change. */
export async function looksInto(life: Life, phone: Phone, bundle: Bundle): Promise<void> {
  await quiet(phone.device.disk);
  const before = [...rowsOn(phone.device.disk).values()].map(textIn).join('\n');
  await taken(life, phone, bundle, new Map());
  await quiet(phone.device.disk);
  const after = [...rowsOn(phone.device.disk).values()].map(textIn).join('\n');
  must(before === after, () => `${phone.name} changed by looking into a bundle`);
  observe(life, phone);
}

/** Imports a bundle. Returns when it is saved, or at once (`waits` false): then `done` tells. */
export async function imports(
  life: Life,
  phone: Phone,
  bundle: Bundle,
  asNew: ReadonlyMap<string, string> = new Map(),
): Promise<{ readonly done: Promise<void>; readonly changed: readonly Version[] }> {
  const prepared = await taken(life, phone, bundle, asNew);
  const erasing = [...bundle.marks].flatMap((stream) => (phone.marks.has(stream) ? [] : [isErasing(phone, stream)]));
  const changed = bundle.rows.flatMap((row) => {
    const to = asNew.get(row.stream);
    const moved = to === undefined ? row : inNewStream(row, row.stream, to);
    if (row.kind === 'erased' || phone.marks.has(moved.stream)) return [];
    const knows = to === undefined ? bundle.knows.get(`${row.stream}/${row.id}`) : undefined;
    return comesIn(life, phone, moved, knows) ?? [];
  });
  const saving: Saving = phone.app.run(() => prepared.commit());
  const done = saving.then(async (saved) => {
    if (!saved.ok) return;
    for (const one of [...changed, ...erasing]) one.acked = true;
    await phone.app.log.inside((core) => core.folding);
    await turns(1);
  });
  return { done, changed };
}

/** A text as it comes from a file, cut anywhere. */
async function* inPieces(text: string): AsyncGenerator<string> {
  const at = Math.floor(text.length / 3);
  yield text.slice(0, at);
  yield text.slice(at);
}

async function taken({ room }: Life, phone: Phone, bundle: Bundle, asNew: ReadonlyMap<string, string>) {
  const rows: unknown[] = [];
  const read = await room.readExport(inPieces(bundle.text), (some) => void rows.push(...some));
  must(read.ok, () => 'a whole file was refused');
  const prepared = room.beginImport(phone.app.log, asNew);
  const half = Math.floor(rows.length / 2);
  for (const part of [rows.slice(0, half), rows.slice(half)])
    must(await phone.app.run(() => prepared.take(part)), () => `${phone.name} could not be read`);
  const report = prepared.report();
  const told = report.new + report.changed + report.same + report.refused;
  must(told === bundle.rows.length, () => `${bundle.rows.length} rows were told as ${JSON.stringify(report)}`);
  return prepared;
}

/** Imports and waits. */
export async function importsWhole(life: Life, phone: Phone, bundle: Bundle): Promise<void> {
  const { done } = await imports(life, phone, bundle);
  await done;
  observe(life, phone);
}
