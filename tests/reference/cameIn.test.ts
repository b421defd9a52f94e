import { describe, expect, test } from 'vitest';
import { cameIn, daysBelow, sumOfItems } from '../../src/analysis/cameIn';
import { ARRIVAL_ITEMS } from '../../src/domain/arrival';
import type { SessionRecord } from '../../src/domain/session';
import { anyHistory, dayIn, expectFinite, forAny, inPounds, mirrored, trained } from './records';

type Five = readonly [number, number, number, number, number];
const items = (five: readonly number[]) => Object.fromEntries(ARRIVAL_ITEMS.map((item, n) => [item, five[n]]));
const came = (day: number, five: readonly number[], more: { hour?: number; usual?: boolean } = {}): SessionRecord =>
  trained(dayIn(day), 'x', [], {
    hour: more.hour ?? 12,
    arrival: { items: items(five), usual: more.usual ?? false, sore: [] },
  });
/** Five items that make a sum, as even as can be. */
const five = (sum: number): Five => {
  const of = (n: number) => Math.floor((sum + n) / 5);
  return [of(0), of(1), of(2), of(3), of(4)];
};
const usualDay = (day: number): SessionRecord =>
  trained(dayIn(day), 'x', [], { arrival: { items: {}, usual: true, sore: [] } });
const days = (sums: readonly number[], from = 0) => sums.map((sum, n) => came(from + n, five(sum)));

describe('a sum of five items of 1–5, 5 best (McLean 2010, from memory)', () => {
  test.each([
    [[3, 3, 3, 3, 3], 15],
    [[5, 5, 5, 5, 5], 25],
    [[2, 3, 3, 4, 4], 16],
  ])('%s is %s', (told, sum) => expect(sumOfItems(items(told))).toBe(sum));

  test('with an item missing there is none', () => {
    expect(sumOfItems({ sleep: 3, energy: 3, body: 3, calm: 3 })).toBeUndefined();
    expect(sumOfItems({})).toBeUndefined();
  });
});

describe('against values worked by hand from our own simulation study (STATS.md §4)', () => {
  // 28 days of 16, 17, … so that each weekday has one sum, 16 to 22 by turns: mean 19, sum of squares 4 × 28 = 112, SD √(112/27) = 2.0367003
  const rhythm = days(Array.from({ length: 28 }, (_, n) => 16 + (n % 7)));

  test('half of the weekday is taken out: Saturday 21, Sunday 22 and Monday 16 of weeks that always go so', () => {
    // the last three: Saturday 21 (+2, half of it 1), Sunday 22 (+1.5), Monday 16 (−1.5): mean ⅓; SD √((20 × 4.148148 + 6 × 2.89)/26) = 1.9639;
    // ⅓ × √3 / (1.9639 × 1.3) = 0.2261
    const told = cameIn([...rhythm, came(28, five(16))], dayIn(28));
    expect(told.verdict).toMatchObject({ type: 'usual', normal: 19, days: 3 });
    expect('z' in told.verdict && told.verdict.z).toBeCloseTo(0.2261, 4);
  });

  test('alone among the last three days: a Monday of 10 where Mondays are 16', () => {
    // Saturday and Sunday before are missing: 26 sums, Monday to Friday as before and three weekends
    const without = rhythm.slice(0, 26);
    const told = cameIn([...without, came(28, five(10))], dayIn(28));
    if (!('z' in told.verdict)) return expect.fail();
    expect(told.verdict.days).toBe(1);
    // 26 sums: 532 − 21 − 22 = 489, mean 18.807692; Mondays lie 2.807692 below, half 1.403846; 10 − 18.807692 + 1.403846 = −7.403846
    // squares: 10220 − 441 − 484 = 9295, less 489²/26 = 9196.961538: 98.038462 / 25 = 3.921538; SD √((20 × 3.921538 + 17.34)/26) = 1.919242
    expect(told.verdict.normal).toBeCloseTo(18.807692, 6);
    expect(told.verdict.z).toBeCloseTo(-7.403846 / (1.919242 * 1.3), 5);
    expect(told.verdict.type).toBe('below');
  });

  test('three days of 19 after many of 20: as far below as is just told', () => {
    const flat = days(Array.from({ length: 28 }, () => 20));
    // the two days before today are among those it is set against: mean (26 × 20 + 2 × 19)/28 = 19.928571
    const dip = [...days([19, 19], 26), came(28, five(19))];
    const told = cameIn([...flat.slice(0, 26), ...dip], dayIn(28));
    if (!('z' in told.verdict)) return expect.fail();
    expect(told.verdict.normal).toBeCloseTo(19.928571, 6);
    // Saturday and Sunday −0.928571 + 0.089286, Monday −0.928571 − 0.035714: mean −0.880952
    // squares 2 − 4/28 = 1.857143 / 27 = 0.068783; SD √((20 × 0.068783 + 17.34)/26) = 0.848430; −0.880952 × √3 / (0.848430 × 1.3) = −1.38342
    expect(told.verdict.z).toBeCloseTo(-1.38342, 4);
    expect(told.verdict.type).toBe('below');
  });
});

describe('a plain picture, and no verdict', () => {
  test('before 14 sums and 21 days', () => {
    const thirteen = days(
      Array.from({ length: 13 }, () => 20),
      10,
    );
    expect(cameIn([came(0, five(20)), ...thirteen, came(23, five(10))], dayIn(23)).verdict.type).toBe('below');
    expect(cameIn([...thirteen, came(23, five(10))], dayIn(23)).verdict).toEqual({
      type: 'not-enough',
      sums: 13,
      needs: 14,
      span: 13,
      needsSpan: 21,
    });
    const fourteen = days(Array.from({ length: 20 }, () => 20));
    expect(cameIn([...fourteen, came(20, five(10))], dayIn(20)).verdict).toMatchObject({
      type: 'not-enough',
      sums: 20,
      span: 20,
    });
    expect(cameIn([...fourteen, came(21, five(10))], dayIn(21)).verdict.type).toBe('below');
  });

  test('where nobody was asked, an item is missing, or it was as usual; items are shown all the same', () => {
    const month = days(Array.from({ length: 28 }, () => 20));
    expect(cameIn(month, dayIn(28)).verdict).toEqual({ type: 'no-sum' });
    expect(cameIn([...month, usualDay(28)], dayIn(28))).toMatchObject({
      today: { usual: true },
      verdict: { type: 'no-sum' },
    });
    const half = trained(dayIn(28), 'x', [], { arrival: { items: { sleep: 1 }, usual: false, sore: [] } });
    const told = cameIn([...month, half], dayIn(28));
    expect(told.verdict).toEqual({ type: 'no-sum' });
    expect(told.items[0]).toEqual({ item: 'sleep', today: 1, usual: 4, away: -3 });
    expect(told.items[1]).toEqual({ item: 'energy', usual: 4 });
  });

  test('days told to be as usual have no numbers: they are none of the fourteen, and change no mean', () => {
    const mixed = Array.from({ length: 28 }, (_, n) => (n % 2 ? usualDay(n) : came(n, five(20))));
    const told = cameIn([...mixed, came(28, five(20))], dayIn(28));
    expect(told.verdict).toMatchObject({ type: 'usual', normal: 20 });
    expect(cameIn([...mixed.slice(2), came(28, five(20))], dayIn(28)).verdict).toMatchObject({
      type: 'not-enough',
      sums: 13,
    });
  });
});

describe('our own choice', () => {
  test('of two sessions a day the first with all five counts; what is more than 28 days ago does not', () => {
    const month = days(Array.from({ length: 28 }, () => 20));
    const [early, late] = [came(28, five(10), { hour: 8 }), came(28, five(20), { hour: 18 })];
    expect(cameIn([...month, late, early], dayIn(28)).today?.sum).toBe(10);
    const partly = trained(dayIn(28), 'x', [], { hour: 6, arrival: { items: { sleep: 1 }, usual: false, sore: [] } });
    expect(cameIn([...month, late, partly], dayIn(28)).today?.sum).toBe(20);
    expect(cameIn(month, dayIn(40)).before).toHaveLength(16);
  });

  test('somebody who is asked every third day is set against the last fourteen answers, within twelve weeks', () => {
    const thirds = (count: number, sum: number, from = 0) =>
      Array.from({ length: count }, (_, n) => came(from + 3 * n, five(sum)));
    // four weeks hold nine of them
    const sessions = [...thirds(4, 5), ...thirds(14, 20, 12), came(54, five(12))];
    expect(cameIn(sessions, dayIn(54))).toMatchObject({ verdict: { type: 'below', normal: 20, days: 1 } });
    expect(cameIn(sessions, dayIn(54)).before).toHaveLength(14);
    expect(daysBelow(sessions)).toEqual(new Set([dayIn(54)]));
    expect(cameIn([...thirds(13, 20), came(39, five(12))], dayIn(39)).verdict).toMatchObject({
      type: 'not-enough',
      sums: 13,
    });
    const weekly = Array.from({ length: 20 }, (_, n) => came(7 * n, five(20)));
    expect(cameIn([...weekly, came(140, five(12))], dayIn(140)).verdict).toMatchObject({ type: 'not-enough' });
  });

  test('days below are those with such a verdict', () => {
    const month = days(Array.from({ length: 28 }, () => 20));
    const sessions = [came(30, five(20)), ...month, came(28, five(10)), came(34, five(19))];
    expect(daysBelow(sessions)).toEqual(new Set([dayIn(28), dayIn(30)]));
    expect(daysBelow(month.slice(0, 9))).toEqual(new Set());
  });

  test('later days change no earlier verdict', () => {
    const all = days(Array.from({ length: 40 }, (_, n) => 18 + (n % 4)));
    for (const day of [24, 30]) expect(cameIn(all, dayIn(day))).toEqual(cameIn(all.slice(0, day + 1), dayIn(day)));
  });

  test('for any records every number is one; order, units and sides do not matter', () =>
    forAny(anyHistory('x'), (sessions) => {
      for (const day of [20, 45, 60]) {
        const told = cameIn(sessions, dayIn(day));
        expectFinite(told);
        for (const other of [[...sessions, ...sessions].reverse(), inPounds(sessions), mirrored(sessions)])
          expect(cameIn(other, dayIn(day))).toEqual(told);
      }
    }));
});
