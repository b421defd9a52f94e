import { describe, expect, test } from 'vitest';
import { ARRIVAL_ITEMS } from '../../src/domain/arrival';
import type { SessionRecord } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { dayIn, kg, times, trained } from '../reference/records';
import { about, clientWith, did, foundOf, type In, only } from './foundIn';

/* What is found on a day or over dates, in records made by hand. Day 0 is a Monday. */

const SQUAT = 'lib-front-squat';
const ROTATION = 'lib-upper-back-rotation';

describe('how they came in', () => {
  const asked = (day: number, each: number | Partial<Record<(typeof ARRIVAL_ITEMS)[number], number>>, usual = false) =>
    trained(dayIn(day), SQUAT, [], {
      arrival: {
        items: typeof each === 'number' ? Object.fromEntries(ARRIVAL_ITEMS.map((item) => [item, each])) : each,
        usual,
        sore: [],
      },
    });
  const told = (sessions: readonly SessionRecord[], day: number) =>
    about('came-in', foundOf(clientWith(sessions), dayIn(day)));
  const calm = times(21, 0).map((_, n) => asked(n, 4));

  test('clearly below: the sum, the normal, the items that moved, and a question', () => {
    const low = { sleep: 2, energy: 2, body: 4, calm: 3, mood: 4 };
    const found = only(told([...calm, asked(21, low), asked(22, low), asked(23, low)], 24));
    expect(found).toMatchObject({ type: 'below', sum: 15, day: dayIn(23), next: { type: 'ask-the-client' } });
    if (found.type !== 'below') throw new Error(found.type);
    expect(found.moved.map(({ item }) => item)).toEqual(['sleep', 'energy', 'calm']);
    // two of the days before are low ones themselves
    expect(found.normal).toBeCloseTo((21 * 20 + 2 * 15) / 23, 9);
    expect(found.running).toBeGreaterThanOrEqual(2);
    expect(found.since).toBe(dayIn(24 - found.running));
    expect(found.evidence).toHaveLength(3);
    expect(found.certainty).toBeCloseTo(27 / 28, 9);
  });

  test('as ever it is usual, without a chance', () => {
    const [found] = told([...calm, asked(21, 4)], 21);
    expect(found).toMatchObject({ type: 'usual', normal: 20, sum: 20, moved: [], next: { type: 'keep-on' } });
    expect(found).not.toHaveProperty('certainty');
  });

  test('before 21 days or 14 sums it is a plain picture with the items, and says what is missing', () => {
    expect(only(told(calm.slice(0, 6), 5))).toMatchObject({
      type: 'plain',
      sum: 20,
      has: 5,
      needs: 14,
      span: 5,
      needsSpan: 21,
      next: { type: 'log-more', what: 'days', count: 9 },
    });
    expect(only(told(calm.slice(0, 16), 15))).toMatchObject({ type: 'plain', has: 15, span: 15 });
  });

  test('"the usual" and a missing item make no sum', () => {
    expect(only(told([...calm, asked(21, {}, true)], 21)).type).toBe('as-usual');
    expect(only(told([...calm, asked(21, { sleep: 1 })], 21)).type).toBe('not-all');
  });

  test('nobody asked, or two weeks and a day ago: nothing', () => {
    expect(told([did(dayIn(0), SQUAT, [{ reps: 5 }])], 0)).toEqual([]);
    expect(told(calm, 20 + 14)).toHaveLength(1);
    expect(told(calm, 20 + 15)).toEqual([]);
  });
});

describe('left and right', () => {
  const turned = (day: number, left: number, right: number, trials = 2): SessionRecord =>
    did(dayIn(day), ROTATION, [
      ...times(trials, { degrees: left, side: 'left' as const }),
      ...times(trials, { degrees: right, side: 'right' as const }),
    ]);
  const told = (sessions: readonly SessionRecord[], day: number): In<'sides'> =>
    only(about('sides', foundOf(clientWith(sessions), dayIn(day))));

  test('a gap beyond 6° on two dates: both values, own bests, and the weaker side', () => {
    expect(told([turned(0, 40, 48), turned(14, 42, 50)], 14)).toMatchObject({
      type: 'gap',
      side: 'left',
      since: dayIn(0),
      times: 2,
      of: 2,
      unit: 'degrees',
      last: { left: { value: 42, trials: 2 }, right: { value: 50, trials: 2 }, apart: 8 },
      best: { left: { value: 42, day: dayIn(14), share: 1 }, right: { value: 50, share: 1 } },
      error: { units: 6, from: 'published' },
      next: { type: 'look-into' },
    });
  });

  test('on one date it is tested again in two weeks; within the error it is even', () => {
    expect(told([turned(0, 47, 50), turned(14, 42, 50)], 20)).toMatchObject({
      type: 'once',
      next: { type: 'test-again', on: dayIn(28) },
    });
    // two weeks are over: today
    expect(told([turned(0, 47, 50), turned(14, 42, 50)], 40).next).toEqual({ type: 'test-again', on: dayIn(40) });
    expect(told([turned(0, 45, 50), turned(14, 44, 50)], 14)).toMatchObject({
      type: 'even',
      next: { type: 'keep-on' },
    });
  });

  test('it closes by more than the error, and has closed', () => {
    const wide = [turned(0, 36, 50), turned(7, 36, 50)];
    // 14° and then 7.5°: 6.5° less
    expect(told([...wide, turned(14, 42.5, 50), turned(21, 42.5, 50)], 21)).toMatchObject({
      type: 'closing',
      side: 'left',
      widest: { apart: 14 },
      next: { type: 'keep-on' },
    });
    // 14° and then 9°: 5° less is within the error
    expect(told([...wide, turned(14, 41, 50), turned(21, 41, 50)], 21).type).toBe('gap');
    expect(told([...wide, turned(14, 48, 50), turned(21, 48, 50)], 21)).toMatchObject({
      type: 'closed',
      side: 'left',
      since: dayIn(0),
      times: 1,
      of: 3,
    });
  });

  test('three dates are too few to say that it closes; once more beyond the error it has not closed', () => {
    expect(told([turned(0, 30, 50), turned(7, 30, 50), turned(14, 43, 50)], 14).type).toBe('gap');
    const again = [36, 36, 48, 36, 48].map((left, n) => turned(7 * n, left, 50));
    expect(told(again, 28).type).toBe('once');
  });

  test('one that closed more than a quarter of a year ago is no news', () => {
    const closed = (days: number) => [
      ...[0, 7].map((day) => turned(day, 36, 50)),
      ...[50, 60, 7 + days].map((day) => turned(day, 49, 50)),
    ];
    expect(told(closed(91), 7 + 91).type).toBe('closed');
    expect(told(closed(92), 7 + 92).type).toBe('even');
  });

  test('one trial a side is too few, and so is one date', () => {
    const few = { type: 'too-few', needs: 2 };
    expect(told([turned(0, 30, 50, 1), turned(7, 30, 50, 1)], 7)).toMatchObject({
      ...few,
      has: 0,
      next: { type: 'log-more', what: 'dates', count: 2 },
    });
    expect(told([turned(0, 30, 50)], 7)).toMatchObject({ ...few, has: 1, next: { count: 1 } });
    const one = clientWith([did(dayIn(0), ROTATION, times(3, { degrees: 40, side: 'left' as const }))]);
    expect(about('sides', foundOf(one, dayIn(0)))).toEqual([]);
  });

  test('where no error is published, ten pairs of trials tell one', () => {
    const ankle = (day: number, left: readonly [number, number], right: readonly [number, number]) =>
      did(dayIn(day), 'lib-ankle-range', [
        ...left.map((degrees) => ({ degrees, side: 'left' as const })),
        ...right.map((degrees) => ({ degrees, side: 'right' as const })),
      ]);
    const days = (count: number) =>
      times(count, 0).map((_, n) => ankle(7 * n, n % 2 ? [30, 31] : [31, 30], n % 2 ? [40, 41] : [41, 40]));
    expect(told(days(4), 21)).toMatchObject({
      type: 'error-unknown',
      has: 8,
      needs: 10,
      next: { type: 'log-more', what: 'trials', count: 2 },
    });
    const found = told(days(5), 28);
    // differences −1, 1, −1, 1, −1, each twice: their SD is 1.03280; ÷ √2 × 1.96 × √2
    expect(found).toMatchObject({ type: 'gap', side: 'left', error: { from: 'own' } });
    if (found.type === 'gap' && 'units' in found.error) expect(found.error.units).toBeCloseTo(1.96 * 1.0327956, 5);
    // copied trials tell of no error
    const copies = times(6, 0).map((_, n) => ankle(7 * n, [30, 30], [40, 40]));
    expect(told(copies, 35)).toMatchObject({ type: 'error-unknown', has: 12, next: { type: 'keep-on' } });
  });

  test('loads whose effort nobody told make no comparison: effort is asked for', () => {
    const sets = (effort?: SetRecord['effort']) =>
      (['left', 'right'] as const).flatMap((side) =>
        times(2, { side, load: kg(side === 'left' ? 18 : 20), reps: 8, ...(effort ? { effort } : {}) }),
      );
    const split = (effort?: SetRecord['effort']) =>
      [0, 7].map((day) => did(dayIn(day), 'lib-split-squat', sets(effort)));
    expect(told(split(), 7)).toMatchObject({ type: 'too-few', next: { type: 'note-effort', of: 'sets', count: 8 } });
    const effort = { value: 2, as: 'left' } as const;
    const found = told(split(effort), 7);
    // 8 and 2 left: 10 reps, a third more than the load; 18 against 20 is 10 %
    expect(found).toMatchObject({ type: 'gap', side: 'left', error: { cv: 0.042 } });
    if (found.type === 'gap')
      expect([found.last.left.value, found.last.right.value, found.last.percent]).toEqual([
        24,
        expect.closeTo(26.6667, 4),
        expect.closeTo(10, 9),
      ]);
  });
});
