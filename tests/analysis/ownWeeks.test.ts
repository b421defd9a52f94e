import { describe, expect, test } from 'vitest';
import { maxLately } from '../../src/analysis/maxLately';
import { type OwnWeek, usualSum, weeksBefore } from '../../src/analysis/ownWeeks';
import type { SetRecord } from '../../src/domain/set';
import { shipped } from '../domain/made';
import { dayIn, kg } from '../reference/records';
import { did, mass } from './foundIn';

/* Which weeks a week is set beside, and what repetitions are weighed by. */

describe('the weeks that a week is set beside', () => {
  const week = (n: number, value: number, more: Partial<OwnWeek> = {}): OwnWeek => ({
    week: dayIn(7 * n),
    value,
    sets: 10,
    not: 0,
    ...more,
  });
  const values = (weeks: readonly OwnWeek[], n: number, setApart: readonly number[] = []) =>
    weeksBefore(weeks, dayIn(7 * n), new Set(setApart.map((one) => dayIn(7 * one)))).map(({ value }) => value);

  test('are the latest six before it, the oldest first, whatever order they come in', () => {
    const eight = [0, 1, 2, 3, 4, 5, 6, 7].map((n) => week(n, n));
    expect(values(eight.toReversed(), 7)).toEqual([1, 2, 3, 4, 5, 6]);
  });

  test('lie within a quarter of a year', () => {
    expect(values([week(0, 1), week(1, 2)], 13)).toEqual([1, 2]);
    expect(values([week(0, 1), week(1, 2)], 14)).toEqual([2]);
  });

  test('are none that were cut short, and none of which more than a tenth of the sets is not known', () => {
    const weeks = [week(0, 1), week(1, 2, { not: 1 }), week(2, 3, { not: 2 }), week(3, 4, { sets: 9, not: 1 })];
    expect(values(weeks, 4)).toEqual([1, 2, 4]);
    expect(values(weeks, 4, [1])).toEqual([1, 4]);
  });

  test('have a usual sum from four on: the middle of them', () => {
    const some = [3, 9, 4, 30].map((value, n) => week(n, value));
    expect(usualSum(some.slice(1))).toBeUndefined();
    // between 4 and 9
    expect(usualSum(some)).toBe(6.5);
  });
});

describe('what could be lifted once lately', () => {
  const SQUAT = shipped('lib-front-squat');
  const left = (value: number) => ({ value, as: 'left' }) as const;
  const set = (load: number, more: Partial<SetRecord> = {}): Partial<SetRecord> => ({
    load: kg(load),
    reps: 8,
    effort: left(2),
    ...more,
  });
  const on = (day: number, ...sets: readonly Partial<SetRecord>[]) => did(dayIn(day), SQUAT.id, sets);
  const max = (sessions: Parameters<typeof maxLately>[0], day: number) =>
    maxLately(sessions, SQUAT, { masses: [] })(dayIn(day));

  test('75 kg for 8 with 2 left are 100 kg; of a session the mean, of sessions the middle one', () => {
    expect(max([on(0, set(75))], 0)).toBeCloseTo(100, 9);
    expect(max([on(0, set(75), set(60))], 0)).toBeCloseTo(90, 9);
    expect(max([on(0, set(75)), on(1, set(60)), on(2, set(45))], 2)).toBeCloseTo(80, 9);
  });

  test('looks back on six weeks, and never ahead', () => {
    const sessions = [on(0, set(75)), on(50, set(60))];
    expect(max(sessions, 41)).toBeCloseTo(100, 9);
    expect(max(sessions, 42)).toBeUndefined();
    expect(max(sessions, 50)).toBeCloseTo(80, 9);
    expect(max(sessions, -1)).toBeUndefined();
  });

  test('takes only sets whose reps left were counted: none of "4 or more", of nothing, of warm-ups', () => {
    const untold = [set(90, { effort: { atLeast: 4 } }), { load: kg(90), reps: 8 }, set(90, { kind: 'warm-up' })];
    expect(max([on(0, ...untold)], 0)).toBeUndefined();
    expect(max([on(0, ...untold, set(75))], 0)).toBeCloseTo(100, 9);
  });

  test('with one’s own body it holds the share of it that is moved', () => {
    const pulled = did(dayIn(0), 'lib-pull-up', [{ reps: 8, effort: left(2) }]);
    const once = (masses: Parameters<typeof maxLately>[2]['masses']) =>
      maxLately([pulled], shipped('lib-pull-up'), { masses })(dayIn(0)) ?? 0;
    // a third more than the body's share, which lies between nine tenths and all of 60 kg
    expect(once([mass(60, dayIn(0))])).toBeGreaterThan(0.9 * 80);
    expect(once([mass(60, dayIn(0))])).toBeLessThanOrEqual(80);
    expect(once([])).toBe(0);
  });
});
