import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plainTrend } from '../../src/analysis/plainTrend';
import { addDays } from '../../src/domain/day';

const weekly = (values: readonly number[]) => values.map((value, n) => ({ day: addDays('2026-01-05', 7 * n), value }));

describe('a plain line', () => {
  // the worked example of METHODS §12: Mann–Kendall two-sided p .003663, Sen slope .566667 an index (a college handout on the test)
  const handout = [12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7];

  test('has the slope and the sureness of a published example, whatever the order it comes in', () => {
    const told = plainTrend(weekly(handout));
    expect(told).toMatchObject({ type: 'rising', sessions: 14 });
    expect('perWeek' in told && told.perWeek).toBeCloseTo(0.566667, 5);
    expect(plainTrend([...weekly(handout)].reverse())).toEqual(told);
    expect(plainTrend(weekly(handout.map((value) => -value)))).toMatchObject({ type: 'falling' });
  });

  test('says too few, and how many it takes; no change is no trend', () => {
    expect(plainTrend(weekly([1, 2, 3]))).toEqual({ type: 'not-enough', has: 3, needs: 6 });
    expect(plainTrend([])).toEqual({ type: 'not-enough', has: 0, needs: 6 });
    expect(plainTrend(weekly([40, 40, 40, 40, 40, 40, 40]))).toMatchObject({ type: 'unclear', perWeek: 0 });
    const oneDay = weekly([1, 2, 3, 4, 5, 6]).map((one) => ({ ...one, day: '2026-01-05' }));
    expect(plainTrend(oneDay)).toMatchObject({ type: 'not-enough' });
  });

  test('one wild value moves it little', () => {
    const steady = Array.from({ length: 12 }, (_, n) => 30 + n);
    const wild = steady.map((value, n) => (n === 11 ? 600 : value));
    const told = plainTrend(weekly(wild));
    expect('perWeek' in told && told.perWeek).toBeCloseTo(1, 6);
  });

  test('no number of it is ever none', () => {
    const point = fc.record({
      day: fc.integer({ min: 0, max: 4000 }).map((n) => addDays('2020-01-01', n)),
      value: fc.oneof(fc.double(), fc.integer({ min: 0, max: 7200 })),
    });
    fc.assert(
      fc.property(fc.array(point, { maxLength: 130 }), (points) => {
        const numbers = Object.values(plainTrend(points)).filter((value) => typeof value === 'number');
        expect(numbers.every(Number.isFinite)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});
