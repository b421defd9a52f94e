import type { Entry } from '../../src/domain/entry';
import type { Fault, Result } from '../../src/domain/result';
import { beginImport } from '../../src/log/absorb';
import type { Log } from '../../src/log/log';
import { logSet, type SessionPlace } from '../../src/log/logSet';
import { scanRows } from '../../src/log/scan';
import { OWN_LOG } from '../../src/log/showing';
import { startLog } from '../../src/log/start';
import { exercise } from '../../src/log/views';
import type { Row } from '../../src/merge/row';
import { workingEntry } from '../domain/made';
import { type App, createDevice, type Device, launch } from '../log/fakes/device';
import type { TestWorld } from '../log/fakes/world';
import { atRest } from '../log/goldenDevice';

/** A phone with the app open, and what its trainer does on it. */
export type Phone = { readonly device: Device; readonly app: App; readonly log: Log; readonly world: TestWorld };

/** Returns a new phone with the app open. */
export async function newPhone(seed: number): Promise<Phone> {
  const device = createDevice(seed);
  const app = launch(device, startLog, OWN_LOG);
  await atRest(app.log);
  return { device, app, log: app.log, world: device.world };
}

/** Returns what went well; anything else ends the making. */
export function must<T, E extends Fault>(result: Result<T, E>): T {
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.error)}`);
  return result.value;
}

type Saved = Promise<Result<void, Fault>>;

/** Waits until an act is saved and lets a minute pass; returns the id of what it added, '' where it added none. */
export async function did(
  { world }: Pick<Phone, 'world'>,
  act: Saved | undefined | Result<Saved | { readonly id?: string; readonly saved: Saved }, Fault>,
): Promise<string> {
  if (!act) throw new Error('nothing was done');
  const done = 'ok' in act ? must(act) : act;
  const { id = '', saved } = 'saved' in done ? done : { saved: done };
  must(await saved);
  world.pass(60_000);
  return id;
}

/** Returns an exercise of a log's library. */
export function of(log: Log, id: string) {
  const found = exercise(log, id);
  if (!found) throw new Error(`no exercise ${id}`);
  return found;
}

/** Logs a set, waits until it is saved and lets two minutes pass; returns its id. */
export async function logged(phone: Phone, place: SessionPlace, id: string, more: Partial<Entry>): Promise<string> {
  const { set, saved } = must(logSet(phone.log, place, workingEntry(id, more), of(phone.log, id), phone.world));
  must(await saved);
  phone.world.pass(120_000);
  return set;
}

/** Takes rows in from outside. */
export async function takes({ app, log }: Phone, rows: readonly unknown[]): Promise<void> {
  const prepared = app.run(() => beginImport(log));
  await app.run(() => prepared.take(rows));
  must(await app.run(() => prepared.commit()));
  await atRest(log);
}

/** Carries all rows of one phone to another. */
export async function carried(from: Phone, to: Phone): Promise<void> {
  const rows: Row[] = [];
  await from.app.run(() => scanRows(from.log, (some) => void rows.push(...some)));
  await takes(to, rows);
}
