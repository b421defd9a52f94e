import { describe, expect, test } from 'vitest';
import { turns } from './fakes/life';
import { log, newSession, onFloor, SQUAT } from './floor';
import { REAL } from './room';
import { openList, storedSeries } from './suite-series';
import { ended } from './suite-sets';
import { failOnce } from './suite-writes';

/* [M7] Found by lives: what was not saved at once was not folded until the next start, or never. */

const full = { type: 'aborts', error: 'QuotaExceededError' } as const;

describe('a session whose change could not be saved at once', () => {
  test('is folded as soon as the end is saved after all', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    failOnce(floor.device, full);
    await ended(REAL, floor);
    await turns(30);
    expect(await storedSeries(floor.device)).toEqual([]);
    expect(await floor.app.log.retry()).toEqual({ ok: true, value: undefined });
    await turns(30);
    const series = await storedSeries(floor.device);
    expect(series.find(({ exercise }) => exercise === SQUAT.id)?.last[0]?.sets).toHaveLength(1);
    expect(await openList(floor.device)).toEqual([]);
  });

  test('is folded with the next act that is saved, whatever that is', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    failOnce(floor.device, full);
    await ended(REAL, floor);
    const next = { ...floor, place: await newSession(REAL, floor, floor.place.stream) };
    await turns(30);
    expect((await storedSeries(floor.device)).map(({ exercise }) => exercise)).toContain(SQUAT.id);
    expect(await openList(floor.device)).toEqual([`${next.place.stream}/${next.place.session}`]);
  });

  test('stays on the list of what is to be folded while an earlier change of it is', async () => {
    for (let turn = 0; turn < 12; turn += 1) {
      const floor = await onFloor(REAL, turn);
      const { app, device, place } = floor;
      const sets = [log(REAL, floor, '100', '5').set, log(REAL, floor, '105', '3').set];
      await ended(REAL, floor);
      await turns(30);
      await REAL.removeSet(app.log, place, sets[0] ?? '');
      await turns(turn);
      failOnce(device, full);
      await REAL.removeSet(app.log, place, sets[1] ?? '');
      await turns(30);
      expect((await app.log.retry()).ok).toBe(true);
      await turns(40);
      const series = (await storedSeries(device)).find(({ exercise }) => exercise === SQUAT.id);
      expect(series?.last, `after ${turn} turns`).toEqual([]);
      expect(await openList(device)).toEqual([]);
    }
  });
});
