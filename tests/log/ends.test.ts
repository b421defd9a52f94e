import { describe, expect, test } from 'vitest';
import { endsOf } from '../../src/analysis/ends';
import { NO_BODY } from '../../src/analysis/track';
import { endsAfter } from '../../src/log/ends';
import { putInto, takeFrom } from './fakes/disk';
import { turns } from './fakes/life';
import { entry, type Floor, onFloor, PULL, SQUAT } from './floor';
import { good } from './gym';
import { REAL } from './room';
import { atOf } from './suite-floor';
import { DAY, lastTimes, nextDay, reckoned, storedSeries, trained } from './suite-series';
import { relaunched } from './suite-writes';

/* [M7] How exercises stand: derived, kept with the client's own series row, and worked out again wherever it is due. */

/** Trains days on end: one set of the squat each, always the same load. */
async function months(first: Floor, days: number): Promise<Floor> {
  let floor = first;
  for (let day = 0; day < days; day += 1) {
    await trained(REAL, floor, [['100', '5']]);
    floor.device.world.pass(2 * DAY);
    floor = await nextDay(REAL, floor);
  }
  return floor;
}

describe('how exercises stand', () => {
  test('is what the engine makes of all ended sessions, and is read again after a restart', async () => {
    const floor = await months(await onFloor(REAL), 8);
    const { stream } = floor.place;
    await reckoned(floor.app, stream);
    const ends = floor.app.log.ends(stream) ?? [];
    expect(ends).toHaveLength(1);
    const exposures = floor.app.log.exposures(stream, SQUAT.id) ?? [];
    expect(exposures).toHaveLength(8);
    expect(ends).toEqual(endsOf(SQUAT, exposures, NO_BODY));
    expect(ends[0]).toMatchObject({ exercise: SQUAT.id, way: 'held', used: 8, unit: 'kg', reps: 5 });
    const next = await relaunched(REAL, floor);
    await reckoned(next, stream);
    expect(next.log.ends(stream)).toEqual(ends);
  });

  test('what a kill left due is worked out at the next start that asks', async () => {
    const floor = await months(await onFloor(REAL), 6);
    const { stream } = floor.place;
    await trained(REAL, floor, [['105', '5']]);
    const own = (await storedSeries(floor.device)).find((row) => row.exercise === '');
    expect(own).toBeDefined();
    floor.app.kill();
    // as a kill between the folding and the engine leaves it
    await putInto(floor.device.disk, 'log', 'series', { ...own, due: [SQUAT.id] });
    const next = await relaunched(REAL, floor);
    expect(next.log.ends(stream)).toBeUndefined();
    await reckoned(next, stream);
    expect(next.log.ends(stream)?.[0]).toMatchObject({ used: 7 });
    expect((await storedSeries(floor.device)).find((row) => row.exercise === '')?.due).toEqual([]);
  });

  test('a body mass that is noted later changes how loads added to the body stand, and its undo changes it back', async () => {
    let floor = await onFloor(REAL);
    const { stream } = floor.place;
    for (let day = 0; day < 7; day += 1) {
      const added = entry('10', '5', { exercise: PULL.id, body: 'added' });
      good(REAL.logSet(floor.app.log, floor.place, added, PULL, floor.device.world));
      await trained(REAL, floor, []);
      floor = await nextDay(REAL, floor);
    }
    await reckoned(floor.app, stream);
    const before = floor.app.log.ends(stream) ?? [];
    const { world } = atOf(floor);
    const { saved } = good(
      REAL.noteBodyMass(floor.app.log, stream, { mass: '62', unit: 'kg', day: '2026-03-02' }, world),
    );
    await saved;
    await turns(20);
    await reckoned(floor.app, stream);
    const after = floor.app.log.ends(stream) ?? [];
    // with load on it, and a body mass, it is the system that is moved: 0.958 of the body (de Leva 1996, both sexes) and 10 kg
    expect(after.find((end) => end.exercise === PULL.id)).toMatchObject({ way: 'system' });
    expect(after.find((end) => end.exercise === PULL.id)?.own).toBeCloseTo(0.9583 * 62, 1);
    expect(before.find((end) => end.exercise === PULL.id)?.way).not.toBe('system');
    floor.app.log.undo();
    await turns(20);
    await reckoned(floor.app, stream);
    expect(floor.app.log.ends(stream)).toEqual(before);
  });

  test('of a client without sessions there is nothing, at once', async () => {
    const floor = await onFloor(REAL);
    const { stream } = floor.place;
    await reckoned(floor.app, stream);
    expect(floor.app.log.ends(stream)).toEqual([]);
  });

  test('what is folded and not stored yet is reckoned with', async () => {
    const floor = await months(await onFloor(REAL), 6);
    const { stream } = floor.place;
    await reckoned(floor.app, stream);
    await lastTimes(floor.app, stream, SQUAT.id);
    // as while the store takes nothing: the rows are in memory alone
    for (const row of await storedSeries(floor.device))
      await takeFrom(floor.device.disk, 'log', 'series', [row.stream, row.exercise]);
    const made = await floor.app.run(() => floor.app.log.inside((core) => endsAfter(core, stream, [SQUAT.id])));
    expect(made).toEqual(floor.app.log.ends(stream));
    expect(made?.[0]).toMatchObject({ exercise: SQUAT.id, used: 6 });
  });

  test('a body mass whose kill came before anything was worked out is reckoned with at the next start', async () => {
    let floor = await onFloor(REAL);
    const { stream } = floor.place;
    for (let day = 0; day < 7; day += 1) {
      const added = entry('10', '5', { exercise: PULL.id, body: 'added' });
      good(REAL.logSet(floor.app.log, floor.place, added, PULL, floor.device.world));
      await trained(REAL, floor, []);
      floor = await nextDay(REAL, floor);
    }
    await reckoned(floor.app, stream);
    expect(floor.app.log.ends(stream)?.find((end) => end.exercise === PULL.id)?.way).not.toBe('system');
    const { saved } = good(
      REAL.noteBodyMass(floor.app.log, stream, { mass: '62', unit: 'kg', day: '2026-03-02' }, floor.device.world),
    );
    await saved;
    floor.app.kill();
    const next = await relaunched(REAL, floor);
    await turns(60);
    await reckoned(next, stream);
    expect(next.log.ends(stream)?.find((end) => end.exercise === PULL.id)?.way).toBe('system');
  });

  test('an exercise that comes into the library later is worked out then', async () => {
    let floor = await onFloor(REAL);
    const { stream } = floor.place;
    const own = { stream: 'main', id: 'ownlift000000001', kind: 'exercise' };
    for (let day = 0; day < 4; day += 1) {
      good(
        REAL.logSet(
          floor.app.log,
          floor.place,
          entry('40', '5', { exercise: own.id }),
          { ...SQUAT, id: own.id },
          floor.device.world,
        ),
      );
      await trained(REAL, floor, []);
      floor = await nextDay(REAL, floor);
    }
    await reckoned(floor.app, stream);
    expect(floor.app.log.ends(stream)).toEqual([]);
    await floor.app.log.commit({
      act: { type: 'edit-exercise' },
      rows: [{ name: own, changes: { name: 'Cloud hoist', holds: 'load' }, fresh: true }],
    });
    await reckoned(floor.app, stream);
    expect(floor.app.log.ends(stream)?.map((end) => end.exercise)).toEqual([own.id]);
  });
});
