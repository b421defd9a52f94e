import { describe, expect, test } from 'vitest';
import type { SessionRecord } from '../../src/domain/session';
import type { CueUse, SetRecord } from '../../src/domain/set';
import { dayIn, times } from '../reference/records';
import { about, clientWith, did, foundOf, type In } from './foundIn';

/* Landings, cues, ranges and learning, in records made by hand. Day 0 is a Monday. */

const DROP = 'lib-drop-landing';
const HOP = 'lib-hop-and-hold';
const ROTATION = 'lib-upper-back-rotation';

describe('landings', () => {
  const landed = (day: number, landings: readonly number[], more: Partial<SetRecord> = {}) =>
    did(
      dayIn(day),
      DROP,
      landings.map((count) => ({ landings: count, ...more })),
    );
  const told = (
    sessions: readonly SessionRecord[],
    day: number,
    level: 'beginner' | 'none' = 'beginner',
  ): readonly In<'landings'>[] =>
    about('landings', foundOf(clientWith(sessions, level === 'none' ? {} : { level }), dayIn(day)));

  test.each([
    [[40, 39], 'below', 1, 'keep-on'],
    [[40, 40], 'within', 0, 'keep-on'],
    [[50, 50], 'within', 0, 'keep-on'],
    [[50, 60], 'above', 10, 'look-into'],
  ] as const)('%j of a beginner, whose range is 80 to 100: %s by %i', (sets, type, off, act) => {
    const [found] = told([landed(0, [9]), landed(2, sets)], 3);
    expect(found).toMatchObject({
      type,
      day: dayIn(2),
      landings: sets[0] + sets[1],
      against: { from: 80, to: 100, off },
      hoursSince: 48,
      next: { type: act },
    });
  });

  test('without a level they are counted, and the level is asked for; after six weeks nothing is said', () => {
    expect(told([landed(0, [50, 60])], 0, 'none')[0]).toMatchObject({
      type: 'no-level',
      landings: 110,
      next: { type: 'note-level' },
    });
    expect(told([landed(0, [50])], 42)).not.toEqual([]);
    expect(told([landed(0, [50])], 43)).toEqual([]);
  });

  const hopped = (day: number, left: readonly [number, number], right: readonly [number, number]) =>
    did(dayIn(day), HOP, [
      { landings: left[1], good: left[0], side: 'left' as const, direction: 'ahead' as const },
      { landings: right[1], good: right[0], side: 'right' as const, direction: 'out' as const },
    ]);
  const good = (sessions: readonly SessionRecord[]) => told(sessions, 1).filter(({ exercise }) => exercise === HOP);

  test('fewer than ten that somebody judged are too few', () => {
    expect(good([hopped(0, [3, 5], [4, 4])])).toMatchObject([
      { type: 'too-few', has: 9, needs: 10, unjudged: 0, next: { type: 'log-more', what: 'judged', count: 1 } },
    ]);
    expect(good([did(dayIn(0), HOP, [{ landings: 12 }])])).toMatchObject([
      { type: 'too-few', has: 0, unjudged: 12, next: { count: 10 } },
    ]);
  });

  test('both sides with their intervals (8 of 10: 49.0 to 94.3 %), and no weaker one where that may be chance', () => {
    const [found] = good([hopped(0, [8, 10], [7, 10])]);
    expect(found).toMatchObject({ type: 'good', certainty: 0.95, next: { type: 'keep-on' } });
    if (found?.type !== 'good') throw new Error(found?.type);
    expect(found.sides.map(({ side, good: some, of }) => [side, some, of])).toEqual([
      ['left', 8, 10],
      ['right', 7, 10],
    ]);
    expect(found.sides[0]?.low).toBeCloseTo(0.4902, 4);
    expect(found.sides[0]?.high).toBeCloseTo(0.9433, 4);
    expect(found.parts.map(({ direction }) => direction)).toEqual(['ahead', 'out']);
  });

  test('a side that is less often good is named once that is sure', () => {
    const [found] = good([hopped(0, [4, 12], [11, 12])]);
    expect(found).toMatchObject({ type: 'weaker-side', side: 'left', next: { type: 'look-into' } });
    // the chance that Beta(12, 2) lies above Beta(5, 9), integrated with scipy
    expect(found?.certainty).toBeCloseTo(0.9982, 5);
    // the chance that Beta(11, 3) lies above Beta(7, 7) is 0.95: one pair of sides in ten that are alike comes as far as that
    expect(good([hopped(0, [6, 12], [10, 12])])).toMatchObject([{ type: 'good' }]);
    // nine of one side are not enough, however good
    expect(good([hopped(0, [0, 9], [12, 12])])).toMatchObject([{ type: 'good' }]);
  });
});

describe('cues', () => {
  const [QUIET, TRIPOD] = ['lib-cue-nobody-hears', 'lib-cue-tripod'];
  /** For the same fault as the first. */
  const CAT = 'lib-cue-cat';
  const use = (cue: string, answer?: CueUse['answer']): Partial<SetRecord> => ({
    landings: 5,
    cues: [{ id: cue, cue, ...(answer ? { answer } : {}) }],
  });
  const told = (sets: readonly Partial<SetRecord>[], after = 0): readonly In<'cues'>[] =>
    about('cues', foundOf(clientWith([did(dayIn(0), DROP, sets)]), dayIn(after)));

  test('four uses are too few to tell, and say how many more', () => {
    const sets = [...times(4, use(QUIET, 'better')), ...times(2, use(TRIPOD, 'same')), use(QUIET)];
    expect(told(sets)).toMatchObject([
      { type: 'too-few', has: 4, needs: 5, unanswered: 1, next: { type: 'log-more', what: 'uses', count: 1 } },
    ]);
  });

  test('one cue alone is the best of none', () => {
    expect(told(times(7, use(QUIET, 'better')))).toMatchObject([{ type: 'too-few', has: 7, needs: 8 }]);
    // by itself it can only be told to work mostly
    expect(told(times(9, use(QUIET, 'better')))).toMatchObject([{ type: 'often', cue: { cue: QUIET } }]);
    const half = [...times(5, use(QUIET, 'better')), ...times(4, use(QUIET, 'same'))];
    expect(told(half)).toMatchObject([{ type: 'not-clear' }]);
  });

  test('cues for different faults are not set against each other', () => {
    const found = told([...times(12, use(QUIET, 'better')), ...times(14, use(TRIPOD, 'same'))]);
    expect(found.map(({ type }) => type).sort()).toEqual(['often', 'seldom']);
  });

  test('the best of a fault is named with its chance, and a cue that is seldom answered better with another to try', () => {
    const found = told([...times(12, use(QUIET, 'better')), ...times(14, use(CAT, 'same'))]);
    const best = found.find(({ type }) => type === 'best');
    expect(best).toMatchObject({ cue: { cue: QUIET }, of: 2, next: { type: 'keep-on' } });
    expect(best?.certainty).toBeGreaterThan(0.99);
    const seldom = found.find(({ type }) => type === 'seldom');
    expect(seldom).toMatchObject({
      cue: { cue: CAT, uses: { used: 14, worked: 0 } },
      next: { type: 'try-another-cue' },
    });
    expect(found).toHaveLength(2);
  });

  /** So many times the fault is seen in a set, and in the next one, with the cue or without, gone or not. */
  const steps = (count: number, cue: string | undefined, gone: boolean): SessionRecord[] =>
    times(count, 0).map((_, n) =>
      did(
        dayIn(n % 30),
        HOP,
        [
          { landings: 5, faults: [{ id: 'lib-wobble', gone: false }] },
          { landings: 5, ...(cue ? use(cue, 'same') : {}), faults: gone ? [] : [{ id: 'lib-wobble', gone: false }] },
        ],
        { id: `${cue}${gone}${n}` },
      ),
    );
  const compared = (...some: readonly SessionRecord[][]) => about('cues', foundOf(clientWith(some.flat()), dayIn(29)));

  test('a cue after which the fault goes no more often than without it helps no more than none', () => {
    const found = compared(
      steps(10, TRIPOD, true),
      steps(10, TRIPOD, false),
      steps(14, undefined, true),
      steps(6, undefined, false),
    );
    expect(found).toMatchObject([
      {
        type: 'no-help',
        cue: { cue: TRIPOD },
        against: { with: { of: 20, gone: 10 }, without: { of: 20, gone: 14 } },
        next: { type: 'try-another-cue' },
      },
    ]);
    // the chance that Beta(11, 11) lies no more than 0.1 above Beta(15, 7), integrated with scipy
    expect(found[0]?.certainty).toBeCloseTo(0.9737, 3);
  });

  test('seven sets with it or without it are no comparison', () => {
    const types = (withIt: number, without: number) =>
      compared(steps(withIt, TRIPOD, false), steps(without, undefined, true)).map(({ type }) => type);
    expect(types(8, 8)).toEqual(['no-help']);
    expect(types(8, 7)).toEqual(['seldom']);
    expect(types(7, 8)).toEqual(['too-few']);
  });

  test('a cue that was left more than six weeks ago is not told of beside one that is given now', () => {
    const lately = (day: number) =>
      about(
        'cues',
        foundOf(
          clientWith([
            did(dayIn(0), DROP, times(14, use(TRIPOD, 'same'))),
            did(dayIn(day), DROP, times(12, use(QUIET, 'better'))),
          ]),
          dayIn(day),
        ),
      ).map(({ type }) => type);
    expect(lately(42)).toEqual(['seldom', 'often']);
    expect(lately(43)).toEqual(['often']);
  });

  test('nothing of cues that were given more than six weeks ago', () => {
    expect(told(times(9, use(QUIET, 'better')), 42)).toHaveLength(1);
    expect(told(times(9, use(QUIET, 'better')), 43)).toEqual([]);
  });
});

describe('ranges', () => {
  const measured = (day: number, degrees: number, exercise = ROTATION) =>
    did(dayIn(day), exercise, times(3, { degrees, side: 'left' as const }));
  const told = (sessions: readonly SessionRecord[], day: number) =>
    about('measures', foundOf(clientWith(sessions), dayIn(day)));

  test('42° to 49° is real at an error of 6°, 42° to 47° is not (METHODS §11)', () => {
    expect(told([measured(0, 42), measured(28, 49)], 28)).toMatchObject([
      {
        type: 'changed',
        side: 'left',
        since: dayIn(0),
        certainty: 0.95,
        change: { by: 7, mdc: 6, first: { value: 42 }, last: { value: 49 }, trials: [3, 3] },
        next: { type: 'keep-on' },
      },
    ]);
    const [within] = told([measured(0, 42), measured(28, 47)], 30);
    expect(within).toMatchObject({
      type: 'within-error',
      change: { by: 5 },
      next: { type: 'test-again', on: dayIn(42) },
    });
    // two weeks are over: today
    expect(told([measured(0, 42), measured(28, 47)], 60)[0]?.next).toEqual({ type: 'test-again', on: dayIn(60) });
    expect(within).not.toHaveProperty('certainty');
  });

  test('one day is too few, and of a test without a known error that is said', () => {
    expect(told([measured(0, 42)], 0)).toMatchObject([{ type: 'too-few', has: 1, needs: 2 }]);
    const ankle = 'lib-ankle-range';
    expect(told([measured(0, 30, ankle), measured(9, 40, ankle)], 9)).toMatchObject([
      { type: 'error-unknown', days: 2, exercise: ankle },
    ]);
  });

  test('nothing of what was measured more than a quarter of a year ago', () => {
    expect(told([measured(0, 42), measured(28, 49)], 28 + 91)).toHaveLength(1);
    expect(told([measured(0, 42), measured(28, 49)], 28 + 92)).toEqual([]);
  });
});

describe('learning', () => {
  const STRIKE = 'lib-staff-strike';
  const tried = (left: readonly number[], right: readonly number[]) =>
    left.map((good, n) =>
      did(dayIn(n), STRIKE, [
        { tries: 100, good, side: 'left' as const },
        { tries: 100, good: right[n] ?? 0, side: 'right' as const },
      ]),
    );
  const told = (left: readonly number[], right: readonly number[]) =>
    about('learning', foundOf(clientWith(tried(left, right)), dayIn(left.length)));

  test('of the weaker side, where half of what is left is gained in one session', () => {
    // 80 − 64, − 32, − 16 …: each session half of what is left, towards 80 of 100
    const left = [16, 48, 64, 72, 76, 78, 79];
    expect(told(left, times(7, 95))).toMatchObject([
      { type: 'curve', side: 'left', judged: 7, other: expect.closeTo(0.95, 9) },
    ]);
    const [found] = told(left, times(7, 95));
    if (found?.type !== 'curve') throw new Error(found?.type);
    expect(found.end).toBeCloseTo(0.8, 2);
    expect(found.halfLife).toBeCloseTo(1, 1);
    expect(found.share).toBeCloseTo((0.76 + 0.78 + 0.79) / 3, 9);
  });

  test('five sessions are too few, what does not change has no curve, and equal sides have no weaker one', () => {
    expect(told([1, 2, 3, 4, 5], times(5, 95))).toMatchObject([
      { type: 'too-few', has: 5, needs: 6, next: { type: 'log-more', what: 'sessions', count: 1 } },
    ]);
    expect(told(times(8, 50), times(8, 95))).toMatchObject([{ type: 'no-improvement', next: { type: 'look-into' } }]);
    expect(told(times(8, 50), times(8, 50))).toEqual([]);
  });
});
