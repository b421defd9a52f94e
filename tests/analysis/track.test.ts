import { describe, expect, test } from 'vitest';
import { currentTracks, dayNumber, NO_BODY, tracksOf } from '../../src/analysis/track';
import type { SetKind } from '../../src/domain/set';
import { shipped } from '../domain/made';
import {
  added,
  dayAt,
  FOUR_OR_MORE,
  FRONT_SQUAT,
  type Held,
  judgedSets,
  lift,
  on,
  PULL_UP,
  pounds,
  REACH,
  trackOf,
} from './made';

describe('the sets of a track', () => {
  test('working sets and tests are judged; warm-ups, back-offs and what was missed at once are not', () => {
    const of = (kind: SetKind, more: Held = {}) => ({ ...lift(100, 5, 2), kind, ...more });
    const sets = [
      of('warm-up', { load: { value: 40, unit: 'kg' } }),
      of('working'),
      of('test', { load: { value: 120, unit: 'kg' }, reps: 1 }),
      of('working', { load: { value: 130, unit: 'kg' }, reps: 0, ended: 'missed' }),
      of('back-off', { load: { value: 80, unit: 'kg' } }),
    ];
    const track = trackOf(FRONT_SQUAT, [on(0, FRONT_SQUAT, sets)]);
    expect(track).toMatchObject({ way: 'held', kind: 'e1rm', variant: '', side: undefined });
    expect(judgedSets(track, 0)).toEqual([
      { load: 100, reps: 5, rir: 2 },
      { load: 120, reps: 1, rir: 2 },
    ]);
    expect(track.coverage).toEqual({ sets: 2, told: 2, tooMany: 0, noMass: 0 });
  });

  test('a set that ended in a missed rep had none left, whatever was told', () => {
    const track = trackOf(FRONT_SQUAT, [on(0, FRONT_SQUAT, [lift(100, 4, 2, { ended: 'missed' })])]);
    expect(judgedSets(track, 0)).toEqual([{ load: 100, reps: 4, rir: 0 }]);
    expect(track.stops[0]?.isTold).toBe(true);
  });

  test('assisted sets, bands and pins make no track', () => {
    const assist = { value: 20, unit: 'kg' } as const;
    const helped = [
      { reps: 5, assist, kind: 'assisted' as const },
      { reps: 5, assist },
      { reps: 6, band: 'light' },
    ];
    expect(tracksOf(PULL_UP, [on(0, PULL_UP, helped)], NO_BODY)).toEqual([]);
    const stack = shipped('lib-lat-pulldown');
    expect(stack.holds).toBe('pin');
    expect(tracksOf(stack, [on(0, stack, [{ pin: '7', reps: 10 }])], NO_BODY)).toEqual([]);
  });

  test.each(['time', 'carry', 'landings', 'tries', 'band', 'tick'] as const)('what holds %s has none', (holds) => {
    const some = [on(0, FRONT_SQUAT, [lift(100, 5, 2)])];
    expect(tracksOf({ holds }, some, NO_BODY)).toEqual([]);
    expect(tracksOf({ holds: 'load' }, some, NO_BODY)).toHaveLength(1);
  });

  test('pounds and kilograms are one track: 225 lb are 102.058 kg', () => {
    const track = trackOf(FRONT_SQUAT, [
      on(0, FRONT_SQUAT, [lift(100, 5, 2)]),
      on(3, FRONT_SQUAT, [pounds(225, 5, 2), lift(102.5, 5, 1)]),
    ]);
    expect(judgedSets(track, 1)[0]?.load).toBeCloseTo(102.05828325, 8);
    expect(judgedSets(track, 1)[1]?.load).toBe(102.5);
    expect(track.stops).toHaveLength(2);
  });

  test('more than 15 reps, those left counted, tell no load and are counted as left out; of reps they tell', () => {
    const sets = [lift(60, 12, 3), lift(60, 12, 3.5), lift(40, 20, 0)];
    const track = trackOf(FRONT_SQUAT, [on(0, FRONT_SQUAT, sets)]);
    expect(judgedSets(track, 0)).toEqual([{ load: 60, reps: 12, rir: 3 }]);
    expect(track.coverage).toMatchObject({ sets: 1, tooMany: 2 });
    expect(judgedSets(trackOf(PULL_UP, [on(0, PULL_UP, [added(0, 25, 1)])]), 0)).toEqual([
      { load: 0, reps: 25, rir: 1 },
    ]);
    // of nothing else the track is there to say so, and has no session
    const none = trackOf(FRONT_SQUAT, [on(0, FRONT_SQUAT, [lift(40, 20, 0)])]);
    expect([none.stops, none.coverage.tooMany]).toEqual([[], 1]);
  });

  test('a set that could have been more is dropped beside one that was told, and stands where there is none', () => {
    const more = { ...lift(100, 5), ...FOUR_OR_MORE };
    const both = trackOf(FRONT_SQUAT, [on(0, FRONT_SQUAT, [more, lift(100, 5, 3)])]);
    expect(judgedSets(both, 0)).toEqual([{ load: 100, reps: 5, rir: 3 }]);
    const alone = trackOf(FRONT_SQUAT, [on(0, FRONT_SQUAT, [more, { ...lift(100, 6), ended: 'pain' }])]);
    // 4 at the least; and of the one that hurt, what was done
    expect(judgedSets(alone, 0)).toEqual([
      { load: 100, reps: 5, rir: 4, atLeast: true },
      { load: 100, reps: 6, rir: 0, atLeast: true },
    ]);
  });

  test('degrees are the mean of a side in a session', () => {
    const of = (side: 'left' | 'right', degrees: number): Held => ({ side, degrees });
    const some = [on(0, REACH, [of('left', 150), of('right', 170), of('left', 160), of('left', 155)])];
    expect(tracksOf(REACH, some, NO_BODY).map(({ side, kind, stops }) => [side, kind, stops[0]?.judged])).toEqual([
      ['left', 'deg', { day: dayNumber(dayAt(0)), deload: false, value: 155 }],
      ['right', 'deg', { day: dayNumber(dayAt(0)), deload: false, value: 170 }],
    ]);
  });
});

describe('effort that nobody told', () => {
  const rirs = (...told: readonly (number | undefined)[]) => {
    const track = trackOf(
      FRONT_SQUAT,
      told.map((left, n) => on(n * 3, FRONT_SQUAT, [lift(100, 5, left)])),
    );
    return told.map((_, n) => judgedSets(track, n)[0]);
  };

  test('is taken as two reps at first, and known to be unsure', () => {
    expect(rirs(undefined)).toEqual([{ load: 100, reps: 5, rir: 2, unsure: 1.5 }]);
  });

  test('then goes to what was told before, in halves: three told as 0 with three of 2 are 1, nine are 0.5', () => {
    const zeros = (count: number) => Array.from({ length: count }, () => 0);
    expect(rirs(...zeros(3), undefined).at(-1)).toMatchObject({ rir: 1, unsure: 1.5 });
    expect(rirs(...zeros(9), undefined).at(-1)).toMatchObject({ rir: 0.5 });
    // never nothing, however often that was told
    expect(rirs(...zeros(60), undefined).at(-1)).toMatchObject({ rir: 0.5 });
    // (3 × 2 + 5 × 4) / 8 = 3.25, as a half 3.5
    expect(rirs(4, 4, 4, 4, 4, undefined).at(-1)).toMatchObject({ rir: 3.5 });
  });

  test('is never taken from what was told later, nor in the same session', () => {
    expect(rirs(undefined, 0, 0, 0, 0, 0)[0]).toMatchObject({ rir: 2 });
    const same = trackOf(FRONT_SQUAT, [on(0, FRONT_SQUAT, [lift(100, 5, 0), lift(100, 5, 0), lift(100, 5)])]);
    expect(judgedSets(same, 0).map(({ rir }) => rir)).toEqual([0, 0, 2]);
  });

  test('"4 or more left" tells nothing of what is usual', () => {
    const more = { ...lift(100, 5), ...FOUR_OR_MORE };
    const track = trackOf(FRONT_SQUAT, [
      ...[0, 3, 6, 9].map((n) => on(n, FRONT_SQUAT, [more])),
      on(12, FRONT_SQUAT, [lift(100, 5)]),
    ]);
    expect(judgedSets(track, 4)[0]).toMatchObject({ rir: 2 });
  });

  test('a session counts as told by its last set, or by half of them', () => {
    const told = (...lefts: readonly (number | undefined)[]) =>
      trackOf(FRONT_SQUAT, [
        on(
          0,
          FRONT_SQUAT,
          lefts.map((left) => lift(100, 5, left)),
        ),
      ]).stops[0]?.isTold;
    expect([told(undefined, undefined, 1), told(1, 1, undefined, undefined), told(1, undefined, undefined)]).toEqual([
      true,
      true,
      false,
    ]);
    const track = trackOf(FRONT_SQUAT, [on(0, FRONT_SQUAT, [lift(100, 5, 2), lift(100, 5), lift(100, 5)])]);
    expect(track.coverage).toMatchObject({ sets: 3, told: 1 });
  });
});

describe('what is kept apart', () => {
  test('sides: nothing of one is in the other, their usual effort neither', () => {
    const side = (which: 'left' | 'right', kg: number, left?: number) => lift(kg, 8, left, { side: which });
    const tracks = tracksOf(
      FRONT_SQUAT,
      [
        on(0, FRONT_SQUAT, [side('left', 20, 0), side('left', 20, 0), side('left', 20, 0), side('right', 24, 4)]),
        on(3, FRONT_SQUAT, [side('left', 20), side('right', 24)]),
        on(6, FRONT_SQUAT, [side('left', 22, 1)]),
      ],
      NO_BODY,
    );
    const [left, right] = tracks;
    expect(tracks.map((one) => [one.side, one.stops.length])).toEqual([
      ['left', 3],
      ['right', 2],
    ]);
    // (3 × 2 + 0) / 6 = 1 on the left; (3 × 2 + 4) / 4 = 2.5 on the right
    expect(left && judgedSets(left, 1)[0]).toMatchObject({ load: 20, rir: 1 });
    expect(right && judgedSets(right, 1)[0]).toMatchObject({ load: 24, rir: 2.5 });
  });

  test.each([
    ['height', { height: { value: 30, unit: 'cm' } }, { height: { value: 40, unit: 'cm' } }],
    ['tempo', { tempo: '3-1-x-0' }, {}],
    ['pause', { pause: 2 }, { pause: 3 }],
  ] as const)('another %s is another track, and the last one done is the current', (_, one, other) => {
    const some = [
      on(0, FRONT_SQUAT, [lift(80, 5, 2, one)]),
      on(3, FRONT_SQUAT, [lift(100, 5, 2, other)]),
      on(6, FRONT_SQUAT, [lift(82.5, 5, 2, one)]),
    ];
    const tracks = tracksOf(FRONT_SQUAT, some, NO_BODY);
    expect(tracks.map((track) => track.stops.map(({ day }) => day))).toEqual([[dayAt(0), dayAt(6)], [dayAt(3)]]);
    expect(currentTracks(tracks).map(({ stops }) => stops.length)).toEqual([2]);
    expect(currentTracks(tracksOf(FRONT_SQUAT, some.slice(0, 2), NO_BODY)).map(({ stops }) => stops[0]?.day)).toEqual([
      dayAt(3),
    ]);
  });

  test('of two variants on one day the later session has the current one', () => {
    const pause = { pause: 2 };
    const at = (hour: number) => ({ at: Date.parse(`${dayAt(9)}T00:00Z`) + hour * 3_600_000 });
    const some = [
      on(0, FRONT_SQUAT, [lift(80, 5, 2, pause)]),
      on(9, FRONT_SQUAT, [lift(82.5, 5, 2, pause)], at(9)),
      on(9, FRONT_SQUAT, [lift(100, 5, 2)], at(18)),
    ];
    expect(currentTracks(tracksOf(FRONT_SQUAT, some, NO_BODY)).map(({ variant }) => variant)).toEqual(['']);
  });

  test('a session of two variants is judged by the one it ended with', () => {
    const sets = [lift(100, 5, 2), lift(80, 5, 2, { pause: 2 })];
    expect(judgedSets(trackOf(FRONT_SQUAT, [on(0, FRONT_SQUAT, sets)]), 0)).toEqual([{ load: 80, reps: 5, rir: 2 }]);
  });
});

describe('days', () => {
  test('two sessions of one day are two stops of that day, the earlier first', () => {
    const at = (hour: number) => ({ at: Date.parse(`${dayAt(0)}T00:00Z`) + hour * 3_600_000 });
    const track = trackOf(FRONT_SQUAT, [
      on(0, FRONT_SQUAT, [lift(102.5, 5, 2)], at(18)),
      on(0, FRONT_SQUAT, [lift(100, 5, 2)], at(8)),
    ]);
    expect(track.stops.map(({ judged }) => judged.day)).toEqual([dayNumber(dayAt(0)), dayNumber(dayAt(0))]);
    expect([0, 1].map((n) => judgedSets(track, n)[0]?.load)).toEqual([100, 102.5]);
  });

  test('go by the day that was written down: after a flight the later session may bear the earlier one', () => {
    const noon = Date.parse(`${dayAt(1)}T12:00Z`);
    const track = trackOf(FRONT_SQUAT, [
      on(1, FRONT_SQUAT, [lift(100, 5, 2)], { at: noon }),
      on(0, FRONT_SQUAT, [lift(90, 5, 2)], { at: noon + 3_600_000 }),
    ]);
    expect(track.stops.map(({ day }) => day)).toEqual([dayAt(0), dayAt(1)]);
  });

  test('are numbered one by one, over a change of the clocks and a leap day', () => {
    expect(dayNumber('2026-03-30') - dayNumber('2026-03-28')).toBe(2);
    expect(dayNumber('2028-03-01') - dayNumber('2028-02-28')).toBe(2);
  });
});
