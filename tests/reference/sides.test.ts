import { describe, expect, test } from 'vitest';
import { bilateralDifference, limbIndex, sideDifference, sides } from '../../src/analysis/sides';
import type { SessionRecord } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { shipped } from '../domain/made';
import { anyHistory, dayIn, expectFinite, forAny, inPounds, kg, mirrored, rounded, times, trained } from './records';

describe('18 on the left, 20 on the right (Bishop 2016, 2018; figures computed with Python)', () => {
  test('default difference 10 %, whichever way round', () => {
    expect(sideDifference(18, 20)).toBeCloseTo(10, 10);
    expect(sideDifference(20, 18)).toBeCloseTo(10, 10);
  });
  test('limb symmetry index 90 %, the wrong way up 111.1111 %', () => {
    expect(limbIndex(18, 20)).toBeCloseTo(90, 10);
    expect(limbIndex(20, 18)).toBeCloseTo(111.1111, 4);
    expect(limbIndex(18, 0)).toBeUndefined();
  });
  test('both at once: 5.2632 % of the total', () => {
    expect(bilateralDifference(18, 20)).toBeCloseTo(5.2632, 4);
    expect(bilateralDifference(0, 0)).toBeUndefined();
  });
  test('equal sides 0, one side of nothing 100, both of nothing or missing none', () => {
    expect(sideDifference(7, 7)).toBe(0);
    expect(sideDifference(0, 7)).toBe(100);
    for (const [left, right] of [
      [0, 0],
      [undefined, 5],
      [5, undefined],
      [-1, 5],
      [Number.NaN, 1],
    ] as const)
      expect(sideDifference(left, right)).toBeUndefined();
  });
});

const ROTATION = shipped('lib-upper-back-rotation');
const measured = (
  day: number,
  left: readonly number[],
  right: readonly number[],
  more: Partial<SetRecord> = {},
): SessionRecord =>
  trained(dayIn(day), ROTATION.id, [
    ...left.map((degrees) => ({ degrees, side: 'left' as const, ...more })),
    ...right.map((degrees) => ({ degrees, side: 'right' as const, ...more })),
  ]);

describe('upper-back rotation (Johnson 2012: MDC between days up to 5.6°, 6° by default)', () => {
  test('40 left and 50 right, three each: 10° apart, 20 %', () => {
    const told = sides([measured(0, times(3, 40), times(3, 50))], ROTATION);
    expect(told?.dates[0]).toMatchObject({ apart: 10, weaker: 'left', beyond: true, left: { value: 40, trials: 3 } });
    expect(told?.dates[0]?.percent).toBeCloseTo(20, 10);
    // one date is not enough to say so
    expect(told?.verdict).toEqual({ type: 'too-few-dates', has: 1, needs: 2 });
  });

  test('beyond the error, the same way on two of the last three dates', () => {
    const verdict = (...dates: readonly (readonly [number, number])[]) =>
      sides(
        dates.map(([left, right], n) => measured(n, times(2, left), times(2, right))),
        ROTATION,
      )?.verdict;
    expect(verdict([40, 50], [44, 45], [40, 48])).toEqual({ type: 'repeated', weaker: 'left', times: 2, of: 3 });
    expect(verdict([40, 50], [40, 48], [44, 45])).toEqual({ type: 'repeated', weaker: 'left', times: 2, of: 3 });
    expect(verdict([40, 50], [50, 40])).toEqual({ type: 'not-repeated' });
    expect(verdict([40, 45], [40, 45], [40, 46])).toEqual({ type: 'none' });
    // what was before the last three is over
    expect(verdict([40, 50], [40, 50], [44, 45], [44, 45])).toEqual({ type: 'not-repeated' });
    expect(verdict([40, 50], [40, 50], [44, 45], [44, 45], [44, 45])).toEqual({ type: 'none' });
  });

  test('one trial a side is none; a difference of just the error is within it', () => {
    expect(sides([measured(0, [40], [50, 50])], ROTATION)?.dates).toEqual([]);
    expect(sides([measured(0, [40, 40], [45, 45])], ROTATION, { units: 5 })?.dates[0]?.beyond).toBe(false);
    expect(sides([measured(0, [40, 40], [45, 45])], ROTATION, { units: 4.9 })?.dates[0]?.beyond).toBe(true);
  });

  test('each side against its own best: both may have lost while they are equal', () => {
    const told = sides([measured(0, times(2, 50), times(2, 48)), measured(9, times(2, 40), times(2, 40))], ROTATION);
    expect(told?.best).toEqual({
      left: { value: 50, day: dayIn(0), share: 0.8 },
      right: { value: 48, day: dayIn(0), share: 40 / 48 },
    });
    expect(told?.verdict).toEqual({ type: 'none' });
  });

  test('below 0° there are degrees apart, and no per cent', () => {
    const [date] = sides([measured(0, [-5, -5], [10, 10])], ROTATION)?.dates ?? [];
    expect(date).toMatchObject({ apart: 15, beyond: true });
    expect(date).not.toHaveProperty('percent');
  });
});

describe('our own choice: what a trial is', () => {
  const SPLIT = shipped('lib-split-squat');
  const lift = (
    side: 'left' | 'right',
    load: number,
    reps: number,
    left?: number,
    more: Partial<SetRecord> = {},
  ): Partial<SetRecord> => ({
    side,
    load: kg(load),
    reps,
    ...(left === undefined ? {} : { effort: { value: left, as: 'left' as const } }),
    ...more,
  });
  const of = (...sets: readonly Partial<SetRecord>[]) => sides([trained(dayIn(0), SPLIT.id, sets)], SPLIT)?.dates[0];

  test('loads by what could be lifted once: 60 × 8 with two left is 80 kg (mean of Epley 1985 and Brzycki 1993)', () => {
    const date = of(lift('left', 60, 8, 2), lift('left', 60, 8, 2), lift('right', 60, 8, 2), lift('right', 60, 8, 2));
    expect(date).toMatchObject({ left: { value: 80, trials: 2 }, apart: 0, percent: 0, beyond: false });
    expect(date).not.toHaveProperty('weaker');
  });

  test('sets whose reps left nobody told are no trials; the same reps by plan would hide what differs', () => {
    expect(of(lift('left', 60, 8), lift('left', 60, 8), lift('right', 60, 8), lift('right', 60, 8))).toBeUndefined();
    const told = of(lift('left', 60, 8, 1), lift('left', 60, 8, 1), lift('right', 60, 8, 3), lift('right', 60, 8, 3));
    expect(told).toMatchObject({ weaker: 'left', beyond: true });
  });

  test('where there were tests they alone count; another height is another thing', () => {
    const test1 = { kind: 'test' as const };
    const told = of(
      ...times(2, lift('left', 100, 1, 0, test1)),
      ...times(2, lift('right', 90, 1, 0, test1)),
      ...times(4, lift('right', 20, 10, 5)),
    );
    expect(told).toMatchObject({ left: { value: 100 }, right: { value: 90, trials: 2 }, weaker: 'right' });
    const height = (value: number) => ({ height: { value, unit: 'cm' as const } });
    expect(
      of(...times(2, lift('left', 60, 5, 1, height(20))), ...times(2, lift('right', 60, 5, 1, height(30)))),
    ).toBeUndefined();
  });

  test('a 1RM by 4.2 % (Grgic 2020, 32 studies of retests): 100 and 96 kg are alike, 100 and 95 not', () => {
    const once = (load: number) =>
      of(...times(2, lift('left', 100, 1, 0)), ...times(2, lift('right', load, 1, 0)))?.beyond;
    expect([once(96), once(95)]).toEqual([false, true]);
  });

  test('other degrees have no known error', () => {
    const HIP = shipped('lib-hip-rotation');
    const day = (n: number) => ({
      ...measured(n, [30, 30], [50, 50]),
      sets: measured(n, [30, 30], [50, 50]).sets.map((one) => ({ ...one, exercise: HIP.id })),
    });
    expect(sides([day(0), day(1)], HIP)?.verdict).toEqual({ type: 'error-unknown' });
    expect(sides([day(0), day(1)], HIP, { units: 5 })?.verdict).toMatchObject({ type: 'repeated' });
  });

  test('seconds need an error of their own; carries have none of it', () => {
    const PLANK = shipped('lib-side-plank');
    const held = (left: number, right: number, day: number) =>
      trained(dayIn(day), PLANK.id, [
        ...times(2, { seconds: left, side: 'left' as const }),
        ...times(2, { seconds: right, side: 'right' as const }),
      ]);
    const both = [held(30, 60, 0), held(30, 60, 3)];
    expect(sides(both, PLANK)?.verdict).toEqual({ type: 'error-unknown' });
    expect(sides(both, PLANK, { cv: 0.1 })?.verdict).toEqual({ type: 'repeated', weaker: 'left', times: 2, of: 2 });
    expect(sides(both, shipped('lib-suitcase-carry'))).toBeUndefined();
  });
});

test('for any records every number is one; order and units do not matter, and the other way round left is right', () =>
  forAny(anyHistory('lib-split-squat', ROTATION.id, 'lib-side-plank', 'lib-single-leg-squat'), (sessions) => {
    for (const id of ['lib-split-squat', ROTATION.id, 'lib-side-plank', 'lib-single-leg-squat']) {
      const of = (records: readonly SessionRecord[]) => sides(records, shipped(id), { cv: 0.05 });
      const told = of(sessions);
      expectFinite(told);
      expect(of([...sessions, ...sessions].reverse())).toEqual(told);
      expect(rounded(of(inPounds(sessions))?.dates.map((one) => ({ ...one, percent: 0, apart: 0 })))).toEqual(
        rounded(told?.dates.map((one) => ({ ...one, percent: 0, apart: 0 }))),
      );
      const turned = of(mirrored(sessions));
      expect(turned?.dates.map(({ left, right, percent, beyond }) => [right, left, percent, beyond])).toEqual(
        told?.dates.map(({ left, right, percent, beyond }) => [left, right, percent, beyond]),
      );
      expect(turned?.best).toEqual(
        told &&
          Object.fromEntries(
            Object.entries(told.best).map(([side, best]) => [side === 'left' ? 'right' : 'left', best]),
          ),
      );
    }
  }));
