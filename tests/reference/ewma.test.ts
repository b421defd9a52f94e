import { describe, expect, test } from 'vitest';
import { ewma, ewmaChart, weightOfDays } from '../../src/analysis/stats/ewma';
import { made } from './made';
import { published } from './published';

const nist = published<{
  readonly weight: number;
  readonly target: number;
  readonly sd: number;
  readonly values: readonly number[];
  readonly printed: readonly number[];
  readonly limits: readonly [number, number];
}>('ewma');

describe(nist.source, () => {
  const { points, settled } = made(ewmaChart(nist.values, nist));

  test('the twenty means as printed', () => {
    expect(points).toHaveLength(20);
    for (const [n, { mean }] of points.entries()) expect(Math.abs(mean - nist.printed[n]!)).toBeLessThan(0.0051);
  });

  test('the limits it settles to, and no signal', () => {
    expect(Math.abs(settled.low - nist.limits[0])).toBeLessThan(1e-4);
    expect(Math.abs(settled.high - nist.limits[1])).toBeLessThan(1e-4);
    expect(points.map(({ signal }) => signal)).toEqual(nist.values.map(() => 'none'));
    expect(points.every(({ mean }) => mean > settled.low && mean < settled.high)).toBe(true);
  });

  test('the upper limits of the first three (computed with Python)', () => {
    const upper = [51.84851, 52.25639, 52.43141];
    for (const [n, high] of upper.entries()) expect(points[n]?.limits.high).toBeCloseTo(high, 5);
  });
});

describe('weights of days (Williams 2017, British Journal of Sports Medicine 51:209)', () => {
  test('7 and 28 days', () => {
    expect(weightOfDays(7)).toBe(0.25);
    expect(weightOfDays(28)).toBeCloseTo(0.0689655, 7);
    expect(weightOfDays(0.5)).toBeUndefined();
  });

  test('a line begins at its first value', () => {
    // by hand: 400, then a quarter of 0 and three of 400, then a quarter of 600 and three of 300
    expect(made(ewma([400, 0, 600], { weight: 0.25 }))).toEqual([400, 300, 375]);
  });
});

describe('our own choice', () => {
  test('a mean beyond the limits of its own point signals, though it would not later', () => {
    // first limits of weight 0.3: 50 ± 0.9 SD
    const up = made(ewmaChart([53.1], { weight: 0.3, target: 50, sd: 1 }));
    expect(up.points[0]?.signal).toBe('up');
    expect(up.settled.high).toBeGreaterThan(50.93);
    expect(made(ewmaChart([46.9], { weight: 0.3, target: 50, sd: 1 })).points[0]?.signal).toBe('down');
    expect(made(ewmaChart([52.9], { weight: 0.3, target: 50, sd: 1 })).points[0]?.signal).toBe('none');
  });

  test('nothing is made of no values, and of a weight or SD out of range', () => {
    expect(ewma([], { weight: 0.3 })).toEqual({ ok: false, error: { type: 'too-few', needs: 1, has: 0 } });
    const none = { ok: false, error: { type: 'out-of-range' } };
    for (const weight of [0, -0.1, 1.1, Number.NaN]) expect(ewma([1, 2], { weight })).toEqual(none);
    for (const sd of [0, -1, Number.NaN, Number.MAX_VALUE])
      expect(ewmaChart([1, 2], { weight: 0.3, target: 0, sd })).toEqual(none);
  });
});
