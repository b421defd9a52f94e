import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cusum } from '../../src/analysis/stats/cusum';
import { ewma, ewmaChart } from '../../src/analysis/stats/ewma';
import { levelAhead, localLevel, localTrend, type Observation } from '../../src/analysis/stats/kalman';
import { mannKendall } from '../../src/analysis/stats/mannKendall';
import { normalCdf, normalQuantile } from '../../src/analysis/stats/normal';
import { theilSen } from '../../src/analysis/stats/theilSen';
import { made } from './made';
import { AGAINST_SCIPY, askScipy, hasScipy } from './scipy';
import { between, sample, trending } from './seeded';

/** Fails where two numbers differ by more than `tolerance`, as a share of the larger one or of 1. */
function near(ours: number | undefined, theirs: number, tolerance = 1e-9): void {
  expect(ours).toBeDefined();
  expect(Math.abs((ours ?? 0) - theirs) / Math.max(1, Math.abs(theirs))).toBeLessThan(tolerance);
}

const columns = (points: readonly { readonly x: number; readonly y: number }[]) => ({
  x: points.map(({ x }) => x),
  y: points.map(({ y }) => y),
});

// each starts Python, which takes its time on a busy machine
describe.skipIf(!hasScipy)(AGAINST_SCIPY, { timeout: 60_000 }, () => {
  test('the normal distribution: cdf and ppf', () => {
    const z = sample(between(-8, 8), 300, 1);
    const p = sample(between(1e-9, 1 - 1e-9), 300, 2);
    const [[cdf, ppf] = [[], []]] = askScipy<readonly [readonly number[], readonly number[]]>('normal', [{ z, p }]);
    for (const [n, one] of z.entries()) near(normalCdf(one), cdf[n]!, 1e-13);
    for (const [n, one] of p.entries()) near(normalQuantile(one), ppf[n]!, 1e-9);
  });

  test('Theil–Sen on uneven dates, some of them twice: theilslopes', () => {
    const cases = sample(trending(6, 40, { days: 60, steps: 0 }), 60, 3);
    const confidences = [0.95, 0.9, 0.8];
    const asked = cases.map((points, n) => ({ ...columns(points), confidence: confidences[n % 3]! }));
    const theirs = askScipy<readonly [number, number, number, number]>('line', asked);
    for (const [n, [slope, intercept, low, high]] of theirs.entries()) {
      const line = made(theilSen(cases[n]!, { confidence: asked[n]!.confidence }));
      near(line.slope, slope);
      near(line.intercept, intercept);
      near(line.interval?.low, low);
      near(line.interval?.high, high);
    }
    expect(theirs).toHaveLength(60);
  });

  test("Kendall's tau and exact p of five to ten points: kendalltau, method exact", () => {
    const cases = sample(trending(5, 10, { days: 1e6, steps: 0 }), 100, 4).filter(
      (points) => new Set(points.map(({ x }) => x)).size === points.length,
    );
    expect(cases.length).toBeGreaterThan(90);
    const theirs = askScipy<readonly [number, number, number, number]>('exact', cases.map(columns));
    for (const [n, [tau, either, rising, falling]] of theirs.entries()) {
      const told = made(mannKendall(cases[n]!));
      expect(told.exact).toBe(true);
      near(told.tau, tau);
      near(told.p.either, either);
      near(told.p.rising, rising);
      near(told.p.falling, falling);
    }
  });

  test('tau-b and the variance of S with ties in days and values: kendalltau, method asymptotic', () => {
    const cases = sample(trending(8, 40, { days: 12, steps: 5 }), 60, 5);
    const theirs = askScipy<readonly [number, number]>('tied', cases.map(columns));
    for (const [n, [tau, p]] of theirs.entries()) {
      const told = made(mannKendall(cases[n]!));
      expect(told.exact).toBe(false);
      near(told.tau, tau);
      // scipy makes no correction for continuity
      near(2 * normalCdf(-Math.abs(told.s) / Math.sqrt(told.variance)), p);
    }
  });

  test('EWMA: a linear filter, and limits as the SD of a sum of weighted values', () => {
    const cases = sample(
      fc.record({
        values: fc.array(between(40, 60), { minLength: 1, maxLength: 40 }),
        weight: between(0.05, 1),
        start: between(45, 55),
      }),
      30,
      6,
    );
    const theirs = askScipy<readonly [readonly number[], readonly number[]]>('ewma', cases);
    for (const [n, [line, sds]] of theirs.entries()) {
      const { values, weight, start } = cases[n]!;
      const chart = made(ewmaChart(values, { weight, target: start, sd: 2, width: 3 })).points;
      for (const [at, mean] of made(ewma(values, { weight, start })).entries()) {
        near(mean, line[at]!);
        near(chart[at]?.mean, line[at]!);
        near(chart[at]?.limits.high, start + 6 * sds[at]!);
        near(chart[at]?.limits.low, start - 6 * sds[at]!);
      }
    }
  });

  test('CUSUM: how far running totals stand above their lowest', () => {
    const cases = sample(
      fc.record({
        values: fc.array(between(7, 13), { minLength: 1, maxLength: 60 }),
        target: between(9, 11),
        slack: between(0, 2),
      }),
      30,
      7,
    );
    const theirs = askScipy<readonly [readonly number[], readonly number[]]>('cusum', cases);
    for (const [n, [high, low]] of theirs.entries()) {
      const { values, ...chart } = cases[n]!;
      for (const [at, point] of made(cusum(values, { ...chart, limit: 5 })).entries()) {
        near(point.high, high[at]!);
        near(point.low, low[at]!);
      }
    }
  });

  const observed = fc
    .array(fc.record({ gap: fc.integer({ min: 0, max: 9 }), value: between(50, 90), variance: between(0.2, 9) }), {
      minLength: 3,
      maxLength: 20,
    })
    .map((rows): readonly Observation[] => {
      let at = 0;
      return rows.map(({ gap, ...row }, n) => {
        at += n === 1 ? gap + 1 : gap;
        return { at, ...row };
      });
    });
  const stateCases = fc.record({
    rows: observed,
    level: between(0.05, 3),
    slope: between(0.001, 0.3),
    ahead: fc.integer({ min: 1, max: 30 }),
  });

  const asColumns = (rows: readonly Observation[]) => ({
    at: rows.map(({ at }) => at),
    value: rows.map(({ value }) => value),
    variance: rows.map(({ variance }) => variance),
  });
  type State = readonly [number, number, number, number, number];

  test('local level: the conditional mean of a multivariate normal with an unknown start', () => {
    const cases = sample(stateCases, 40, 8);
    const asked = cases.map(({ rows, level, ahead }) => ({ ...asColumns(rows), level, slope: null, ahead }));
    for (const [n, [now, then]] of askScipy<readonly [State, State]>('state', asked).entries()) {
      const { rows, level, ahead } = cases[n]!;
      const last = made(localLevel(rows, { level })).at(-1)!;
      near(last.level, now[0], 1e-8);
      near(last.levelVariance, now[2], 1e-8);
      const later = made(levelAhead(last, ahead, { level, slope: 0 }));
      near(later.level, then[0], 1e-8);
      near(later.variance, then[2], 1e-8);
    }
  });

  test('local linear trend: the same, level and slope unknown', () => {
    const cases = sample(stateCases, 60, 9);
    const asked = cases.map(({ rows, ...rest }) => ({ ...asColumns(rows), ...rest }));
    for (const [n, [now, then]] of askScipy<readonly [State, State]>('state', asked).entries()) {
      const { rows, ahead, ...wander } = cases[n]!;
      const last = made(localTrend(rows, wander)).at(-1)!;
      near(last.level, now[0], 1e-7);
      near(last.slope?.value, now[1], 1e-7);
      near(last.levelVariance, now[2], 1e-7);
      near(last.slope?.covariance, now[3], 1e-7);
      near(last.slope?.variance, now[4], 1e-7);
      const later = made(levelAhead(last, ahead, wander));
      near(later.level, then[0], 1e-7);
      near(later.variance, then[2], 1e-7);
    }
  });
});
