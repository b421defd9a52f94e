import { expect, test } from 'vitest';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import { restOf } from '../../src/domain/rest';
import type { SetRecord } from '../../src/domain/set';

const T = Date.UTC(2026, 10, 24, 16, 0, 0);
const exerciseOf = (id: string) => SHIPPED_EXERCISES.find((one) => one.id === id);
const set = (more: Partial<SetRecord> = {}): SetRecord => ({
  id: 'a',
  exercise: 'lib-front-squat',
  kind: 'working',
  at: { at: T, day: '2026-11-24', zone: 'UTC' },
  parts: [],
  cues: [],
  marks: [],
  faults: [],
  unread: [],
  ...more,
});
/** Front squat rests 150 s. */
const at = (seconds: number, sets = [set()], change: Parameters<typeof restOf>[2] = null) =>
  restOf(sets, exerciseOf, change, T + seconds * 1000);

test('counts down from the set’s own instant, so a killed app comes back to the same clock', () => {
  expect(at(0)).toEqual({ state: 'resting', set: 'a', left: 150, of: 150 });
  expect(at(78)).toEqual({ state: 'resting', set: 'a', left: 72, of: 150 });
  expect(at(149.5)).toMatchObject({ left: 1 });
  expect(at(150)).toEqual({ state: 'ready' });
  expect(at(40 * 60)).toEqual({ state: 'ready' });
});

test('[M4] a clock set back shows no more than the whole rest, one set forward none', () => {
  expect(at(-10 * 365 * 24 * 3600)).toMatchObject({ state: 'resting', left: 150 });
  expect(at(10 * 365 * 24 * 3600)).toEqual({ state: 'ready' });
});

test('a set without rest, or none yet', () => {
  expect(at(1, [set({ noRest: true })])).toEqual({ state: 'ready' });
  expect(at(1, [])).toEqual({ state: 'no-set-yet' });
});

test('a changed rest holds for the set it was changed after, and for no other', () => {
  expect(at(10, [set()], { set: 'a', seconds: 60 })).toMatchObject({ left: 50, of: 60 });
  expect(at(10, [set()], { set: 'a', seconds: 0 })).toEqual({ state: 'ready' });
  expect(at(10, [set()], { set: 'before', seconds: 60 })).toMatchObject({ left: 140 });
});

test('no rest lies between two sides', () => {
  const left = set({ exercise: 'lib-one-arm-row', side: 'left' });
  const right = set({ id: 'b', exercise: 'lib-one-arm-row', side: 'right' });
  expect(at(1, [left])).toEqual({ state: 'other-side' });
  expect(at(1, [left, right])).toMatchObject({ state: 'resting', set: 'b' });
});

test('an exercise that is not in this library has no rest of its own', () => {
  expect(at(1, [set({ exercise: 'gone' })])).toEqual({ state: 'ready' });
});

test('a block with a clock of its own runs no second one between its rounds; rounds without one rest', () => {
  const block = (kind: 'rounds' | 'every' | 'most' | 'timed') =>
    ({
      id: 'k',
      kind,
      rounds: kind === 'most' ? 0 : 3,
      stations: [{ id: 's', exercise: 'lib-front-squat', plan: {} }],
    }) as const;
  const done = set({ in: { block: 'k', station: 's', round: 1 } });
  const rest = (kind: 'rounds' | 'every' | 'most' | 'timed') =>
    restOf([done], exerciseOf, null, T + 1000, [block(kind)]);
  expect(rest('rounds')).toMatchObject({ state: 'resting', left: 149 });
  expect([rest('every'), rest('most'), rest('timed')]).toEqual(Array(3).fill({ state: 'ready' }));
});

test('the hour that is told twice, and a flight, leave the rest as long as it is', () => {
  // 02:59 in Vienna on the last Sunday of October; two minutes later it is 02:01 again
  const at = { at: Date.parse('2026-10-25T02:59:00+02:00'), day: '2026-10-25', zone: 'Europe/Vienna' };
  const now = Date.parse('2026-10-25T02:01:00+01:00');
  expect(restOf([set({ at })], exerciseOf, null, now)).toEqual({ state: 'resting', set: 'a', left: 30, of: 150 });
  const landed = set({ at: { ...at, day: '2026-10-24', zone: 'America/New_York' } });
  expect(restOf([landed], exerciseOf, null, now)).toMatchObject({ left: 30 });
});

test('what is added to a count starts no rest and ends none', () => {
  const added = set({ id: 'b', exercise: 'lib-push-up', tally: true, at: { at: T + 60_000, day: '', zone: '' } });
  expect(at(70, [set(), added])).toMatchObject({ state: 'resting', set: 'a', left: 80 });
  expect(at(70, [added])).toEqual({ state: 'no-set-yet' });
});
