import { afterAll, describe, expect, test } from 'vitest';
import type { SeriesRow } from '../../src/log/series';
import { foldSession } from '../../src/log/series';
import { seriesTopic } from '../../src/log/watch';
import type { App, Device } from './fakes/device';
import { lookInto, putInto, takeFrom } from './fakes/disk';
import { turns } from './fakes/life';
import { type Floor, launched, log, newSession, onFloor, PULL, ROW, SQUAT } from './floor';
import { REAL } from './room';
import { ended } from './suite-sets';
import { failOnce, relaunched } from './suite-writes';

const DAY = 86_400_000;

/** Returns what the pad would say of last time: the sets of each session before, the newest first. */
async function lastTimes(app: App, stream: string, exercise: string, before = ''): Promise<string[][]> {
  if (!app.log.lastTimes(stream, exercise, before)) {
    await new Promise<void>((resolve) => app.log.watch([seriesTopic(stream)], resolve));
  }
  const times = app.log.lastTimes(stream, exercise, before) ?? [];
  return times.map(({ sets }) => sets.map((set) => `${set.load?.value}x${set.reps}`));
}

/** Trains a whole session of one set a time and goes on to the next day. */
async function trained(floor: Floor, sets: readonly [load: string, reps: string][]): Promise<Floor['place']> {
  for (const [load, reps] of sets) log(REAL, floor, load, reps);
  await ended(REAL, floor);
  await turns(30);
  floor.device.world.pass(DAY);
  return floor.place;
}

async function nextDay(floor: Floor): Promise<Floor> {
  return { ...floor, place: await newSession(REAL, floor, floor.place.stream) };
}

const storedSeries = (device: Device): Promise<SeriesRow[]> =>
  lookInto(device.disk, 'log', 'series') as Promise<SeriesRow[]>;
const openList = async (device: Device): Promise<unknown> => (await lookInto(device.disk, 'log', 'meta'))[0];

describe('last time', () => {
  test('an ended session is last time, in the next session and in a new launch', async () => {
    const first = await onFloor(REAL);
    await trained(first, [
      ['100', '5'],
      ['105', '3'],
    ]);
    const second = await nextDay(first);
    const stream = first.place.stream;
    expect(await lastTimes(second.app, stream, SQUAT.id, second.place.session)).toEqual([['100x5', '105x3']]);
    expect(await openList(first.device)).toEqual([`${stream}/${second.place.session}`]);
    const next = await relaunched(REAL, second);
    expect(
      next.log.get(`${stream}/${first.place.session}`),
      'read from the series, not from the session',
    ).toBeUndefined();
    expect(await lastTimes(next, stream, SQUAT.id, second.place.session)).toEqual([['100x5', '105x3']]);
    expect(await lastTimes(next, stream, 'lib-deadlift', second.place.session)).toEqual([]);
  });

  test('a session of another day that nobody ended counts too', async () => {
    const first = await onFloor(REAL);
    await log(REAL, first, '100', '5').saved;
    first.device.world.pass(DAY);
    const second = await nextDay(first);
    const next = await relaunched(REAL, second);
    expect(await lastTimes(next, first.place.stream, SQUAT.id, second.place.session)).toEqual([['100x5']]);
  });

  test('a session is not its own last time, nor is a later one', async () => {
    const first = await onFloor(REAL);
    await trained(first, [['100', '5']]);
    const second = await nextDay(first);
    await trained(second, [['110', '5']]);
    await first.app.log.loadSession(first.place.stream, first.place.session);
    expect(await lastTimes(first.app, first.place.stream, SQUAT.id, first.place.session)).toEqual([['110x5']]);
    const third = await nextDay(second);
    expect(await lastTimes(third.app, first.place.stream, SQUAT.id, third.place.session)).toEqual([
      ['110x5'],
      ['100x5'],
    ]);
  });

  test('with a clock set back, what there is is still last time', async () => {
    const first = await onFloor(REAL);
    await trained(first, [['100', '5']]);
    first.device.world.pass(-400 * DAY);
    const second = await nextDay(first);
    expect(await lastTimes(second.app, first.place.stream, SQUAT.id, second.place.session)).toEqual([['100x5']]);
  });

  test('an edit of an ended session shows at once and in a new launch', async () => {
    const first = await onFloor(REAL);
    const { app, place } = first;
    const { set } = log(REAL, first, '100', '5');
    await trained(first, []);
    const second = await nextDay(first);
    await REAL.touchUp(app.log, place, set, { reps: 6 });
    expect(await lastTimes(app, place.stream, SQUAT.id, second.place.session)).toEqual([['100x6']]);
    await turns(30);
    expect(await openList(first.device)).toEqual([`${place.stream}/${second.place.session}`]);
    const next = await relaunched(REAL, second);
    expect(await lastTimes(next, place.stream, SQUAT.id, second.place.session)).toEqual([['100x6']]);
  });

  test('removed, it makes room for the one before; undone, it is back', async () => {
    const days: Floor[] = [await onFloor(REAL)];
    for (let day = 1; day <= 6; day += 1) {
      await trained(days.at(-1)!, [[String(100 + day), '5']]);
      days.push(await nextDay(days.at(-1)!));
    }
    const today = days.at(-1)!;
    const stream = today.place.stream;
    let app = today.app;
    const shown = async () => {
      app.kill();
      app = await launched(REAL, today.device);
      return (await lastTimes(app, stream, SQUAT.id, today.place.session)).flat();
    };
    expect(await shown()).toEqual(['106x5', '105x5', '104x5', '103x5']);
    for (const day of [5, 4]) {
      const place = days[day]!.place;
      await app.log.loadSession(stream, place.session);
      await REAL.removeSession(app.log, place);
      await turns(30);
    }
    expect((await lastTimes(app, stream, SQUAT.id, today.place.session)).flat()).toEqual([
      '104x5',
      '103x5',
      '102x5',
      '101x5',
    ]);
    await app.log.undo()?.saved;
    await turns(30);
    expect(await shown()).toEqual(['105x5', '104x5', '103x5', '102x5']);
  });
});

describe('folding', () => {
  test('a kill between the end and the fold is made good at the next start', async () => {
    const floor = await onFloor(REAL);
    log(REAL, floor, '100', '5');
    // the end is stored, the series never
    floor.device.disk.fate = ({ stores }) =>
      stores.includes('series') ? { type: 'aborts', error: 'QuotaExceededError' } : undefined;
    await ended(REAL, floor);
    await turns(20);
    expect(await storedSeries(floor.device)).toEqual([]);
    expect(await openList(floor.device)).toEqual([`${floor.place.stream}/${floor.place.session}`]);
    floor.device.disk.fate = undefined;
    const next = await relaunched(REAL, floor);
    await turns(40);
    expect((await storedSeries(floor.device)).map(({ exercise }) => exercise)).toEqual(['', SQUAT.id]);
    expect(await openList(floor.device)).toEqual([]);
    expect(await lastTimes(next, floor.place.stream, SQUAT.id)).toEqual([['100x5']]);
  });

  test('a session taken up again while it is folded stays among the running ones', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    await turns(20);
    for (let turn = 0; turn < 8; turn += 1) {
      await ended(REAL, floor);
      await turns(turn);
      await REAL.resumeSession(floor.app.log, floor.place);
      await turns(30);
      expect(await openList(floor.device), `after ${turn} turns`).toEqual([
        `${floor.place.stream}/${floor.place.session}`,
      ]);
    }
  });

  test('where series cannot be read, older last times are not written over', async () => {
    const first = await onFloor(REAL);
    await trained(first, [['100', '5']]);
    const second = await nextDay(first);
    log(REAL, second, '105', '5');
    await second.app.log.retry();
    first.device.disk.readsFail = true;
    await ended(REAL, second);
    await turns(30);
    first.device.disk.readsFail = false;
    const next = await relaunched(REAL, second);
    await turns(40);
    expect(await lastTimes(next, first.place.stream, SQUAT.id)).toEqual([['105x5'], ['100x5']]);
  });

  test('of another version they are made anew, for every exercise', async () => {
    const first = await onFloor(REAL);
    log(REAL, first, '40', '8', ROW);
    await trained(first, [['100', '5']]);
    const second = await nextDay(first);
    first.app.kill();
    for (const row of await storedSeries(first.device)) {
      await putInto(first.device.disk, 'log', 'series', {
        ...row,
        version: row.version + 1,
        last: [{ from: 'another version' }],
      });
    }
    const next = await launched(REAL, first.device);
    expect(await lastTimes(next, first.place.stream, SQUAT.id, second.place.session)).toEqual([['100x5']]);
    await turns(30);
    expect(await lastTimes(next, first.place.stream, ROW.id, second.place.session)).toEqual([['40x8']]);
    expect(new Set((await storedSeries(first.device)).map(({ version }) => version)).size).toBe(1);
  });

  test('two sessions ended in one step are both folded', async () => {
    const first = await onFloor(REAL);
    const second = await nextDay(first);
    log(REAL, first, '100', '5');
    log(REAL, second, '110', '5');
    await Promise.all([ended(REAL, first), ended(REAL, second)]);
    await turns(40);
    const next = await relaunched(REAL, first);
    expect((await lastTimes(next, first.place.stream, SQUAT.id)).flat().toSorted()).toEqual(['100x5', '110x5']);
  });
});

describe('[M7] series are what a rebuild from the sessions would give', () => {
  const series: number[] = [];
  afterAll(() => {
    // histories that left nothing to compare would prove nothing
    expect(series.filter((rows) => rows > 2).length).toBeGreaterThan(series.length / 2);
  });

  test.each(Array.from({ length: 24 }, (_, seed) => seed))('seed %i', async (seed) => {
    const first = await onFloor(REAL, seed);
    const { device } = first;
    const { pick } = device.world;
    const floors: Floor[] = [first];
    const exercises = [SQUAT, ROW, PULL];
    let app = first.app;
    for (let step = 0; step < 60; step += 1) {
      const floor = { ...floors[pick(floors.length)]!, app };
      const what = pick(12);
      await app.log.loadSession(floor.place.stream, floor.place.session);
      const read = REAL.session(app.log, floor.place.stream, floor.place.session);
      const set = read?.sets[pick(Math.max(1, read.sets.length))];
      if (what <= 3 && read) log(REAL, floor, String(60 + step), '5', exercises[pick(3)]);
      else if (what === 4) floors.push(await nextDay(floor));
      else if (what === 5 && set) void REAL.removeSet(app.log, floor.place, set.id);
      else if (what === 6 && set) void REAL.touchUp(app.log, floor.place, set.id, { exercise: exercises[pick(3)]!.id });
      else if (what === 7 && pick(3) === 0) void REAL.removeSession(app.log, floor.place);
      else if (what === 8) app.log.undo();
      else if (what === 9 && read?.end) void REAL.resumeSession(app.log, floor.place);
      else if (what === 10 && pick(3) === 0) failOnce(device, { type: 'aborts', error: 'QuotaExceededError' });
      else if (read) void ended(REAL, floor);
      device.world.pass(pick(3) * DAY);
      await turns(pick(25));
      if (pick(12) === 0) app = await relaunched(REAL, { ...floor, app });
    }
    device.disk.fate = undefined;
    await app.log.retry();
    for (const { place } of floors) {
      await app.log.loadSession(place.stream, place.session);
      const read = REAL.session(app.log, place.stream, place.session);
      if (read && !read.end) await ended(REAL, { device, app, place });
    }
    await turns(60);
    app = await relaunched(REAL, { ...first, app });
    await turns(200);
    expect(await openList(device)).toEqual([]);
    const kept = meant(await storedSeries(device));
    app.kill();
    for (const { stream, exercise } of await storedSeries(device))
      await takeFrom(device.disk, 'log', 'series', [stream, exercise]);
    // one row of another version, and everything is made anew
    await putInto(device.disk, 'log', 'series', {
      ...foldSession(undefined, first.place.stream, '', '', undefined),
      version: 0,
    });
    const again = await launched(REAL, device);
    await lastTimes(again, first.place.stream, '');
    await turns(40);
    expect(kept).toEqual(meant(await storedSeries(device)));
    series.push(kept.length);
  });
});

/** A row with no session says nothing. */
const meant = (rows: readonly SeriesRow[]): unknown[] => rows.filter(({ last }) => last.length > 0);
