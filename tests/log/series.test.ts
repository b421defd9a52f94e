import { afterAll, describe, expect, test } from 'vitest';
import { seriesTopic } from '../../src/log/watch';
import type { App } from './fakes/device';
import { putInto } from './fakes/disk';
import { turns } from './fakes/life';
import { type Floor, launched, log, onFloor, ROW, SQUAT } from './floor';
import { REAL } from './room';
import { DAY, lastTimes, nextDay, openList, seriesAreARebuild, storedSeries, trained } from './suite-series';
import { ended } from './suite-sets';
import { relaunched } from './suite-writes';

describe('last time', () => {
  test('an ended session is last time, in the next session and in a new launch', async () => {
    const first = await onFloor(REAL);
    await trained(REAL, first, [
      ['100', '5'],
      ['105', '3'],
    ]);
    const second = await nextDay(REAL, first);
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
    const second = await nextDay(REAL, first);
    const next = await relaunched(REAL, second);
    expect(await lastTimes(next, first.place.stream, SQUAT.id, second.place.session)).toEqual([['100x5']]);
  });

  test('the exercises a client did are told with when they were done, in this launch and the next; another client’s are not', async () => {
    const first = await onFloor(REAL);
    const { stream } = first.place;
    await trained(REAL, first, [['100', '5']]);
    const second = await nextDay(REAL, first);
    log(REAL, second, '60', '5', ROW);
    await log(REAL, second, '105', '5').saved;
    const starts = [first, second].map(
      ({ place }) => REAL.session(second.app.log, place.stream, place.session)?.start?.at,
    );
    const used = async (of: App, whose = stream) => {
      if (!of.log.usedExercises(whose)) await new Promise<void>((done) => of.log.watch([seriesTopic(whose)], done));
      return new Map(of.log.usedExercises(whose)?.map(({ exercise, times }) => [exercise, [...times].sort()]));
    };
    const expected = new Map([
      [SQUAT.id, starts],
      [ROW.id, [starts[1]]],
    ]);
    expect(await used(second.app)).toEqual(expected);
    const next = await relaunched(REAL, second);
    expect(await used(next)).toEqual(expected);
    expect(await used(next, 'nobody')).toEqual(new Map());
  });

  test('a session is not its own last time, nor is a later one', async () => {
    const first = await onFloor(REAL);
    await trained(REAL, first, [['100', '5']]);
    const second = await nextDay(REAL, first);
    await trained(REAL, second, [['110', '5']]);
    await first.app.log.loadSession(first.place.stream, first.place.session);
    expect(await lastTimes(first.app, first.place.stream, SQUAT.id, first.place.session)).toEqual([['110x5']]);
    const third = await nextDay(REAL, second);
    expect(await lastTimes(third.app, first.place.stream, SQUAT.id, third.place.session)).toEqual([
      ['110x5'],
      ['100x5'],
    ]);
  });

  test('with a clock set back, what there is is still last time', async () => {
    const first = await onFloor(REAL);
    await trained(REAL, first, [['100', '5']]);
    first.device.world.pass(-400 * DAY);
    const second = await nextDay(REAL, first);
    expect(await lastTimes(second.app, first.place.stream, SQUAT.id, second.place.session)).toEqual([['100x5']]);
  });

  test('an edit of an ended session shows at once and in a new launch', async () => {
    const first = await onFloor(REAL);
    const { app, place } = first;
    const { set } = log(REAL, first, '100', '5');
    await trained(REAL, first, []);
    const second = await nextDay(REAL, first);
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
      await trained(REAL, days.at(-1)!, [[String(100 + day), '5']]);
      days.push(await nextDay(REAL, days.at(-1)!));
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

  test('what stopped the exercise is kept however many sessions come after, until it is taken back', async () => {
    const first = await onFloor(REAL);
    const { set } = log(REAL, first, '60', '5');
    await REAL.touchUp(first.app.log, first.place, set, { pain: { value: 5 } });
    await trained(REAL, first, []);
    let today = await nextDay(REAL, first);
    for (let day = 1; day <= 6; day += 1) {
      await trained(REAL, today, [[String(100 + day), '5']]);
      today = await nextDay(REAL, today);
    }
    const stream = first.place.stream;
    const shown = async (app: App) => (await lastTimes(app, stream, SQUAT.id, today.place.session)).flat();
    const app = await relaunched(REAL, today);
    expect(await shown(app)).toEqual(['106x5', '105x5', '104x5', '103x5', '60x5']);
    await app.log.loadSession(stream, first.place.session);
    await REAL.touchUp(app.log, first.place, set, { pain: { value: 2 } });
    await turns(30);
    expect(await shown(await relaunched(REAL, { ...today, app }))).toEqual(['106x5', '105x5', '104x5', '103x5']);
  });

  test('pain the client came in with is told with the last session', async () => {
    const first = await onFloor(REAL);
    await REAL.tellPain(first.app.log, first.place, 3);
    await trained(REAL, first, [['100', '5']]);
    const second = await nextDay(REAL, first);
    await REAL.tellPain(second.app.log, second.place, 0);
    await trained(REAL, second, [['100', '5']]);
    const third = await nextDay(REAL, second);
    const next = await relaunched(REAL, third);
    const { stream, session } = third.place;
    await lastTimes(next, stream, '', session);
    expect(next.log.lastTimes(stream, '', session)?.map((time) => time.pain)).toEqual([undefined, 3]);
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
    await trained(REAL, first, [['100', '5']]);
    const second = await nextDay(REAL, first);
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
    await trained(REAL, first, [['100', '5']]);
    const second = await nextDay(REAL, first);
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
    const second = await nextDay(REAL, first);
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
    series.push(await seriesAreARebuild(REAL, seed));
  });
});
