import { expect } from 'vitest';
import type { StoredRow } from '../../src/log/encode';
import type { Json, Row } from '../../src/merge/row';
import { type Device, launch } from './fakes/device';
import { type Fate, lookInto, putInto } from './fakes/disk';
import { turns } from './fakes/life';
import { type Floor, launched, log, onFloor, setsOf } from './floor';
import type { LogRoom } from './room';

/* What must hold of writing when the store refuses, fails or is lost: functions over a room, as in suite-sets.ts. */

/** A transaction that fails this way is another one's turn, and then the store works again. */
export function failOnce(device: Device, fate: Fate): void {
  device.disk.fate = () => {
    device.disk.fate = undefined;
    return fate;
  };
}

/** A stamp never names two values: not after failures, undo, restarts, in nothing that was ever put or is shown. */
export async function stampNamesOneValue(room: LogRoom, seed: number): Promise<void> {
  const floor = { ...(await onFloor(room, seed)) };
  const { device, place } = floor;
  const world = device.world;
  const sets: string[] = [log(room, floor, '60', '5').set];
  const faults: Fate[] = [
    { type: 'aborts', error: 'QuotaExceededError' },
    { type: 'aborts', error: null },
    { type: 'stored-but-lost', error: 'UnknownError' },
    { type: 'refused', error: 'InvalidStateError' },
  ];
  device.disk.fate = () => (world.pick(3) === 0 ? faults[world.pick(faults.length)] : undefined);
  const values = new Map<string, string>();
  const note = (row: Row): void => {
    for (const [path, register] of Object.entries(row.body)) {
      for (const { stamp, value } of register) oneValue(values, `${row.id} ${path} ${stamp.l} ${stamp.writer}`, value);
    }
  };
  for (let step = 0; step < 40; step += 1) {
    // a kill takes sets away that were not saved
    const there = floor.app.log.get(room.keyOf({ stream: place.stream, id: place.session }))?.body ?? {};
    const known = sets.filter((one) => there[`sets/${one}/reps`]);
    const set = known[world.pick(Math.max(1, known.length))];
    const what = world.pick(8);
    if (what < 2) sets.push(log(room, floor, String(60 + step), '5').set);
    else if (what < 5 && set)
      void room.touchUp(floor.app.log, place, set, { effort: { value: world.pick(6), as: 'left' } });
    else if (what === 5) floor.app.log.undo();
    else if (what === 6) await floor.app.log.retry();
    else if (step % 3 === 0) {
      floor.app.kill(world.pick(2) === 0);
      await turns(20);
      floor.app = await launched(room, device);
    }
    // the clock stands still, and now and then goes back: stamps must differ without it
    if (world.pick(5) === 0) world.pass(-100_000);
    for (const row of floor.app.log.ofKind('session')) note(row);
    await turns(world.pick(12));
  }
  for (const asked of device.disk.asked) {
    for (const { store, value } of asked.puts) if (store === 'sessions') noteStored(values, value as StoredRow);
  }
  expect(values.size).toBeGreaterThan(20);
}

/** Reads a stored row by the format that encode.ts documents, without its code. */
function noteStored(values: Map<string, string>, { id, seen, body }: StoredRow): void {
  for (const [path, packed] of Object.entries(body)) {
    for (let i = 0; i < packed.length; i += 3) {
      const [l, writer, value] = packed.slice(i, i + 3);
      const name = typeof writer === 'number' ? seen[writer]?.[0] : writer;
      oneValue(values, `${id} ${path} ${l} ${name}`, value ?? null);
    }
  }
}

function oneValue(values: Map<string, string>, stamp: string, value: Json): void {
  const text = JSON.stringify(value);
  expect(values.get(stamp) ?? text, `two values under ${stamp}`).toBe(text);
  values.set(stamp, text);
}

/** A stamp given out for a row stays burnt for the launch, when the row is forgotten and read again too. */
export function burntStampStaysBurnt(room: LogRoom): void {
  const memory = room.createMemory('w-1', () => undefined);
  const name = { stream: 'c1', id: 's1', kind: 'session' };
  const stored = { ...name, seen: {}, body: {} };
  const abandoned = memory.write(name, { note: 'abandoned' }, 1000);
  memory.forget(['c1/s1']);
  memory.absorb(stored);
  const next = memory.write(name, { note: 'kept' }, 1000);
  expect(next.l).toBeGreaterThan(abandoned.l);
}

/** The outcome of a lost write is unknown: the row is read again and merged, so what another tab wrote meanwhile is not written over. */
export async function lostIsReadAndMerged(room: LogRoom, fate: Fate): Promise<void> {
  const floor = await onFloor(room);
  const { device, app, place } = floor;
  await log(room, floor, '100', '5').saved;
  failOnce(device, fate);
  const before = device.disk.opened;
  // when the transaction is over and before it is tried again, another tab's set is in the store
  device.disk.whileOpening = () => wroteMeanwhile(device, floor);
  const lost = log(room, floor, '105', '3');
  expect(await lost.saved).toEqual({ ok: true, value: undefined });
  expect(device.disk.opened - before, 'opened anew once').toBe(1);
  expect(setsOf(room, app, place)).toEqual(['70x12', '100x5', '105x3']);
  device.disk.whileOpening = undefined;
  app.kill();
  const next = await launched(room, device);
  expect(setsOf(room, next, place)).toEqual(['70x12', '100x5', '105x3']);
  next.kill();
}

/** Puts a set by another writer into the session's stored row. */
async function wroteMeanwhile(device: Device, { place }: Floor): Promise<void> {
  const stored = (await lookInto(device.disk, 'log', 'sessions')) as StoredRow[];
  const row = stored.find(({ id }) => id === place.session);
  if (!row) throw new Error('no session on the disk');
  const l = Math.max(...row.seen.map(([, highest]) => highest)) + 1;
  const set = {
    at: { at: 1, day: '1970-01-01', zone: 'UTC' },
    exercise: 'lib-back-squat',
    kind: 'working',
    load: { value: 70, unit: 'kg' },
    reps: 12,
  };
  const others = Object.fromEntries(
    Object.entries(set).map(([path, value]) => [`sets/other1/${path}`, [l, 'other-1', value]]),
  );
  await putInto(device.disk, 'log', 'sessions', {
    ...row,
    seen: [...row.seen, ['other-1', l]],
    body: { ...row.body, ...others },
  });
}

/** A log of another launch on the same device, for what is found after a kill. */
export async function relaunched(room: LogRoom, { device, app }: Floor) {
  app.kill();
  await turns(5);
  const next = launch(device, room.startLog);
  await next.log.ready;
  return next;
}
