import { expect } from 'vitest';
import { foldSession, type SeriesRow } from '../../src/log/series';
import { seriesTopic } from '../../src/log/watch';
import type { App, Device } from './fakes/device';
import { lookInto, putInto, takeFrom } from './fakes/disk';
import { turns } from './fakes/life';
import { type Floor, launched, log, newSession, onFloor, PULL, ROW, SQUAT } from './floor';
import type { LogRoom } from './room';
import { ended } from './suite-sets';
import { failOnce, relaunched } from './suite-writes';

/* What must hold of series: functions over a room, as in suite-sets.ts. */

export const DAY = 86_400_000;

/** Returns what the pad would say of last time: the sets of each session before, the newest first. */
export async function lastTimes(app: App, stream: string, exercise: string, before = ''): Promise<string[][]> {
  if (!app.log.lastTimes(stream, exercise, before)) {
    await new Promise<void>((resolve) => app.log.watch([seriesTopic(stream)], resolve));
  }
  const times = app.log.lastTimes(stream, exercise, before) ?? [];
  return times.map(({ sets }) => sets.map((set) => `${set.load?.value}x${set.reps}`));
}

/** Trains a whole session of one set a time and goes on to the next day. */
export async function trained(
  room: LogRoom,
  floor: Floor,
  sets: readonly [load: string, reps: string][],
): Promise<Floor['place']> {
  for (const [load, reps] of sets) log(room, floor, load, reps);
  await ended(room, floor);
  await turns(30);
  floor.device.world.pass(DAY);
  return floor.place;
}

export async function nextDay(room: LogRoom, floor: Floor): Promise<Floor> {
  return { ...floor, place: await newSession(room, floor, floor.place.stream) };
}

export const storedSeries = (device: Device): Promise<SeriesRow[]> =>
  lookInto(device.disk, 'log', 'series') as Promise<SeriesRow[]>;
export const openList = async (device: Device): Promise<unknown> => (await lookInto(device.disk, 'log', 'meta'))[0];

/** [M7] After any history, kills and failed saves included, series are what a rebuild gives. Returns how many rows that compared. */
export async function seriesAreARebuild(room: LogRoom, seed: number): Promise<number> {
  const first = await onFloor(room, seed);
  const { device } = first;
  const { pick } = device.world;
  const floors: Floor[] = [first];
  const exercises = [SQUAT, ROW, PULL];
  let app = first.app;
  for (let step = 0; step < 60; step += 1) {
    const floor = { ...floors[pick(floors.length)]!, app };
    const what = pick(12);
    await app.log.loadSession(floor.place.stream, floor.place.session);
    const read = room.session(app.log, floor.place.stream, floor.place.session);
    const set = read?.sets[pick(Math.max(1, read.sets.length))];
    if (what <= 3 && read) log(room, floor, String(60 + step), '5', exercises[pick(3)]);
    else if (what === 4) floors.push(await nextDay(room, floor));
    else if (what === 5 && set) void room.removeSet(app.log, floor.place, set.id);
    else if (what === 6 && set) void room.touchUp(app.log, floor.place, set.id, { exercise: exercises[pick(3)]!.id });
    else if (what === 7 && pick(3) === 0) void room.removeSession(app.log, floor.place);
    else if (what === 8) app.log.undo();
    else if (what === 9 && read?.end) void room.resumeSession(app.log, floor.place);
    else if (what === 10 && pick(3) === 0) failOnce(device, { type: 'aborts', error: 'QuotaExceededError' });
    else if (read) void ended(room, floor);
    device.world.pass(pick(3) * DAY);
    await turns(pick(25));
    if (pick(12) === 0) app = await relaunched(room, { ...floor, app });
  }
  device.disk.fate = undefined;
  await app.log.retry();
  for (const { place } of floors) {
    await app.log.loadSession(place.stream, place.session);
    const read = room.session(app.log, place.stream, place.session);
    if (read && !read.end) await ended(room, { device, app, place });
  }
  await turns(60);
  app = await relaunched(room, { ...first, app });
  await turns(200);
  expect(await openList(device)).toEqual([]);
  await reckoned(app, first.place.stream);
  const kept = meant(await storedSeries(device));
  app.kill();
  for (const { stream, exercise } of await storedSeries(device))
    await takeFrom(device.disk, 'log', 'series', [stream, exercise]);
  // one row of another version, and everything is made anew
  await putInto(device.disk, 'log', 'series', {
    ...foldSession(undefined, first.place.stream, '', '', undefined),
    version: 0,
  });
  const again = await launched(room, device);
  await lastTimes(again, first.place.stream, '');
  await reckoned(again, first.place.stream);
  expect(kept).toEqual(meant(await storedSeries(device)));
  return kept.length;
}

/** Waits until how the exercises stand is worked out and stored. */
export async function reckoned(app: App, stream: string): Promise<void> {
  for (let tries = 0; !app.log.ends(stream); tries += 1) {
    if (tries > 200) throw new Error('never worked out');
    // the engine is loaded for it
    await new Promise((done) => setTimeout(done, 5));
    await turns(5);
  }
  await turns(20);
}

/** A row with no session says nothing. */
const meant = (rows: readonly SeriesRow[]): unknown[] => rows.filter(({ last }) => last.length > 0);
