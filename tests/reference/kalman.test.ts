import { describe, expect, test } from 'vitest';
import { levelAhead, localLevel, localTrend, type Observation } from '../../src/analysis/stats/kalman';
import { made } from './made';
import { published } from './published';
import { UNEVEN } from './series';

const nile = published<{ readonly values: readonly number[] }>('nile');

const daily = (values: readonly number[], variance: number): readonly Observation[] =>
  values.map((value, at) => ({ at, value, variance }));

describe(nile.source, () => {
  const rows = made(localLevel(daily(nile.values, 15099), { level: 1469.1 }));

  test('the series is the published one: 100 years, mean 919.35', () => {
    expect(nile.values).toHaveLength(100);
    expect(nile.values.reduce((sum, value) => sum + value, 0)).toBe(91935);
  });

  // variances of Durbin & Koopman, from memory; rows computed with numpy. t, a, P, v, F, K, filtered, its variance
  test.each([
    [2, 1120, 16568.1, 40, 31667.1, 0.5232, 1140.9278, 7899.7364],
    [3, 1140.9278, 9368.8364, -177.9278, 24467.8364, 0.3829, 1072.7985, 5781.4699],
    [10, 1171.3012, 5536.9219, -31.3012, 20635.9219, 0.2683, 1162.9026, 4051.2842],
    [100, 819.6373, 5501.2579, -79.6373, 20600.2579, 0.267, 798.3703, 4032.1579],
  ])('year %s of the local level, from an exact diffuse start', (t, a, p, v, f, k, level, variance) => {
    const row = rows[t - 1];
    expect(row?.expected?.level).toBeCloseTo(a, 3);
    expect(row?.expected?.levelVariance).toBeCloseTo(p, 3);
    expect(row?.expected?.error).toBeCloseTo(v, 3);
    expect(row?.expected?.errorVariance).toBeCloseTo(f, 3);
    expect(row?.expected?.gain).toBeCloseTo(k, 4);
    expect(row?.level).toBeCloseTo(level, 3);
    expect(row?.levelVariance).toBeCloseTo(variance, 3);
  });

  test('the first year is itself what is known, and nothing was expected of it', () => {
    expect(rows[0]).toEqual({
      at: 0,
      level: 1120,
      levelVariance: 15099,
      slope: { value: 0, variance: 0, covariance: 0 },
    });
  });

  test('it settles where the equation of the steady state says', () => {
    // q = 0.0972978, P = 15099 (q + √(q² + 4q)) / 2
    expect(rows.at(-1)?.expected?.levelVariance).toBeCloseTo(5501.257942, 5);
    expect(rows.at(-1)?.expected?.gain).toBeCloseTo(0.267048, 6);
  });

  test('log likelihood −632.5456, of the 99 years something was expected of (test data of the R package KFAS)', () => {
    const estimated = made(localLevel(daily(nile.values, 15098.53), { level: 1469.178 }));
    let sum = 0;
    for (const { expected } of estimated) {
      if (expected)
        sum += Math.log(2 * Math.PI * expected.errorVariance) + expected.error ** 2 / expected.errorVariance;
    }
    expect(-sum / 2).toBeCloseTo(-632.5456, 4);
  });
});

describe('local linear trend (computed with numpy, from a large variance instead of a diffuse start)', () => {
  const wander = { level: 0.25, slope: 0.01 };
  const rows = made(
    localTrend(
      daily(
        UNEVEN.map(({ y }) => y),
        1,
      ),
      wander,
    ),
  );
  const last = rows.at(-1)!;

  test('level, slope and variances after eight values', () => {
    expect(last.level).toBeCloseTo(69.803854, 3);
    expect(last.slope?.value).toBeCloseTo(1.395472, 4);
    expect(last.levelVariance).toBeCloseTo(0.53965, 4);
    expect(last.slope?.covariance).toBeCloseTo(0.106677, 4);
    expect(last.slope?.variance).toBeCloseTo(0.091144, 4);
  });

  test.each([
    [1, 71.199326, 2.094148],
    [2, 72.594797, 2.840934],
    [3, 73.990269, 3.800008],
    [4, 75.38574, 4.99137],
  ])('%s ahead', (steps, level, variance) => {
    const ahead = made(levelAhead(last, steps, wander));
    expect(Math.abs(ahead.level - level)).toBeLessThan(1e-3);
    // the published variance is that of an observation, whose own is 1
    expect(Math.abs(ahead.variance + 1 - variance)).toBeLessThan(1e-3);
  });
});

test('local linear trend on uneven days, two values on the first (computed with numpy, by least squares and not by a filter)', () => {
  const wander = { level: 0.3, slope: 0.02 };
  const rows = made(
    localTrend(
      [
        { at: 0, value: 60, variance: 1 },
        { at: 0, value: 61.5, variance: 2 },
        { at: 3, value: 62, variance: 1 },
        { at: 4, value: 64, variance: 4 },
        { at: 11, value: 63.5, variance: 0.5 },
        { at: 25, value: 70, variance: 1 },
      ],
      wander,
    ),
  );
  const last = rows.at(-1)!;
  expect(last.level).toBeCloseTo(69.921633027, 8);
  expect(last.slope?.value).toBeCloseTo(0.473152827, 8);
  expect(last.levelVariance).toBeCloseTo(0.978044428, 8);
  expect(last.slope?.covariance).toBeCloseTo(0.075575978, 8);
  expect(last.slope?.variance).toBeCloseTo(0.131818289, 8);
  const ahead = made(levelAhead(last, 10, wander));
  expect(ahead.level).toBeCloseTo(74.653161301, 8);
  expect(ahead.variance).toBeCloseTo(24.371392944, 8);
});

describe('our own choice', () => {
  const wander = { level: 1, slope: 0.1 };
  const at = (...days: readonly number[]): readonly Observation[] =>
    days.map((day, n) => ({ at: day, value: 60 + n, variance: 4 }));

  test('a slope is unknown before a second day, and so is what lies ahead', () => {
    const rows = made(localTrend(at(0, 0, 5), wander));
    expect(rows.map(({ slope }) => slope !== undefined)).toEqual([false, false, true]);
    expect(rows.map(({ expected }) => expected !== undefined)).toEqual([false, false, false]);
    // two of equal weight on one day: their mean, half the variance
    expect(rows[1]?.level).toBe(60.5);
    expect(rows[1]?.levelVariance).toBe(2);
    expect(levelAhead(rows[1]!, 3, wander)).toEqual({ ok: false, error: { type: 'too-few', needs: 2, has: 1 } });
    // the line through 60.5 and 62, five days apart
    expect(rows[2]?.slope?.value).toBeCloseTo(0.3, 12);
  });

  test('days without an observation are steps like others', () => {
    // a level that wanders by 1 a day is 7 less sure after a week
    expect(made(localLevel(at(0, 7), wander))[1]?.expected?.levelVariance).toBe(11);
  });

  test.each([
    ['too-few', []],
    ['not-in-order', at(0, 5, 3)],
    ['out-of-range', at(0, 2.5)],
    ['out-of-range', [{ at: 0, value: Number.NaN, variance: 1 }]],
    ['out-of-range', [{ at: 0, value: 60, variance: 0 }]],
    ['out-of-range', [{ at: 0, value: 60, variance: Number.POSITIVE_INFINITY }]],
    [
      'out-of-range',
      [
        { at: 0, value: -Number.MAX_VALUE, variance: 1 },
        { at: 1, value: Number.MAX_VALUE, variance: 1 },
      ],
    ],
  ] as const)('%s', (type, observations) => {
    expect(localLevel(observations, wander)).toMatchObject({ ok: false, error: { type } });
    expect(localTrend(observations, wander)).toMatchObject({ ok: false, error: { type } });
  });

  test('nothing wanders by less than nothing', () => {
    expect(localLevel(at(0, 1), { level: -1 })).toEqual({ ok: false, error: { type: 'out-of-range' } });
    expect(localTrend(at(0, 1), { level: 1, slope: Number.NaN })).toEqual({
      ok: false,
      error: { type: 'out-of-range' },
    });
  });
});
