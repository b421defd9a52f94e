import { expect } from 'vitest';
import type { UndoEntry } from '../../src/log/undo';
import type { App } from './fakes/device';
import { lookInto, putInto } from './fakes/disk';
import { turns } from './fakes/life';
import { type Floor, launched, log, newClient, newSession, onFloor, sessionOnDisk, setsOf } from './floor';
import type { LogRoom } from './room';

/*
 * What must hold of logging a set, as functions over a room: tests/log/logSet.test.ts runs them on the real one, and
 * tests/log/planted.test.ts on copies with a fault, where they must fail.
 */

/** Where a kill falls: after so many turns of the event loop and so many steps in the next, and whether a commit asked for lands. */
export type Kill = { readonly turns: number; readonly steps: number; readonly lands: boolean };

/** What a new launch found of the act: nothing, all of it, and whether the killed app knew. */
export type Found = 'nothing' | 'all' | 'all-and-told';

const TYPED = { load: '102.5', reps: '5' };

/** Kills the app at a moment of logging a set. A new launch must find the set, its undo entry and no draft; or none of this and the draft. */
export async function allOrNothing(room: LogRoom, kill: Kill, seed: number): Promise<Found> {
  const floor = await onFloor(room, seed);
  const { device, app, place } = floor;
  await log(room, floor, '100', '5').saved;
  const before = app.log.lastAct();
  app.log.setDraft(room.padDraft(place), TYPED);
  app.log.flush();
  await app.log.retry();

  const logged = log(room, floor, TYPED.load, TYPED.reps);
  let told = false;
  void logged.saved.then((result) => {
    told = result.ok;
  });
  await turns(kill.turns);
  for (let step = 0; step < kill.steps; step += 1) await null;
  app.kill(kill.lands);
  const knew = told;
  await turns(30);

  const next = await launched(room, device);
  const isThere = setsOf(room, next, place).includes('102.5x5');
  if (knew) expect(isThere, 'a set told to be saved').toBe(true);
  expect(setsOf(room, next, place)).toEqual(isThere ? ['100x5', '102.5x5'] : ['100x5']);
  expect(next.log.draft(room.padDraft(place))).toEqual(isThere ? undefined : TYPED);
  if (!isThere) expect(next.log.lastAct()).toEqual(before);
  else {
    expect(next.log.lastAct()?.n).toBeGreaterThan(before?.n ?? 0);
    expect(next.log.lastAct()?.rows[0]?.before).toHaveProperty([`sets/${logged.set}/reps`], null);
  }
  next.kill();
  return knew ? 'all-and-told' : isThere ? 'all' : 'nothing';
}

/** A set that is told to be saved is on the disk at that very step. */
export async function savedIsOnDisk(room: LogRoom): Promise<void> {
  const floor = await onFloor(room);
  let release: () => void = () => undefined;
  const until = new Promise<void>((resolve) => {
    release = resolve;
  });
  floor.device.disk.fate = () => ({ type: 'told-late', until });
  const logged = log(room, floor, '100', '5');
  let told = false;
  void logged.saved.then(() => {
    told = true;
  });
  await turns(20);
  const key = room.keyOf({ stream: floor.place.stream, id: floor.place.session });
  expect(told, 'told before the transaction was complete').toBe(false);
  expect(floor.app.log.isSaved(key, `sets/${logged.set}`)).toBe(false);
  release();
  expect(await logged.saved).toEqual({ ok: true, value: undefined });
  expect(floor.app.log.isSaved(key, `sets/${logged.set}`)).toBe(true);
}

/** The row, the undo entry and the draft go in one strict transaction that reads nothing and is committed explicitly. */
export async function oneStrictTransaction(room: LogRoom): Promise<void> {
  const floor = await onFloor(room);
  const asked = floor.device.disk.asked;
  floor.app.log.setDraft(room.padDraft(floor.place), { load: '100' });
  floor.app.log.flush();
  await floor.app.log.retry();
  asked.length = 0;
  await log(room, floor, '100', '5').saved;
  await turns(20);
  const writing = asked.filter((one) => one.mode === 'readwrite');
  expect(writing.map(({ stores, durability, committed }) => ({ stores, durability, committed }))).toEqual([
    { stores: ['drafts', 'sessions', 'undo'], durability: 'strict', committed: true },
  ]);
  expect(writing[0]?.calls.toSorted()).toEqual(['delete drafts', 'put sessions', 'put undo']);
  const entry = writing[0]?.puts.find(({ store }) => store === 'undo')?.value as UndoEntry;
  const { stream, session: id } = floor.place;
  expect(entry.rows.map((row) => row.name)).toEqual([{ stream, id, kind: 'session' }]);
}

/** [M8] What this version does not know survives every act, byte for byte, in rows of known and unknown kinds. */
export async function unknownSurvives(room: LogRoom): Promise<void> {
  const { device, app, place } = await onFloor(room);
  const other = await newSession(room, { device, app }, await newClient(room, { device, app }, 'Client M'));
  app.kill();
  const stranger = {
    id: 'orbit1',
    kind: 'orbit',
    stream: place.stream,
    seen: [['z-9', 7]],
    body: { 'a/b': [7, 0, { c: [1, null] }] },
  };
  await putInto(device.disk, 'log', 'rows', stranger);
  const unknown = {
    constructor: [5, 0, 'own name'],
    tempo: [5, 0, { down: 3, up: 1.5, deep: [{ er: null }] }],
    'sets/zz/velocity': [6, 0, [0.31, 0.28], 5, 'y-1', [0.3]],
  };
  const [raw] = (await lookInto(device.disk, 'log', 'sessions')).filter(
    (one) => (one as { id: string }).id === place.session,
  );
  const row = raw as { seen: [string, number][]; body: Record<string, unknown[]> };
  const seen = [['z-9', 6], ...row.seen];
  const shifted = Object.entries(row.body).map(([path, [l, writer, value]]) => [path, [l, Number(writer) + 1, value]]);
  await putInto(device.disk, 'log', 'sessions', { ...row, seen, body: { ...Object.fromEntries(shifted), ...unknown } });
  const foreign = (await sessionOnDisk(device, place)).body;

  const next = await launched(room, device);
  await everyAct(room, { device, app: next, place }, other);
  const after = (await sessionOnDisk(device, place)).body;
  for (const path of Object.keys(unknown)) expect(JSON.stringify(after[path])).toBe(JSON.stringify(foreign[path]));
  expect(await lookInto(device.disk, 'log', 'rows')).toContainEqual(stranger);
  next.kill();
}

/** Does each act on sets and sessions once, and takes some back. */
async function everyAct(room: LogRoom, floor: Floor, other: Floor['place']): Promise<void> {
  const { device, app, place } = floor;
  const first = log(room, floor, '100', '5');
  const second = log(room, floor, '105', '3');
  await room.touchUp(app.log, place, first.set, { effort: { value: 2, as: 'left' } });
  room.noteSet(app.log, place, first.set, 'deep');
  await room.moveSet(app.log, place, second.set, other, device.world);
  await room.removeSet(app.log, place, first.set);
  await app.log.undo()?.saved;
  await room.listExercise(app.log, place, 'lib-deadlift', device.world);
  await ended(room, { device, app, place });
  await room.resumeSession(app.log, place);
  await room.removeSession(app.log, place);
  await app.log.undo()?.saved;
  await turns(30);
}

/** Ends a session, saying nothing about it. */
export async function ended(
  room: LogRoom,
  { device, app, place }: { device: Floor['device']; app: App; place: Floor['place'] },
): Promise<void> {
  const end = room.endSession(
    app.log,
    place,
    { effort: '', minutes: '', attendance: null, why: '', note: '' },
    device.world,
  );
  if (!end.ok) throw new Error(end.error.type);
  await end.value;
}
