import { describe, expect, test } from 'vitest';
import { type CusumChart, cusum } from '../../src/analysis/stats/cusum';
import { made } from './made';
import { published } from './published';

type Sums = { readonly values: readonly number[]; readonly high: readonly number[]; readonly low: readonly number[] };
const nist = published<CusumChart & Sums>('cusum');

describe(nist.source, () => {
  const points = made(cusum(nist.values, nist));

  test('both sums after each of the twenty values', () => {
    expect(points).toHaveLength(20);
    for (const [n, { high, low }] of points.entries()) {
      expect(high).toBeCloseTo(nist.high[n]!, 6);
      expect(low).toBeCloseTo(nist.low[n]!, 6);
    }
  });

  test('the fourteenth is the first signal, and all after it are', () =>
    expect(points.map(({ signal }) => signal)).toEqual([
      ...new Array<string>(13).fill('none'),
      ...new Array<string>(7).fill('up'),
    ]));
});

describe('our own choice', () => {
  const chart: CusumChart = { target: 10, slack: 0.5, limit: 4 };

  test('a fall signals downwards, and a chart can stand out both ways', () => {
    expect(made(cusum([5], chart))).toEqual([{ high: 0, low: 4.5, signal: 'down' }]);
    // 19.5 above, of which the next takes 10 off and has gathered 9 below
    expect(made(cusum([30, 0.5], chart))[1]).toEqual({ high: 9.5, low: 9, signal: 'both' });
  });

  test('a sum that only reaches its limit does not signal', () =>
    expect(made(cusum([14.5], chart))[0]).toEqual({ high: 4, low: 0, signal: 'none' }));

  test('nothing is made of no values, and of what is out of range', () => {
    expect(cusum([], chart)).toEqual({ ok: false, error: { type: 'too-few', needs: 1, has: 0 } });
    const none = { ok: false, error: { type: 'out-of-range' } };
    expect(cusum([1, Number.NaN], chart)).toEqual(none);
    expect(cusum([1], { ...chart, slack: -1 })).toEqual(none);
    expect(cusum([1], { ...chart, limit: Number.NaN })).toEqual(none);
    expect(cusum([Number.MAX_VALUE, Number.MAX_VALUE], { ...chart, target: 0 })).toEqual(none);
  });
});
