import { expect, test } from 'vitest';
import { arrivalAsked, askedOf, heldBy } from '../../src/domain/painBefore';
import type { SetRecord } from '../../src/domain/set';
import { instantIn, set, T } from './made';

/* What the next session has to hear of pain in those before. */

const hurt = (value: number, seconds = 0, more: Partial<SetRecord> = {}) =>
  set({ at: instantIn(seconds), pain: { value, rising: false }, ...more });
const time = (day: string, ...sets: SetRecord[]) => ({ day, sets });
const sign = (seconds: number) => ({ id: 'x', sign: 'joint' as const, at: T + seconds * 1000 });
const cleared = (seconds: number) => ({ who: 'Dr A.', at: T + seconds * 1000, day: '2026-11-24' });

test('the most pain of the last session is asked about, for six weeks, and none where none was noted', () => {
  const last = time('2026-10-01', hurt(1), hurt(3, 60), hurt(2, 120));
  expect(askedOf(last, undefined, '2026-10-03')).toEqual({ day: '2026-10-01', pain: 3 });
  expect(askedOf(last, undefined, '2026-11-12')).toEqual({ day: '2026-10-01', pain: 3 });
  expect(askedOf(last, undefined, '2026-11-13')).toBeUndefined();
  expect(askedOf(undefined, undefined, '2026-10-03')).toBeUndefined();
  expect(askedOf(time('2026-10-01', hurt(0), set({})), undefined, '2026-10-03')).toBeUndefined();
  // a set that only ended in it has no number
  expect(askedOf(time('2026-10-01', set({ ended: 'pain' })), undefined, '2026-10-03')).toEqual({ day: '2026-10-01' });
});

test('a clearance lifts what was noted before it, and nothing after', () => {
  const last = time('2026-11-24', hurt(5), hurt(2, 120));
  expect(askedOf(last, cleared(60), '2026-11-25')).toEqual({ day: '2026-11-24', pain: 2 });
  expect(askedOf(last, cleared(180), '2026-11-25')).toBeUndefined();
  expect(heldBy([last], undefined)).toEqual({ day: '2026-11-24', pain: 5 });
  expect(heldBy([last], cleared(60))).toBeUndefined();
});

test('what holds an exercise back is the latest stop of the sessions before', () => {
  const times = [time('2026-11-20', hurt(2)), time('2026-11-17', hurt(4)), time('2026-11-10', hurt(6))];
  expect(heldBy(times, undefined)).toEqual({ day: '2026-11-17', pain: 4 });
  expect(heldBy([time('2026-11-20', hurt(3))], undefined)).toBeUndefined();
  expect(heldBy([time('2026-11-20', hurt(2, 0, { ended: 'pain' }))], undefined)).toEqual({
    day: '2026-11-20',
    pain: 2,
  });
  const signed = [{ ...time('2026-11-20', set({})), signs: [sign(30)] }];
  expect(heldBy(signed, undefined)).toEqual({ day: '2026-11-20', sign: sign(30) });
  expect(heldBy(signed, cleared(60))).toBeUndefined();
});

test('pain the client came in with is asked about at the next session', () => {
  expect(arrivalAsked({ day: '2026-11-14', pain: 3 }, '2026-11-16')).toEqual({ day: '2026-11-14', pain: 3 });
  expect(arrivalAsked({ day: '2026-11-14' }, '2026-11-16')).toBeUndefined();
  expect(arrivalAsked({ day: '2026-11-14', pain: 0 }, '2026-11-16')).toBeUndefined();
  expect(arrivalAsked({ day: '2026-10-04', pain: 3 }, '2026-11-16')).toBeUndefined();
});
