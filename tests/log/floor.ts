import { vi } from 'vitest';
import type { Entry } from '../../src/domain/entry';
import type { Exercise } from '../../src/domain/exercise';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import { unpackRow } from '../../src/log/encode';
import type { SessionPlace } from '../../src/log/logSet';
import type { EndFields } from '../../src/log/sessionActs';
import type { Row } from '../../src/merge/row';
import { workingEntry } from '../domain/made';
import { type App, createDevice, type Device, launch } from './fakes/device';
import { lookInto } from './fakes/disk';
import { turns } from './fakes/life';
import type { LogRoom } from './room';

/** A trainer in the middle of a client's session. */
export type Floor = { readonly device: Device; readonly app: App; readonly place: SessionPlace };

/** The exercise the floor trains. */
export const SQUAT = SHIPPED_EXERCISES.find(({ id }) => id === 'lib-back-squat') as Exercise;
export const ROW = SHIPPED_EXERCISES.find(({ id }) => id === 'lib-one-arm-row') as Exercise;
export const PULL = SHIPPED_EXERCISES.find(({ id }) => id === 'lib-pull-up') as Exercise;

/** Returns the pad's texts for a working set of the squat. */
export const entry = (load: string, reps: string, more: Partial<Entry> = {}): Entry =>
  workingEntry(SQUAT.id, { load, reps, ...more });

/** The end of a session about which nothing is said. */
export const SAID_NOTHING: EndFields = { effort: '', minutes: '', attendance: null, why: '', note: '' };

/** Launches the app on a new device, adds a client and starts a session, all saved. */
export async function onFloor(room: LogRoom, seed = 1): Promise<Floor> {
  const device = createDevice(seed);
  const app = await launched(room, device);
  const place = await newSession(room, { device, app }, await newClient(room, { device, app }, 'Client K'));
  return { device, app, place };
}

/** Launches the app and waits until it is open: beside another tab that is when it has waited in vain for the seat. */
export async function launched(room: LogRoom, device: Device): Promise<App> {
  const app = launch(device, room.startLog);
  await opened(app);
  return app;
}

/** Waits until an app is open, where timers are moved by hand too. */
export async function opened(app: App): Promise<void> {
  let open = false;
  const ready = app.log.ready.then(() => {
    open = true;
  });
  for (let turn = 1; vi.isFakeTimers() && !open; turn += 1) {
    await Promise.race([ready, turns(1)]);
    if (!open && turn % 40 === 0) await vi.advanceTimersByTimeAsync(350);
  }
  await ready;
}

export async function newClient(room: LogRoom, { device, app }: Omit<Floor, 'place'>, alias: string): Promise<string> {
  const added = room.saveClient(app.log, { alias, short: '', dayName: '', day: '' }, device.world);
  if (!added.ok) throw new Error(added.error.type);
  await added.value.saved;
  return added.value.id;
}

export async function newSession(
  room: LogRoom,
  { device, app }: Omit<Floor, 'place'>,
  stream: string,
): Promise<SessionPlace> {
  const { session, saved } = room.startSession(app.log, stream, device.world);
  await saved;
  return { stream, session };
}

/** Logs a set without waiting for the store. */
export function log(room: LogRoom, { device, app, place }: Floor, load: string, reps: string, exercise = SQUAT) {
  const side = exercise.sides === 'each' ? ('left' as const) : null;
  const logged = room.logSet(
    app.log,
    place,
    entry(load, reps, { exercise: exercise.id, side }),
    exercise,
    device.world,
  );
  if (!logged.ok) throw new Error(`not a set: ${logged.error.type}`);
  device.world.pass(90_000);
  return logged.value;
}

/** Returns what a session shows, a text a set: `100x5`. */
export function setsOf(room: LogRoom, app: App, { stream, session }: SessionPlace): string[] {
  return (room.session(app.log, stream, session)?.sets ?? []).map(
    (set) => `${set.load?.value ?? ''}x${set.reps ?? ''}`,
  );
}

/** Returns the rows of a store as they lie on the disk, whoever runs. */
export async function onDisk(device: Device, store: 'rows' | 'sessions' | 'results'): Promise<Row[]> {
  const stored = await lookInto(device.disk, 'log', store);
  return stored.map((one) => {
    const row = unpackRow(one);
    if (!row.ok) throw new Error(`unreadable: ${JSON.stringify(one)}`);
    return row.value;
  });
}

/** Returns the row of a session as it lies on the disk. */
export async function sessionOnDisk(device: Device, { stream, session }: SessionPlace): Promise<Row> {
  const row = (await onDisk(device, 'sessions')).find((one) => one.stream === stream && one.id === session);
  if (!row) throw new Error(`no session ${session} on the disk`);
  return row;
}
