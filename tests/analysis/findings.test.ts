import { describe, expect, test } from 'vitest';
import { type End, endsOf } from '../../src/analysis/ends';
import { type Finding, findingsOf, headsUp, isHeadsUp, ranked } from '../../src/analysis/findings';
import { NO_BODY } from '../../src/analysis/track';
import { addDays, type Day, daysBetween } from '../../src/domain/day';
import type { Exercise } from '../../src/domain/exercise';
import type { Exposure } from '../../src/domain/exposure';
import type { Target } from '../../src/domain/target';
import { shipped } from '../domain/made';
import { dayAt, FRONT_SQUAT, type Held, lift, on } from './made';

const DEADLIFT = shipped('lib-deadlift');
const BENCH = shipped('lib-bench-press');

/** Mondays and Thursdays. */
const session = (n: number): number => Math.floor(n / 2) * 7 + (n % 2) * 3;

/** Returns two sessions a week of loads, each told to have two reps left, or with `told` as it says. */
function log(
  kgs: readonly number[],
  { exercise = FRONT_SQUAT, from = 0, told = (kg: number): readonly Held[] => [lift(kg, 5, 2), lift(kg, 5, 1.5)] } = {},
): readonly Exposure[] {
  return kgs.map((kg, n) => on(from + session(n), exercise, told(kg)));
}
const times = (count: number, of: (n: number) => number): readonly number[] =>
  Array.from({ length: count }, (_, n) => of(n));
/** Twelve sessions that grow by one per cent each, from 80 kg, and so many more that do not. */
const plateau = (count: number): readonly number[] => [
  ...times(12, (n) => Math.round(80 * 1.01 ** n * 4) / 4),
  ...times(count, () => 90.25),
];
const SECOND_LAST_BEST = dayAt(session(11));

/** Returns what is found of an exercise, as of its last session or the day given. */
function found(exposures: readonly Exposure[], today?: Day, targets: readonly Target[] = []): readonly Finding[] {
  const ends = endsOf(FRONT_SQUAT, exposures, NO_BODY);
  return findingsOf(ends, targets, today ?? ends[0]?.day ?? dayAt(0));
}
function first(exposures: readonly Exposure[], today?: Day): Finding {
  const [one] = found(exposures, today);
  if (!one) throw new Error('nothing found');
  return one;
}
/** Returns the types that are found as the sessions come in, one after the other, each but once in a row. */
function story(exposures: readonly Exposure[]): readonly string[] {
  const types = exposures.map((_, n) => first(exposures.slice(0, n + 1)).type);
  return types.filter((type, n) => type !== types[n - 1]);
}

describe('the story of a lift', () => {
  const rising = times(14, (n) => Math.round(90.25 * 1.012 ** (n + 1) * 4) / 4);

  test('is growth, then doubt, then a stall; when it goes on, it picks up, and grows', () => {
    expect(story(log([...plateau(20), ...rising]))).toEqual([
      'not-enough',
      'growing',
      'maybe-stalled',
      'stalled',
      'maybe-stalled',
      'picking-up',
      'growing',
    ]);
  });

  test('it is called picking up for four weeks after the last day of the stall', () => {
    const all = log([...plateau(20), ...rising]);
    const findings = all.map((_, n) => first(all.slice(0, n + 1)));
    const [stalled, picking] = [
      findings.filter(({ type }) => type === 'stalled'),
      findings.filter(({ type }) => type === 'picking-up'),
    ];
    for (const one of picking) expect(one).toMatchObject({ since: stalled.at(-1)?.day, next: { type: 'keep-on' } });
    const [end, after] = [stalled.at(-1)?.day ?? '', picking.at(-1)?.day ?? ''];
    expect(daysBetween(end, after)).toBeLessThanOrEqual(28);
    expect(findings.at(-1)?.type).toBe('growing');
  });

  test('of what goes down it says so, once that is sure', () => {
    const down = log(times(14, (n) => 100 * 0.985 ** n));
    const one = first(down);
    expect(one).toMatchObject({ type: 'falling', next: { type: 'look-into' } });
    expect(one.certainty).toBeGreaterThanOrEqual(0.65);
    expect(isHeadsUp(one)).toBe(true);
    expect(story(down)).not.toContain('stalled');
  });
});

describe('a stall', () => {
  const all = log(plateau(12));
  const one = first(all);

  test('is told with its day, what it rests on, how sure it is, and a day to judge again by', () => {
    if (one.type !== 'stalled') throw new Error(one.type);
    expect(one).toMatchObject({ exercise: FRONT_SQUAT.id, day: all.at(-1)?.day });
    expect(one.certainty).toBeGreaterThanOrEqual(0.65);
    expect(one.certainty).toBeLessThan(1);
    // it lasts since the loads no longer rose, give or take two weeks, and never from before the second-last best
    expect(one.since >= SECOND_LAST_BEST).toBe(true);
    expect(daysBetween(SECOND_LAST_BEST, one.since)).toBeLessThanOrEqual(14);
    const from = all.findIndex(({ day }) => day === one.since);
    expect(one.evidence).toEqual(all.slice(from).map((exposure) => exposure.session));
    if (one.next.type !== 'change') throw new Error(one.next.type);
    expect(daysBetween(one.day, one.next.retest)).toBe(14);
    expect(isHeadsUp(one)).toBe(true);
  });

  test('never lasts since before the second-last best: two that rise again after it, and it is young', () => {
    const [again, twice] = [91.25, 92.5];
    const late = first(log([...plateau(20), again, twice]));
    expect(late).toMatchObject({ type: 'stalled', since: dayAt(session(32)) });
    expect(late.evidence).toHaveLength(2);
  });

  test('rests on the last 24 sessions at the most', () => {
    const long = log(plateau(40));
    expect(first(long).evidence).toEqual(long.slice(-24).map(({ session: name }) => name));
  });

  test('that is only likely asks for two weeks at the own pace: about two sessions a week are four', () => {
    const at = plateau(12).findIndex((_, n) => first(all.slice(0, n + 1)).type === 'maybe-stalled');
    expect(at).toBeGreaterThan(12);
    const doubt = first(all.slice(0, at + 1));
    expect(doubt).toMatchObject({ type: 'maybe-stalled', next: { type: 'wait' } });
    expect(doubt.certainty).toBeGreaterThanOrEqual(0.5);
    expect(doubt.certainty).toBeLessThan(0.65);
    // from the first to the last of the latest eight are 24 or 25 days: 7 sessions more
    const { sessions } = doubt.next.type === 'wait' ? doubt.next : { sessions: 0 };
    expect(sessions).toBe(4);
  });

  test('is not claimed where effort was hardly told: the plan may have asked for no more', () => {
    const told = (kg: number): readonly Held[] => [lift(kg, 5), lift(kg, 5)];
    const quiet = first(log(plateau(24), { told }));
    expect(quiet).toMatchObject({ type: 'untold', next: { type: 'note-effort' } });
    expect(quiet.type === 'untold' && quiet.since >= SECOND_LAST_BEST).toBe(true);
    expect(isHeadsUp(quiet)).toBe(false);
    // nor where it was told in two sessions of five
    const seldom = plateau(24).map((kg, n) => on(session(n), FRONT_SQUAT, [lift(kg, 5, n % 5 < 2 ? 2 : undefined)]));
    expect(first(seldom).type).toBe('untold');
    // told of half of the sets it is
    const half = (kg: number): readonly Held[] => [lift(kg, 5, 2), lift(kg, 5)];
    expect(first(log(plateau(24), { told: half })).type).toBe('stalled');
  });
});

describe('a break', () => {
  const flat = log(plateau(14));
  const last = session(25);
  const back = (gap: number, count: number): readonly Exposure[] => [
    ...flat,
    ...log(
      times(count, () => 87.5),
      { from: last + gap },
    ),
  ];

  test('mutes a stall for three weeks, and then not', () => {
    const one = first(back(18, 3));
    const day = dayAt(last + 18);
    expect(one).toMatchObject({ type: 'returning', since: day, next: { type: 'ease-in' } });
    expect(story(back(18, 10)).slice(-3)).toEqual(['stalled', 'returning', 'stalled']);
    const findings = times(10, (n) => n + 1).map((count) => first(back(18, count)));
    for (const { type, day: of } of findings)
      expect([of, type]).toEqual([of, daysBetween(day, of) <= 21 ? 'returning' : 'stalled']);
  });

  test('of two weeks is none', () => {
    expect(first(back(14, 1)).type).toBe('stalled');
    expect(first(back(15, 1)).type).toBe('returning');
  });
});

describe('too little', () => {
  test('says what is missing: sessions, days, or nothing but time', () => {
    const need = (count: number, apart: number) =>
      first(times(count, (n) => n * apart).map((n) => on(n, FRONT_SQUAT, [lift(100, 5, 2)])));
    expect(need(1, 3)).toMatchObject({ type: 'not-enough', has: 1, needs: 6, days: 0 });
    expect(need(1, 3).next).toEqual({ type: 'log-more', sessions: 5, days: 18 });
    expect(need(4, 3).next).toEqual({ type: 'log-more', sessions: 2, days: 9 });
    expect(need(4, 30).next).toEqual({ type: 'log-more', sessions: 2, days: 0 });
    expect(need(9, 2).next).toEqual({ type: 'log-more', sessions: 0, days: 2 });
  });

  test('of a target nothing is said until then', () => {
    const target: Target = {
      id: 't',
      exercise: FRONT_SQUAT.id,
      goal: { value: 200, unit: 'kg' },
      start: { value: 190, unit: 'kg' },
      reps: 5,
      from: dayAt(0),
      day: dayAt(60),
    };
    const types = (count: number) =>
      found(log(plateau(0).slice(0, count)), undefined, [target]).map(({ type }) => type);
    expect(types(6)).toEqual(['not-enough']);
    expect(types(7)).toEqual(['behind', 'growing']);
  });
});

describe('what comes first', () => {
  const of = (exercise: Exercise, kgs: readonly number[], from = 0): readonly End[] =>
    endsOf(exercise, log(kgs, { exercise, from }), NO_BODY);
  const flat = plateau(12);
  const today = dayAt(session(23));
  const aim = (exercise: Exercise, inDays: number, goal: number, start: number): Target => ({
    id: `t-${exercise.id}`,
    exercise: exercise.id,
    goal: { value: goal, unit: 'kg' },
    start: { value: start, unit: 'kg' },
    reps: 5,
    from: dayAt(0),
    day: addDays(today, inDays),
  });
  const order = (ends: readonly End[], targets: readonly Target[] = []) =>
    findingsOf(ends, targets, today).map(({ exercise, type }) => [exercise.slice(4), type]);

  test('stalled before growing, too little last, in whatever order they come', () => {
    const ends = [
      ...of(
        DEADLIFT,
        times(24, (n) => 100 * 1.01 ** n),
      ),
      ...of(BENCH, [60, 60], session(20)),
      ...of(FRONT_SQUAT, flat),
    ];
    const sorted = [
      ['front-squat', 'stalled'],
      ['deadlift', 'growing'],
      ['bench-press', 'not-enough'],
    ];
    expect(order(ends)).toEqual(sorted);
    expect(order([...ends].reverse())).toEqual(sorted);
  });

  test('of two stalls the one whose target is near', () => {
    const ends = [...of(DEADLIFT, flat), ...of(FRONT_SQUAT, flat)];
    const firstOf = (...targets: readonly Target[]) => order(ends, targets)[0];
    // far off in weight, so that both are behind
    expect(firstOf(aim(FRONT_SQUAT, 14, 130, 125), aim(DEADLIFT, 150, 130, 125))).toEqual(['front-squat', 'stalled']);
    expect(firstOf(aim(FRONT_SQUAT, 150, 130, 125), aim(DEADLIFT, 14, 130, 125))).toEqual(['deadlift', 'stalled']);
    // of one whose day is past nothing is near
    expect(firstOf(aim(FRONT_SQUAT, -3, 130, 125), aim(DEADLIFT, 150, 130, 125))).toEqual(['deadlift', 'stalled']);
  });

  test('what is flat where it should be, or ahead of its time, can wait', () => {
    const ends = [...of(DEADLIFT, flat), ...of(FRONT_SQUAT, flat)];
    const types = order(ends, [aim(FRONT_SQUAT, 14, 60, 50)]);
    expect(types[0]).toEqual(['deadlift', 'stalled']);
    expect(types.at(-1)).toEqual(['front-squat', 'stalled']);
    // about 95 can be done for five: far more than the 80 of today, less than the 115 of the end
    const ahead = order(ends, [aim(FRONT_SQUAT, 100, 115, 45)]);
    expect(ahead).toEqual([
      ['deadlift', 'stalled'],
      ['front-squat', 'stalled'],
      ['front-squat', 'ahead'],
    ]);
  });

  test('sides of one exercise are told one by one', () => {
    const side = (which: 'left' | 'right', kg: number): Held => lift(kg, 5, 2, { side: which });
    const both = (kg: number): readonly Held[] => [side('left', kg), side('right', 40)];
    const sides = findingsOf(endsOf(FRONT_SQUAT, log(plateau(0), { told: both }), NO_BODY), [], today);
    expect(sides.map((one) => one.side).sort()).toEqual(['left', 'right']);
    expect(sides.find((one) => one.side === 'left')?.type).toBe('growing');
  });

  test('ranking what was found again changes nothing', () => {
    const all = findingsOf([...of(DEADLIFT, flat), ...of(BENCH, [60, 60]), ...of(FRONT_SQUAT, plateau(0))], [], today);
    expect(ranked([...all].reverse(), [], today)).toEqual(all);
  });

  describe('today', () => {
    const stalled = of(FRONT_SQUAT, flat);
    const now = (ends: readonly End[], day: Day, targets: readonly Target[] = []) =>
      headsUp(findingsOf(ends, targets, day));

    test('a stall is told until the exercise was not done for six weeks', () => {
      expect(now(stalled, addDays(today, 42))?.type).toBe('stalled');
      expect(now(stalled, addDays(today, 43))).toBeUndefined();
      // nor is anything else said of it but that, however near its target
      const near = findingsOf(stalled, [aim(FRONT_SQUAT, 50, 130, 125)], addDays(today, 43));
      expect(near.map(({ type }) => type)).toEqual(['not-lately']);
    });

    test('growth by itself is no news; something reached is', () => {
      const growing = of(
        DEADLIFT,
        times(24, (n) => 100 * 1.01 ** n),
      );
      expect(now(growing, today)).toBeUndefined();
      expect(now(growing, today, [aim(DEADLIFT, 30, 90, 80)])?.type).toBe('reached');
      expect(now([...growing, ...stalled], today, [aim(DEADLIFT, 30, 90, 80)])?.type).toBe('stalled');
    });
  });
});
