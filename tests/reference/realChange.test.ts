import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  girthRatio,
  rangeChange,
  readingOf,
  realChange,
  smallestRealChange,
  smallestWorthwhile,
  standardError,
  technicalError,
  typicalError,
} from '../../src/analysis/realChange';
import { meanOf, sampleSd } from '../../src/analysis/stats/spread';
import { anyHistory, dayIn, expectFinite, forAny, inPounds, mirrored, times, trained } from './records';

/** Fourteen sums of five items, made up for these checks. */
const FORTNIGHT = [18, 17, 19, 20, 18, 17, 18, 21, 19, 18, 17, 19, 18, 20];

describe('typical error and smallest real change', () => {
  test('SD of differences ÷ √2 (Hopkins 2000), by hand: differences 1, −1, 2, −2 have SD √(10/3), TE √(5/3)', () => {
    expect(
      typicalError([
        [10, 11],
        [10, 9],
        [10, 12],
        [10, 8],
      ]),
    ).toBeCloseTo(Math.sqrt(5 / 3), 12);
    // everybody one better the second time is no error
    expect(
      typicalError([
        [1, 2],
        [5, 6],
        [9, 10],
      ]),
    ).toBe(0);
    expect(typicalError([[1, 2]])).toBeUndefined();
  });
  test.each([
    [1, 2.771859],
    [2.3, 6.375275],
    [0.71, 1.96802],
  ])('MDC95 of a standard error of %s: %s (standard, from memory)', (error, mdc) =>
    expect(smallestRealChange(error)).toBeCloseTo(mdc, 5),
  );
  test('SD 10 and ICC 0.90: standard error 3.162278, MDC95 8.765386 (standard, from memory)', () => {
    expect(standardError(10, 0.9)).toBeCloseTo(3.162278, 6);
    expect(smallestRealChange(standardError(10, 0.9) ?? 0)).toBeCloseTo(8.765386, 5);
    expect(standardError(10, 1.1)).toBeUndefined();
    expect(smallestRealChange(-1)).toBeUndefined();
  });
  test('half of a client’s own CV (from memory): mean 18.5, SD 1.224745, CV 6.6202 %, half of it 3.3101 %', () => {
    expect(meanOf(FORTNIGHT)).toBe(18.5);
    expect(sampleSd(FORTNIGHT)).toBeCloseTo(1.224745, 6);
    expect(smallestWorthwhile(FORTNIGHT)).toBeCloseTo(3.3101, 4);
    expect(smallestWorthwhile([5])).toBeUndefined();
  });
  test('technical error √(Σd²/2n) (standard), by hand: 80 and 81, 82 and 80 give √(5/4), of a mean of 80.75', () => {
    const told = technicalError([
      [80, 81],
      [82, 80],
    ]);
    expect(told?.error).toBeCloseTo(1.118034, 6);
    expect(told?.percent).toBeCloseTo(1.384562, 5);
    expect(technicalError([])).toBeUndefined();
  });
  test('one error fewer in how somebody lands is within what two raters differ by (typical error 0.71, a secondary listing)', () => {
    const errors = [
      { day: dayIn(0), value: 6 },
      { day: dayIn(30), value: 5 },
    ];
    expect(realChange(errors, smallestRealChange(0.71) ?? 0)?.type).toBe('within-error');
  });
});

const ROTATION = 'lib-upper-back-rotation';
const turned = (day: number, left: readonly number[], right: readonly number[] = []) =>
  trained(dayIn(day), ROTATION, [
    ...left.map((degrees) => ({ degrees, side: 'left' as const })),
    ...right.map((degrees) => ({ degrees, side: 'right' as const })),
  ]);

describe('upper-back rotation (Johnson 2012): 5.6° for one tester on two days, 6° by default', () => {
  test('from 42° to 47° is not real, to 49° it is', () => {
    const change = (to: number) => rangeChange([turned(0, times(3, 42)), turned(30, times(3, to))], ROTATION)[0];
    expect(change(47)).toMatchObject({ type: 'within-error', by: 5, mdc: 6, side: 'left', trials: [3, 3] });
    expect(change(49)).toMatchObject({ type: 'real', by: 7 });
    expect(change(48)?.type).toBe('within-error');
    expect(change(35)).toMatchObject({ type: 'real', by: -7 });
  });
  test('the mean of a day’s trials, each side by itself', () => {
    const told = rangeChange(
      [turned(0, [40, 42, 44], [50]), turned(9, [40, 50], [51]), turned(20, [46, 48, 50], [52])],
      ROTATION,
    );
    expect(told.map(({ side, by }) => [side, by])).toEqual([
      ['left', 6],
      ['right', 2],
    ]);
  });
  test('one day is no change, and what has no known error is not judged', () => {
    expect(rangeChange([turned(0, [40])], ROTATION)).toEqual([]);
    const hips = [0, 9].map((day) => trained(dayIn(day), 'lib-hip-rotation', [{ degrees: 30 + day }]));
    expect(rangeChange(hips, 'lib-hip-rotation')).toEqual([]);
    expect(rangeChange(hips, 'lib-hip-rotation', 4)[0]).toMatchObject({ type: 'real', by: 9 });
  });
});

describe('measures of the body', () => {
  test('shoulders to waist 120/76 is 1.578947, 112/70 is 1.6; a waist of nothing is refused', () => {
    expect(girthRatio(120, 76)).toBeCloseTo(1.578947, 6);
    expect(girthRatio(112, 70)).toBeCloseTo(1.6, 12);
    for (const [over, under] of [
      [120, 0],
      [120, -1],
      [0, 70],
      [Number.NaN, 70],
    ] as const)
      expect(girthRatio(over, under)).toBeUndefined();
  });
  test('two readings that agree within 1 %, a third where they do not (a common protocol, from memory)', () => {
    expect(readingOf([80, 80.6])).toEqual({ value: 80.3, asksThird: false });
    expect(readingOf([80, 82])).toEqual({ value: 81, asksThird: true });
    expect(readingOf([80, 84, 83])).toEqual({ value: 83, asksThird: false });
    expect(readingOf([80])).toEqual({ value: 80, asksThird: false });
    // folds may differ by 5 %
    expect(readingOf([10, 10.4], 0.05)?.asksThird).toBe(false);
    for (const none of [[], [0], [80, -1], [Number.NaN]]) expect(readingOf(none)).toBeUndefined();
  });
});

test('for any numbers and records every number is one; order and units do not matter, and mirrored sides mirror', () => {
  const any = fc.double({ noNaN: true, noDefaultInfinity: true });
  const pairs = fc.array(fc.tuple(any, any), { maxLength: 6 });
  forAny(
    fc.tuple(pairs, any, any),
    ([two, one, other]) => {
      const days = two.flat().map((value, n) => ({ day: dayIn(n % 5), value }));
      const told = [
        typicalError(two),
        technicalError(two),
        standardError(one, other),
        smallestRealChange(one),
        girthRatio(one, other),
        readingOf(two.flat()),
        realChange(days, one),
        smallestWorthwhile(two.flat()),
      ];
      expectFinite(told);
    },
    1000,
  );
  forAny(anyHistory(ROTATION), (sessions) => {
    const told = rangeChange(sessions, ROTATION);
    expectFinite(told);
    for (const records of [[...sessions, ...sessions].reverse(), inPounds(sessions)])
      expect(rangeChange(records, ROTATION)).toEqual(told);
    const flip = { left: 'right', right: 'left' } as const;
    const turnedRound = rangeChange(mirrored(sessions), ROTATION).map((one) => ({
      ...one,
      ...(one.side ? { side: flip[one.side] } : {}),
    }));
    expect(new Set(turnedRound.map((one) => JSON.stringify(Object.entries(one).sort())))).toEqual(
      new Set(told.map((one) => JSON.stringify(Object.entries(one).sort()))),
    );
  });
});
