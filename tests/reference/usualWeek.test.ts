import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { tonnage, totalTonnage } from '../../src/analysis/tonnage';
import { partialWeeks, usualWeek } from '../../src/analysis/usualWeek';
import { shipped } from '../domain/made';
import { anyHistory, dayIn, expectFinite, forAny, inPounds, kg, mirrored, times, trained } from './records';

const LATER = dayIn(1000);
const weeksOf = (...sums: (number | undefined)[]) =>
  sums.map((sum, n) => ({ week: dayIn(7 * n), comparable: 1, ...(sum === undefined ? {} : { kg: sum }) }));
const last = (...sums: (number | undefined)[]) =>
  usualWeek(weeksOf(...sums), { week: dayIn(7 * (sums.length - 1)), today: LATER });

describe('against values worked by hand from our own simulation study (STATS.md §5)', () => {
  test('six equal weeks: only the prior spreads, by 0.18 × √½ = 0.1272792', () => {
    // ln 1.5 / 0.1272792 = 3.185635; e^(2.5 × 0.1272792) = 1.374624
    const told = last(1000, 1000, 1000, 1000, 1000, 1000, 1500);
    expect(told).toMatchObject({ type: 'above', kg: 1500 });
    if (!('z' in told)) return expect.fail();
    expect(told.z).toBeCloseTo(3.185635, 5);
    expect(told.usual).toBeCloseTo(1000, 6);
    expect(told.high).toBeCloseTo(1374.62, 1);
    expect(told.low).toBeCloseTo(727.47, 1);
  });

  test('four weeks of 800, 900, 1100, 1200 before: by hand, with the fewer weeks weighing less', () => {
    // logs 6.684612 6.802395 7.003065 7.090077; median 6.902730; deviations .218118 .100335 .100335 .187347, their median .143841;
    // × 1.4826 = .213259; (4 × .0454794 + 6 × .0324) / 10 = .0376318, SD .193989; (ln 500 − 6.902730) / .193989 = −3.5468
    const told = last(800, 900, 1100, 1200, 500);
    expect(told.type).toBe('below');
    if ('z' in told) expect(told.z).toBeCloseTo(-3.5468, 3);
  });
});

describe('our own choice', () => {
  test('30 % more or less of even weeks is usual; what lies beyond the range is told', () => {
    for (const [sum, type] of [
      [1300, 'usual'],
      [760, 'usual'],
      [1400, 'above'],
      [700, 'below'],
    ] as const)
      expect(last(1000, 1000, 1000, 1000, 1000, 1000, sum).type).toBe(type);
  });

  test('three weeks are too few; weeks of nothing and lighter ones are no reference', () => {
    expect(last(1000, 1000, 1000, 1500)).toEqual({ type: 'too-few', has: 3, needs: 4 });
    expect(last(1000, undefined, 1000, undefined, 1000, 1500)).toEqual({ type: 'too-few', has: 3, needs: 4 });
    const setApart = new Set([dayIn(0)]);
    const asked = { week: dayIn(28), today: LATER, setApart };
    expect(usualWeek(weeksOf(1000, 1000, 1000, 1000, 1500), asked)).toEqual({ type: 'too-few', has: 3, needs: 4 });
  });

  test('the six latest comparable weeks alone', () => {
    const told = last(1, 1, 1000, 1000, 1000, 1000, 1000, 1000, 1500);
    expect(told).toMatchObject({ weeks: [14, 21, 28, 35, 42, 49].map(dayIn) });
    // of half a year ago nothing is known to be usual
    const old = [...weeksOf(1000, 1000, 1000, 1000), { week: dayIn(7 * 30), kg: 1500, comparable: 1 }];
    expect(usualWeek(old, { week: dayIn(7 * 30), today: LATER })).toEqual({ type: 'too-few', has: 0, needs: 4 });
  });

  test('a week that runs, is set apart, is not there or is half unknown is not judged', () => {
    const weeks = weeksOf(1000, 1000, 1000, 1000, 400);
    const week = dayIn(28);
    expect(usualWeek(weeks, { week, today: dayIn(34) })).toEqual({ type: 'running' });
    expect(usualWeek(weeks, { week, today: dayIn(35) }).type).toBe('below');
    expect(usualWeek(weeks, { week, today: LATER, setApart: new Set([week]) })).toEqual({ type: 'set-apart' });
    expect(usualWeek(weeks, { week: dayIn(35), today: LATER })).toEqual({ type: 'no-tonnage' });
    const half = weeks.map((one) => (one.week === week ? { ...one, comparable: 0.5 } : one));
    expect(usualWeek(half, { week, today: LATER })).toEqual({ type: 'not-covered' });
  });

  test('a week with a session that was cut short or missed is partial', () => {
    const on = (days: number, attendance: 'done' | 'cut-short' | 'no-show') =>
      trained(dayIn(days), 'lib-back-squat', [], { attendance });
    expect(
      partialWeeks([on(0, 'done'), on(8, 'cut-short'), on(20, 'no-show'), trained(dayIn(27), 'x')], 'mon'),
    ).toEqual(new Set([dayIn(7), dayIn(14)]));
    expect(partialWeeks([on(20, 'no-show')], 'sun')).toEqual(new Set([dayIn(20)]));
  });
});

describe('for any records', () => {
  const exercises = new Map([['lib-split-squat', shipped('lib-split-squat')]]);
  const judged = (sessions: Parameters<typeof partialWeeks>[0]) => {
    const weeks = tonnage({ sessions, exercises, body: { masses: [] }, firstDay: 'mon' });
    return weeks.map(({ week }) => usualWeek(weeks, { week, today: LATER }));
  };
  test('every number is one, in any order of records, in lb, the other way round', () =>
    forAny(anyHistory('lib-split-squat'), (sessions) => {
      const told = judged(sessions);
      expectFinite(told);
      expect(judged(sessions.toReversed())).toEqual(told);
      expect(judged(mirrored(sessions))).toEqual(told);
      for (const [n, one] of judged(inPounds(sessions)).entries()) expect(one.type).toBe(told[n]?.type);
    }));

  test('heavier by any factor, the same is told (weeks have no unit)', () =>
    forAny(
      fc.tuple(
        fc.array(fc.integer({ min: 100, max: 9000 }), { minLength: 5, maxLength: 9 }),
        fc.constantFrom(0.5, 2, 4),
      ),
      ([sums, by]) => {
        const [one, other] = [last(...sums), last(...sums.map((sum) => sum * by))];
        if (!('z' in one) || !('z' in other)) return expect.fail();
        expect(other.z).toBeCloseTo(one.z, 9);
        expect(other.low).toBeCloseTo(one.low * by, 6);
      },
    ));

  test('what can be counted in no week does not stand in the way; loads that are missing this week do', () => {
    const bug = shipped('lib-dead-bug');
    const all = new Map([...exercises, [bug.id, bug]]);
    const week = (n: number, load?: number) =>
      trained(dayIn(7 * n), 'lib-split-squat', [
        ...times(5, { load: kg(60), reps: 8 }),
        ...times(5, { exercise: bug.id, reps: 10 }),
        ...times(2, { reps: 8, ...(load === undefined ? {} : { load: kg(load) }) }),
      ]);
    const last = (load?: number) => {
      const sessions = [...[0, 1, 2, 3].map((n) => week(n, 60)), week(4, load)];
      const weeks = totalTonnage(tonnage({ sessions, exercises: all, body: { masses: [] }, firstDay: 'mon' }));
      expect(weeks.at(-1)?.coverage).toBeLessThan(0.6);
      return usualWeek(weeks, { week: dayIn(28), today: LATER }).type;
    };
    expect([last(60), last()]).toEqual(['usual', 'not-covered']);
  });

  test('from sessions: weeks of 3 × 8 × 60, then one of six sets of ten', () => {
    const week = (n: number, sets: number, reps: number) =>
      trained(
        dayIn(7 * n),
        'lib-split-squat',
        Array.from({ length: sets }, () => ({ load: kg(60), reps })),
      );
    const told = judged([week(0, 3, 8), week(1, 3, 8), week(2, 3, 8), week(3, 3, 8), week(4, 6, 10)]);
    expect(told.at(-1)).toMatchObject({ type: 'above', kg: 7200 });
  });
});
