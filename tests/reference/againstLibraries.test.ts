import * as fc from 'fast-check';
import jStat from 'jstat';
import {
  cumulativeStdNormalProbability,
  linearRegression,
  median as medianOf,
  quantile,
  sampleRankCorrelation,
} from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { mannKendall } from '../../src/analysis/stats/mannKendall';
import { median, medianSorted } from '../../src/analysis/stats/median';
import { normalCdf, normalDensity, normalQuantile } from '../../src/analysis/stats/normal';
import { theilSen } from '../../src/analysis/stats/theilSen';
import { made } from './made';
import { between, sample, trending } from './seeded';

describe('against jstat', () => {
  test('the normal distribution: cdf, pdf and quantile', () => {
    for (const z of sample(between(-6, 6), 500, 1)) {
      expect(normalCdf(z)).toBeCloseTo(jStat.normal.cdf(z, 0, 1), 12);
      expect(normalDensity(z)).toBeCloseTo(jStat.normal.pdf(z, 0, 1), 12);
    }
    for (const p of sample(between(1e-6, 1 - 1e-6), 500, 2))
      expect(normalQuantile(p)).toBeCloseTo(jStat.normal.inv(p, 0, 1), 8);
  });
});

describe('against simple-statistics', () => {
  test('the normal distribution, by its table of four digits', () => {
    for (const z of sample(between(-3, 3), 200, 3))
      expect(Math.abs(normalCdf(z) - cumulativeStdNormalProbability(z))).toBeLessThan(2.1e-3);
  });

  test('the median, of odd and even counts', () => {
    for (const values of sample(fc.array(between(-100, 100), { minLength: 1, maxLength: 30 }), 200, 4)) {
      expect(median(values)).toBeCloseTo(medianOf(values), 12);
      expect(medianSorted(values.toSorted((a, b) => a - b))).toBeCloseTo(quantile(values, 0.5), 12);
    }
  });

  test('on a line without scatter Theil–Sen is least squares', () => {
    const lines = fc.tuple(
      between(-3, 3),
      between(-50, 50),
      fc.uniqueArray(fc.integer({ min: 0, max: 400 }), { minLength: 3 }),
    );
    for (const [slope, start, days] of sample(lines, 100, 5)) {
      const points = days.map((x) => ({ x, y: start + slope * x }));
      const { m, b } = linearRegression(points.map(({ x, y }) => [x, y]));
      const line = made(theilSen(points));
      expect(line.slope).toBeCloseTo(m, 8);
      expect(line.intercept).toBeCloseTo(b, 6);
    }
  });

  test('with even scatter Theil–Sen and least squares are near each other', () => {
    for (const points of sample(trending(60, 60, { days: 120, steps: 0 }), 40, 6)) {
      const { m } = linearRegression(points.map(({ x, y }) => [x, y]));
      const { slope, interval } = made(theilSen(points, { confidence: 0.999 }));
      expect(Math.abs(slope - m)).toBeLessThan(0.006);
      expect(interval?.low).toBeLessThan(m);
      expect(interval?.high).toBeGreaterThan(m);
    }
  });

  test("Kendall's tau goes with Spearman's rank correlation: 3τ − 2ρ stays between −1 and 1 (Daniels 1950)", () => {
    for (const points of sample(trending(10, 30, { days: 1e6, steps: 0 }), 100, 7)) {
      const rho = sampleRankCorrelation(
        points.map(({ x }) => x),
        points.map(({ y }) => y),
      );
      const { tau } = made(mannKendall(points));
      const n = points.length;
      const inequality = (3 * (n + 2) * tau) / (n - 2) - (2 * (n + 1) * rho) / (n - 2);
      expect(Math.abs(inequality)).toBeLessThanOrEqual(1 + 1e-9);
    }
  });
});
