import { describe, expect, test } from 'vitest';
import { theilSen } from '../../src/analysis/stats/theilSen';
import { made } from './made';
import { published } from './published';
import { againstIndex, UNEVEN } from './series';

const { source, values } = published<{ readonly values: readonly number[] }>('mannKendall');

test(`${source}: slope, interval and intercept (computed with scipy 1.10.1)`, () => {
  const line = made(theilSen(againstIndex(values)));
  expect(line.slope).toBeCloseTo(0.566667, 6);
  expect(line.intercept).toBeCloseTo(11.4, 6);
  expect(line.interval?.low).toBeCloseTo(0.325, 6);
  expect(line.interval?.high).toBeCloseTo(0.866667, 6);
  expect(line.pairs).toBe(91);
});

test('uneven dates (computed with scipy 1.10.1)', () => {
  const line = made(theilSen(UNEVEN));
  expect(line.slope).toBeCloseTo(0.422619, 6);
  expect(line.intercept).toBeCloseTo(59.428571, 6);
  expect(line.interval?.low).toBeCloseTo(0.214286, 6);
  expect(line.interval?.high).toBeCloseTo(0.642857, 6);
});

test('one wild value does not move it', () => {
  const line = made(theilSen([1, 2, 3, 4, 100].map((y, x) => ({ x, y }))));
  expect(line.slope).toBe(1);
  expect(line.intercept).toBe(1);
});

describe('our own choice', () => {
  test('pairs of one day have no slope and are left out', () => {
    // the slopes 1 (twice) and 2 between days 0 and 1, 0 and 2, 1 and 2; two values on day 1
    const line = made(
      theilSen([
        { x: 0, y: 0 },
        { x: 1, y: 1 },
        { x: 1, y: 1.5 },
        { x: 2, y: 2 },
      ]),
    );
    // 1, 1.5, 1, 1, 0.5
    expect(line.pairs).toBe(5);
    expect(line.slope).toBe(1);
  });

  test('where pairs are too few for the confidence asked for, no interval is told', () => {
    // of four points in a row the outermost slopes hold it with 1 − 2/24, less than 95 %
    const four = [1, 2, 4, 7].map((y, x) => ({ x, y }));
    expect(made(theilSen(four)).interval).toBeUndefined();
    expect(made(theilSen(four, { confidence: 0.8 })).interval).toBeDefined();
  });

  test('fewer than two points, or all on one day, have no line', () => {
    expect(theilSen([])).toEqual({ ok: false, error: { type: 'too-few', needs: 2, has: 0 } });
    expect(theilSen(UNEVEN.slice(0, 1))).toEqual({ ok: false, error: { type: 'too-few', needs: 2, has: 1 } });
    expect(theilSen(UNEVEN.map(({ y }) => ({ x: 3, y })))).toEqual({
      ok: false,
      error: { type: 'all-equal', of: 'x' },
    });
  });

  test.each([
    ['is none', Number.NaN],
    ['is infinite', Number.POSITIVE_INFINITY],
  ])('a number that %s is told as such', (_, y) =>
    expect(theilSen([...UNEVEN, { x: 30, y }])).toEqual({ ok: false, error: { type: 'out-of-range' } }),
  );

  test.each([0, 1, 1.5, Number.NaN])('a confidence of %s is a bug', (confidence) =>
    expect(() => theilSen(UNEVEN, { confidence })).toThrow('no share between 0 and 1'),
  );
});
