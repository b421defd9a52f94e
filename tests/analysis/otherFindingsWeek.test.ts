import { describe, expect, test } from 'vitest';
import type { BodyMass } from '../../src/domain/bodyMass';
import type { SessionRecord } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { dayIn, kg, lb, metres, times, type trained } from '../reference/records';
import { about, clientWith, did, foundOf, type In, mass } from './foundIn';

/* What is found of the latest week that is over, in records made by hand. Day 0 is a Monday; week n begins on day 7n. */

const SQUAT = 'lib-front-squat';
const PULL_UP = 'lib-pull-up';
const BENCH = 'lib-bench-press';

/** Five squats of so many kg, three sets: 15 × the load. */
const squats = (week: number, load: number, more: Parameters<typeof trained>[3] = {}, day = 1): SessionRecord =>
  did(dayIn(7 * week + day), SQUAT, times(3, { load: kg(load), reps: 5 }), more);

const tonnage = (sessions: readonly SessionRecord[], day: number, more = {}): readonly In<'tonnage'>[] =>
  about('tonnage', foundOf(clientWith(sessions, more), dayIn(day)));
const total = (found: readonly In<'tonnage'>[]) => found.find(({ exercise }) => exercise === undefined);
const of = (exercise: string, found: readonly In<'tonnage'>[]) => found.find((one) => one.exercise === exercise);

describe('tonnage', () => {
  const usual = [0, 1, 2, 3].map((week) => squats(week, 100));

  test('of a week twice the usual: above, with the usual, its range and the weeks; of the lift and in all', () => {
    const found = tonnage([...usual, squats(4, 200)], 35);
    for (const one of [total(found), of(SQUAT, found)]) {
      expect(one).toMatchObject({
        type: 'above',
        day: dayIn(28),
        kg: 3000,
        usual: expect.closeTo(1500, 6),
        coverage: 1,
        sets: 3,
        exercises: 1,
        weeks: [0, 7, 14, 21].map(dayIn),
        certainty: 0.954,
        next: { type: 'look-into' },
      });
    }
    // four equal weeks: an SD of √(6 × 0.18² ÷ 10) = 0.139427 on the log scale; 2.5 of them are a factor of 1.41704
    const one = of(SQUAT, found);
    if (one?.type !== 'above') throw new Error(one?.type);
    expect([one.low, one.high]).toEqual([expect.closeTo(1058.546, 2), expect.closeTo(2125.556, 2)]);
  });

  test('a third more is no more than habit, and usual has no chance to tell', () => {
    const found = of(SQUAT, tonnage([...usual, squats(4, 130)], 35));
    expect(found).toMatchObject({ type: 'usual', kg: 1950, next: { type: 'keep-on' } });
    expect(found).not.toHaveProperty('certainty');
  });

  test('a running week is not told of, and of a week without any nothing is said', () => {
    expect(tonnage([...usual, squats(4, 200)], 34)).toMatchObject([{ kg: 1500 }, { kg: 1500 }]);
    expect(tonnage([...usual, squats(4, 200)], 42)).toEqual([]);
  });

  test('three weeks before are too few, however many sessions', () => {
    expect(of(SQUAT, tonnage([...usual.slice(1), squats(4, 200)], 35))).toMatchObject({
      type: 'too-few',
      has: 3,
      needs: 4,
      kg: 3000,
      next: { type: 'log-more', what: 'weeks', count: 1 },
    });
  });

  test('a week that was cut short is set apart, and no usual one', () => {
    const cut = { attendance: 'cut-short' } as const;
    expect(of(SQUAT, tonnage([...usual, squats(4, 30, cut)], 35))).toMatchObject({ type: 'set-apart', kg: 450 });
    expect(of(SQUAT, tonnage([...usual.slice(1), squats(0, 100, cut), squats(4, 100)], 35))).toMatchObject({ has: 3 });
  });

  test('a load that is missing is no 0: the week is partly known, and how many are missing is said', () => {
    const sets: Partial<SetRecord>[] = [{ load: kg(100), reps: 5 }, { reps: 5 }, { load: kg(100) }];
    const found = tonnage([...usual, did(dayIn(29), SQUAT, sets)], 35);
    expect(of(SQUAT, found)).toMatchObject({
      type: 'partly-known',
      kg: 500,
      not: { 'no-load': 1, 'no-reps': 1 },
      next: { type: 'note-sets', count: 2 },
    });
    expect(of(SQUAT, found)?.coverage).toBeCloseTo(1 / 3, 9);
  });

  test('without a body mass nothing is made up, and it is asked for; the total is told with its coverage', () => {
    const week = (n: number) => [squats(n, 100), did(dayIn(7 * n + 2), PULL_UP, times(2, { reps: 5 }))];
    const found = tonnage([0, 1, 2, 3, 4].flatMap(week), 35);
    const own = of(PULL_UP, found);
    expect(own).toMatchObject({ type: 'partly-known', not: { 'no-mass': 2 }, next: { type: 'note-mass' } });
    expect(own).not.toHaveProperty('kg');
    expect(total(found)).toMatchObject({ type: 'usual', kg: 1500, sets: 3, coverage: 0.6, exercises: 1 });
  });

  test('an exercise of which no share of the body is known is told with the total alone', () => {
    const found = tonnage([squats(0, 100), did(dayIn(2), 'lib-dead-bug', [{ reps: 10 }])], 7);
    expect(found.map(({ exercise }) => exercise)).toEqual([undefined, SQUAT]);
    expect(total(found)).toMatchObject({ coverage: 0.75, not: { 'no-share': 1 } });
  });

  test('a mass of four weeks and a day before is said to be stale, with its day', () => {
    const pulled = (massDay: number) =>
      tonnage([did(dayIn(30), PULL_UP, [{ reps: 5 }])], 35, { masses: [mass(70, dayIn(massDay))] });
    const stale = pulled(1).find(({ type }) => type === 'stale-mass');
    expect(stale).toMatchObject({ massDay: dayIn(1), stale: 1, next: { type: 'note-mass' } });
    expect(pulled(2).map(({ type }) => type)).toEqual(['too-few', 'too-few']);
  });

  test('pounds and kilograms are one sum', () => {
    const mixed = did(dayIn(1), SQUAT, [
      { load: kg(100), reps: 2 },
      { load: lb(100), reps: 2 },
    ]);
    // 100 lb are 45.359237 kg
    expect(of(SQUAT, tonnage([mixed], 7))).toMatchObject({ kg: expect.closeTo(290.718474, 6) });
  });

  test('the first day of the week decides which week a Sunday is in', () => {
    const sessions = [squats(0, 100), squats(0, 50, {}, 6)];
    const by = (firstDay: 'mon' | 'sun') => about('tonnage', foundOf(clientWith(sessions), dayIn(7), firstDay));
    expect(of(SQUAT, by('mon'))).toMatchObject({ day: dayIn(0), kg: 2250 });
    expect(of(SQUAT, by('sun'))).toMatchObject({ day: dayIn(-1), kg: 1500 });
  });

  test('a session belongs to the day it bears, through clock changes and flights', () => {
    // the clocks go forward on Sunday 29 March 2026; late that evening it is Monday at Greenwich already for one who flew west
    const at = Date.parse('2026-03-30T06:30Z');
    const late: SessionRecord = { ...squats(11, 100), start: { at, day: '2026-03-29', zone: 'America/Los_Angeles' } };
    const found = about('tonnage', foundOf(clientWith([late]), '2026-03-30'));
    expect(of(SQUAT, found)).toMatchObject({ day: '2026-03-23', kg: 1500 });
  });
});

describe('hard sets', () => {
  const left = (value: number) => ({ value, as: 'left' }) as const;
  const benched = (week: number, sets: number, more: Partial<SetRecord> = { effort: left(2) }, untold = 0) =>
    did(dayIn(7 * week + 1), BENCH, [
      ...times(sets, { load: kg(60), reps: 8, ...more }),
      ...times(untold, { load: kg(60), reps: 8 }),
    ]);
  const told = (sessions: readonly SessionRecord[], day: number) =>
    about('sets', foundOf(clientWith(sessions), dayIn(day)));

  test('by area, direct ones whole and others half, beside the median of the weeks before', () => {
    const before = [4, 2, 6, 4].map((count, week) => benched(week, count));
    expect(told([...before, benched(4, 8, undefined, 1)], 35)).toMatchObject([
      {
        type: 'week',
        hard: 8,
        untold: 1,
        areas: [
          { area: 'chest', fractional: 8, direct: 8, indirect: 0, usual: 4 },
          { area: 'shoulders', fractional: 4, indirect: 8, usual: 2 },
          { area: 'triceps', fractional: 4, usual: 2 },
        ],
        weeks: [0, 7, 14, 21].map(dayIn),
        next: { type: 'note-effort', of: 'sets', count: 1 },
      },
    ]);
  });

  test('an area that usually has sets and had none this week is 0', () => {
    const before = [0, 1, 2, 3].map((week) => benched(week, 4));
    const rows = did(dayIn(29), 'lib-face-pull', [{ load: kg(20), reps: 12, effort: left(1) }]);
    const [found] = told([...before, rows], 35);
    expect(found?.areas.find(({ area }) => area === 'chest')).toMatchObject({ fractional: 0, usual: 4 });
    expect(found?.areas.find(({ area }) => area === 'rear-shoulders')).toMatchObject({ fractional: 1, usual: 0 });
  });

  test('three reps are hard where they are of four fifths of what could be lifted once lately', () => {
    // 75 kg for 8 with 2 left is an estimate of 100 kg
    const known = did(dayIn(0), BENCH, [{ load: kg(75), reps: 8, effort: left(2) }]);
    const told3 = (value: number) =>
      told([known, did(dayIn(2), BENCH, [{ load: kg(value), reps: 3, effort: left(3) }])], 7);
    expect(told3(70)).toMatchObject([{ hard: 1, easy: 1 }]);
    expect(told3(90)).toMatchObject([{ hard: 2, easy: 0 }]);
  });

  test('three reps on a bar with weight added are weighed with the body; without its mass nobody can tell', () => {
    const pulled = did(dayIn(2), 'lib-pull-up', [{ added: kg(20), reps: 3, effort: left(0) }]);
    const of = (masses: readonly BodyMass[]) => about('sets', foundOf(clientWith([pulled], { masses }), dayIn(7)));
    expect(of([mass(70, dayIn(1))])).toMatchObject([{ hard: 1, easy: 0, untold: 0 }]);
    expect(of([])).toMatchObject([{ hard: 0, easy: 0, untold: 1 }]);
  });

  test('three weeks before are too few, and where most efforts are untold no week is compared', () => {
    const [few] = told([...[1, 2, 3].map((week) => benched(week, 4)), benched(4, 4)], 35);
    expect(few).toMatchObject({ type: 'too-few', has: 3, needs: 4 });
    expect(few?.areas.every((one) => one.usual === undefined)).toBe(true);
    const before = [0, 1, 2, 3].map((week) => benched(week, 4));
    expect(told([...before, benched(4, 2, undefined, 3)], 35)).toMatchObject([
      { type: 'untold', hard: 2, untold: 3, weeks: [], next: { type: 'note-effort', of: 'sets', count: 3 } },
    ]);
    // one of the four weeks before was hardly told
    const [three] = told([...before.slice(1), benched(0, 1, undefined, 3), benched(4, 4)], 35);
    expect(three).toMatchObject({ type: 'too-few', has: 3 });
    // a week that was cut short is shown, and set beside none
    const cut = { ...benched(4, 2), attendance: 'cut-short' } as const;
    expect(told([...before, cut], 35)).toMatchObject([{ type: 'week', hard: 2, weeks: [] }]);
  });
});

describe('carries, time and relative volume', () => {
  const told = <T extends 'carries' | 'time' | 'volume'>(topic: T, sessions: readonly SessionRecord[], day: number) =>
    about(topic, foundOf(clientWith(sessions), dayIn(day)));
  const carried = (week: number, held: Partial<SetRecord>) => did(dayIn(7 * week), 'lib-farmer-carry', [held]);
  const twoHands = { load: kg(24), distance: metres(40) };

  test('24 kg in each hand over 40 m are 1920 kg·m, beside the usual 960', () => {
    const before = [0, 1, 2, 3].map((week) => carried(week, { ...twoHands, distance: metres(20) }));
    expect(told('carries', [...before, carried(4, twoHands)], 35)).toMatchObject([
      { type: 'week', value: 1920, usual: 960, metres: 40, sets: 1, next: { type: 'keep-on' } },
    ]);
    expect(told('carries', [carried(4, twoHands)], 35)).toMatchObject([
      { type: 'too-few', has: 0, needs: 4, value: 1920 },
    ]);
  });

  test('in a week that was cut short it is shown, and not compared', () => {
    const before = [0, 1, 2, 3].map((week) => carried(week, twoHands));
    const cut = { ...carried(4, twoHands), attendance: 'cut-short' } as const;
    const [found] = told('carries', [...before, cut], 35);
    expect(found).toMatchObject({ type: 'set-apart', value: 1920 });
    expect(found).not.toHaveProperty('usual');
  });

  test('a carry without a distance is not counted, and the week not compared', () => {
    const sets = [twoHands, { load: kg(24) }];
    expect(told('carries', [did(dayIn(0), 'lib-farmer-carry', sets)], 7)).toMatchObject([
      { type: 'partly-known', value: 1920, sets: 1, not: 1, next: { type: 'note-sets', count: 1 } },
    ]);
    const [none] = told('carries', [carried(0, { load: kg(24) })], 7);
    expect(none).toMatchObject({ type: 'partly-known', not: 1 });
    expect(none).not.toHaveProperty('value');
  });

  test('three times 30 s are 90 s; 8 reps at 3-1-1-0 are 40 s; of reps without a tempo there is no time', () => {
    expect(told('time', [did(dayIn(0), 'lib-plank', times(3, { seconds: 30 }))], 7)).toMatchObject([
      { value: 90, sets: 3 },
    ]);
    expect(told('time', [did(dayIn(0), SQUAT, [{ reps: 8, tempo: '3-1-1-0' }])], 7)).toMatchObject([{ value: 40 }]);
    expect(told('time', [did(dayIn(0), SQUAT, [{ reps: 8 }])], 7)).toEqual([]);
  });

  test('three sets of 8 at three quarters of what could be lifted once are 18 reps at 100 %', () => {
    // 75 kg for 8 with 2 left: 10 reps, of which 100 kg is the estimate
    const sets = times(3, { load: kg(75), reps: 8, effort: { value: 2, as: 'left' } as const });
    expect(told('volume', [did(dayIn(0), SQUAT, sets)], 7)).toMatchObject([
      { type: 'too-few', value: expect.closeTo(18, 9), sets: 3 },
    ]);
    // nobody told what was left: nothing to weigh by
    expect(told('volume', [did(dayIn(0), SQUAT, times(3, { load: kg(75), reps: 8 }))], 7)).toEqual([]);
  });
});
