import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import * as fc from 'fast-check';
import jStat from 'jstat';
import { describe, expect, test } from 'vitest';
import { betaCdf, betaQuantile, chancesToBeBest } from '../../src/analysis/stats/beta';
import { AGAINST_SCIPY, hasScipy } from './scipy';
import { between, sample } from './seeded';

describe('the Beta distribution (computed with scipy)', () => {
  test.each([
    [2, 2, [0.094299, 0.13535, 0.5, 0.86465, 0.905701]],
    [9, 3, [0.482244, 0.529913, 0.764214, 0.92118, 0.939782]],
    [11, 5, [0.448997, 0.489248, 0.69548, 0.858336, 0.881759]],
  ])('quantiles of (%s, %s)', (a, b, quantiles) => {
    for (const [n, p] of [0.025, 0.05, 0.5, 0.95, 0.975].entries())
      expect(Math.abs(betaQuantile(p, { a, b }) - (quantiles[n] ?? 9))).toBeLessThan(1e-6);
  });

  test('a value of (9, 3) is above one of (5, 7) with a chance of 0.959752; 0.966496 would be a normal approximation', () => {
    const [first, second] = chancesToBeBest([
      { a: 9, b: 3 },
      { a: 5, b: 7 },
    ]);
    expect(first).toBeCloseTo(0.959752, 5);
    expect(second).toBeCloseTo(1 - 0.959752, 5);
  });
});

describe('by hand', () => {
  test('(1, 1) is even, (2, 1) is x²; for equal ones each has the same chance, for one it is sure', () => {
    for (const x of [0.1, 0.5, 0.9]) {
      expect(betaCdf(x, { a: 1, b: 1 })).toBeCloseTo(x, 13);
      expect(betaCdf(x, { a: 2, b: 1 })).toBeCloseTo(x * x, 13);
    }
    expect(betaQuantile(0.49, { a: 2, b: 1 })).toBeCloseTo(0.7, 10);
    for (const chance of chancesToBeBest([
      { a: 3, b: 2 },
      { a: 3, b: 2 },
      { a: 3, b: 2 },
    ]))
      expect(chance).toBeCloseTo(1 / 3, 7);
    expect(chancesToBeBest([{ a: 3, b: 2 }])).toEqual([1]);
    expect(chancesToBeBest([])).toEqual([]);
  });
  test('no distribution, no share', () => {
    for (const [a, b] of [
      [0, 1],
      [1, -1],
      [Number.NaN, 1],
      [Number.POSITIVE_INFINITY, 1],
    ] as const)
      expect(() => betaCdf(0.5, { a, b })).toThrow('no Beta');
    for (const p of [0, 1, Number.NaN]) expect(() => betaQuantile(p, { a: 1, b: 1 })).toThrow('no share');
    expect([betaCdf(-1, { a: 2, b: 2 }), betaCdf(2, { a: 2, b: 2 })]).toEqual([0, 1]);
  });
});

const parameter = between(0.3, 150);
const betas = fc.record({ a: parameter, b: parameter });
type JStatBeta = {
  readonly cdf: (x: number, a: number, b: number) => number;
  readonly inv: (p: number, a: number, b: number) => number;
};

test('against jstat: cdf and quantile', () => {
  const { beta } = jStat as unknown as { readonly beta: JStatBeta };
  for (const [x, { a, b }] of sample(fc.tuple(between(0.001, 0.999), betas), 300, 11)) {
    expect(betaCdf(x, { a, b })).toBeCloseTo(beta.cdf(x, a, b), 6);
    if (a > 1 && b > 1) expect(betaQuantile(x, { a, b })).toBeCloseTo(beta.inv(x, a, b), 5);
  }
});

test('mirrored ones mirror each other, and chances make 1', () => {
  for (const [x, { a, b }] of sample(fc.tuple(between(0, 1), betas), 200, 12))
    expect(betaCdf(x, { a, b })).toBeCloseTo(1 - betaCdf(1 - x, { a: b, b: a }), 10);
  for (const some of sample(fc.array(betas, { minLength: 1, maxLength: 6 }), 20, 13)) {
    const chances = chancesToBeBest(some);
    expect(chances.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12);
    expect(chances.every((one) => one >= 0 && one <= 1)).toBe(true);
    for (const [n, one] of chancesToBeBest(some.toReversed()).entries())
      expect(one).toBeCloseTo(chances.at(-1 - n) ?? 9, 9);
  }
});

describe.skipIf(!hasScipy)(AGAINST_SCIPY, { timeout: 60_000 }, () => {
  test('cdf, ppf, and the chance to be best by its own quadrature', () => {
    const at = sample(fc.tuple(between(0.0005, 0.9995), betas), 300, 14);
    const several = sample(
      fc.array(fc.record({ a: between(1, 60), b: between(1, 60) }), { minLength: 2, maxLength: 5 }),
      12,
      15,
    );
    const cases = at.map(([x, { a, b }]) => [x, a, b]);
    const input = JSON.stringify({
      cdf: cases,
      ppf: cases,
      best: several.map((some) => some.map(({ a, b }) => [a, b])),
    });
    const { status, stdout, stderr } = spawnSync('python3', [join(import.meta.dirname, 'scipyBeta.py')], {
      input,
      encoding: 'utf8',
    });
    expect(stderr).toBe('');
    expect(status).toBe(0);
    const theirs = JSON.parse(stdout) as { cdf: number[]; ppf: number[]; best: number[][] };
    for (const [n, [x, beta]] of at.entries()) {
      expect(Math.abs(betaCdf(x, beta) - (theirs.cdf[n] ?? 9))).toBeLessThan(1e-11);
      expect(Math.abs(betaQuantile(x, beta) - (theirs.ppf[n] ?? 9))).toBeLessThan(1e-10);
    }
    for (const [n, some] of several.entries()) {
      for (const [k, chance] of chancesToBeBest(some).entries())
        expect(Math.abs(chance - (theirs.best[n]?.[k] ?? 9))).toBeLessThan(1e-6);
    }
  });
});
