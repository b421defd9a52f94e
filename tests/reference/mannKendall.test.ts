import { permutationsHeap } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { mannKendall } from '../../src/analysis/stats/mannKendall';
import { made } from './made';
import { published } from './published';
import { againstIndex, UNEVEN } from './series';

const { source, values } = published<{ readonly values: readonly number[] }>('mannKendall');

describe(source, () => {
  const told = made(mannKendall(againstIndex(values)));

  test('S, its variance and Z', () => {
    expect(told.s).toBe(54);
    expect(told.variance).toBeCloseTo(332.666667, 6);
    expect(told.z).toBeCloseTo(2.905837, 6);
  });

  test('one-sided and two-sided p', () => {
    expect(told.exact).toBe(false);
    expect(told.p.rising).toBeCloseTo(0.001831, 6);
    expect(told.p.either).toBeCloseTo(0.003663, 6);
    expect(told.p.falling).toBeGreaterThan(0.998);
  });

  test('tau-b (computed with scipy 1.10.1)', () => expect(told.tau).toBeCloseTo(0.596694, 6));

  test('backwards it falls as surely', () => {
    const back = made(mannKendall(againstIndex(values.toReversed())));
    expect(back.s).toBe(-54);
    expect(back.z).toBeCloseTo(-2.905837, 6);
    expect(back.p.falling).toBeCloseTo(0.001831, 6);
    expect(back.p.either).toBeCloseTo(0.003663, 6);
  });
});

describe('uneven dates (computed with scipy 1.10.1)', () => {
  const told = made(mannKendall(UNEVEN));

  test('S, its variance, Z and tau', () => {
    expect(told.s).toBe(22);
    expect(told.variance).toBeCloseTo(65.333333, 6);
    expect(told.z).toBeCloseTo(2.598076, 6);
    expect(told.tau).toBeCloseTo(0.785714, 6);
  });

  test('p is exact up to ten points without ties', () => {
    expect(told.exact).toBe(true);
    expect(told.p.either).toBeCloseTo(0.005506, 6);
  });

  test('the order the points are handed in makes no difference', () =>
    expect(made(mannKendall(UNEVEN.toReversed()))).toEqual(told));
});

test('exact p of six points is the share of all 720 orders that rise or fall as much', () => {
  const all = permutationsHeap([1, 2, 3, 4, 5, 6]).map((order) => made(mannKendall(againstIndex(order))));
  expect(all).toHaveLength(720);
  for (const { s, p } of all.slice(0, 100)) {
    expect(p.rising).toBeCloseTo(all.filter((other) => other.s >= s).length / 720, 12);
    expect(p.falling).toBeCloseTo(all.filter((other) => other.s <= s).length / 720, 12);
  }
});

describe('our own choice', () => {
  test('fewer than five points tell nothing', () =>
    expect(mannKendall(UNEVEN.slice(0, 4))).toEqual({ ok: false, error: { type: 'too-few', needs: 5, has: 4 } }));

  test('nor do points of one day, or of one value', () => {
    expect(mannKendall(UNEVEN.map(({ y }) => ({ x: 3, y })))).toEqual({
      ok: false,
      error: { type: 'all-equal', of: 'x' },
    });
    expect(mannKendall(UNEVEN.map(({ x }) => ({ x, y: 60 })))).toEqual({
      ok: false,
      error: { type: 'all-equal', of: 'y' },
    });
  });

  test('two values of one day count neither way', () => {
    // rising through all but the pair of one day: 15 pairs less that one
    const points = [1, 2, 3, 4, 5, 6].map((y) => ({ x: y === 4 ? 3 : y, y }));
    const told = made(mannKendall(points));
    expect(told.s).toBe(14);
    expect(told.exact).toBe(false);
  });

  test('a number that is none is told as such', () =>
    expect(mannKendall([...UNEVEN, { x: 30, y: Number.NaN }])).toEqual({ ok: false, error: { type: 'out-of-range' } }));
});

test('the variance of S with ties in days and values is that over all orders of the values', () => {
  const days = [0, 0, 2, 3, 3, 3, 5];
  const points = [60, 62, 62, 62, 61, 65, 65].map((y, n) => ({ x: days[n]!, y }));
  const told = made(mannKendall(points));
  expect(told.s).toBe(9);
  // of all 5040 orders, counted out with Python
  expect(told.variance).toBeCloseTo(35.78095238, 8);
});
