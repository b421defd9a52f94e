import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addDays, daysBetween } from '../../src/domain/day';
import { dayTicks, valueAxis } from '../../src/ui/charts/ticks';

describe('the axis of values', () => {
  test('round numbers around what was held', () => {
    expect(valueAxis([50, 57.5, 60], 'load')).toEqual({ from: 50, to: 60, ticks: [50, 52, 54, 56, 58, 60] });
    expect(valueAxis([-20, -5, 2.5], 'added')).toMatchObject({ from: -20, to: 5, ticks: [-20, -15, -10, -5, 0, 5] });
  });

  test('equal values stand in the middle, and small changes stay small', () => {
    const equal = valueAxis([57.5, 57.5], 'load');
    expect(equal.from).toBeLessThanOrEqual(55.5);
    expect(equal.to).toBeGreaterThanOrEqual(59.5);
    const close = valueAxis([100, 100.5], 'load');
    expect(close.to - close.from).toBeGreaterThanOrEqual(8);
  });

  test('nothing below 0 where nothing was, and 0 is not −0', () => {
    expect(valueAxis([0, 0], 'added')).toMatchObject({ from: 0, to: 2 });
    expect(valueAxis([1], 'reps').from).toBe(0);
    for (const tick of valueAxis([-1, 1], 'added').ticks) expect(Object.is(tick, -0)).toBe(false);
  });

  test('what is counted whole has whole ticks alone', () => {
    expect(valueAxis([6, 7], 'pin').ticks).toEqual([6, 7]);
    expect(valueAxis([5, 6], 'reps').ticks.every(Number.isInteger)).toBe(true);
    expect(valueAxis([5, 6], 'reps').ticks.length).toBeGreaterThanOrEqual(2);
  });

  test('shares go from 0 to 100, whatever was reached', () => {
    expect(valueAxis([40, 45], 'good')).toEqual({ from: 0, to: 100, ticks: [0, 25, 50, 75, 100] });
  });
});

describe('the labelled days', () => {
  test('days and weeks from the first session on', () => {
    expect(dayTicks('2026-11-10', '2026-11-14', 5).map(({ day }) => day)).toEqual([
      '2026-11-10',
      '2026-11-11',
      '2026-11-12',
      '2026-11-13',
      '2026-11-14',
    ]);
    expect(dayTicks('2026-10-20', '2026-11-18', 5).map(({ day }) => day)).toEqual([
      '2026-10-20',
      '2026-10-27',
      '2026-11-03',
      '2026-11-10',
      '2026-11-17',
    ]);
  });

  test('the first days of months, quarters and years', () => {
    expect(dayTicks('2026-09-30', '2026-12-20', 5)).toEqual([
      { day: '2026-10-01', as: 'month' },
      { day: '2026-11-01', as: 'month' },
      { day: '2026-12-01', as: 'month' },
    ]);
    expect(dayTicks('2025-11-15', '2026-11-18', 5).map(({ day }) => day)).toEqual([
      '2026-01-01',
      '2026-04-01',
      '2026-07-01',
      '2026-10-01',
    ]);
    expect(dayTicks('2019-03-01', '2026-11-18', 5)).toEqual([
      { day: '2020-01-01', as: 'year' },
      { day: '2022-01-01', as: 'year' },
      { day: '2024-01-01', as: 'year' },
      { day: '2026-01-01', as: 'year' },
    ]);
  });

  test('one day is itself, two far apart are the ends', () => {
    expect(dayTicks('2026-11-18', '2026-11-18', 5)).toEqual([{ day: '2026-11-18', as: 'day' }]);
    expect(dayTicks('2026-11-18', '2026-12-30', 2)).toEqual([
      { day: '2026-11-18', as: 'day' },
      { day: '2026-12-30', as: 'day' },
    ]);
  });

  test('never more than asked for, never outside, always rising', () => {
    const day = fc.integer({ min: 0, max: 2_000_000 }).map((n) => addDays('1970-01-01', n));
    fc.assert(
      fc.property(day, fc.integer({ min: 1, max: 200_000 }), fc.integer({ min: 2, max: 12 }), (from, span, most) => {
        const to = addDays(from, span);
        const ticks = dayTicks(from, to, most).map((tick) => daysBetween(from, tick.day));
        expect(ticks.length).toBeGreaterThanOrEqual(2);
        expect(ticks.length).toBeLessThanOrEqual(most);
        expect(ticks.every((at) => at >= 0 && at <= span)).toBe(true);
        expect([...ticks].sort((a, b) => a - b)).toEqual(ticks);
      }),
      { numRuns: 300 },
    );
  });
});
