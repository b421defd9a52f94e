import { describe, expect, test } from 'vitest';
import { carries } from '../../src/analysis/carries';
import type { OwnBody } from '../../src/analysis/moved';
import { relativeVolume } from '../../src/analysis/relativeVolume';
import { tonnage, totalTonnage } from '../../src/analysis/tonnage';
import { underTension } from '../../src/analysis/underTension';
import type { Exercise } from '../../src/domain/exercise';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import type { SessionRecord } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { shipped } from '../domain/made';
import {
  anyHistory,
  dayIn,
  expectFinite,
  forAny,
  inPounds,
  kg,
  lb,
  metres,
  mirrored,
  rounded,
  times,
  trained,
} from './records';

const exercises = new Map<string, Exercise>(SHIPPED_EXERCISES.map((one) => [one.id, one]));
const NO_MASS: OwnBody = { masses: [] };
const weighs = (value: number, days: number, sex?: 'female' | 'male'): OwnBody => ({
  masses: [{ ...kg(value), day: dayIn(days), notedAt: 1 }],
  ...(sex ? { sex } : {}),
});
const ask = (sessions: readonly SessionRecord[], body = NO_MASS, firstDay: 'mon' | 'sun' | 'sat' = 'mon') =>
  tonnage({ sessions, exercises, body, firstDay });
const lifted = (load: number, reps: number, more: Partial<SetRecord> = {}) => ({ load: kg(load), reps, ...more });

describe('tonnage, worked by hand from its definition, Σ load × repetitions', () => {
  test.each([
    ['3 × 8 of 60 kg', 'lib-back-squat', times(3, lifted(60, 8)), 1440],
    ['5 × 100, 5 × 100, 3 × 105', 'lib-back-squat', [lifted(100, 5), lifted(100, 5), lifted(105, 3)], 1315],
    ['2 × 10 with a pair of 12 kg', 'lib-dumbbell-press', times(2, lifted(12, 10)), 480],
    [
      'a drop set of 6 × 100, 6 × 80',
      'lib-back-squat',
      [lifted(100, 6, { kind: 'drop', parts: [{ id: '1', ...lifted(80, 6) }] })],
      1080,
    ],
  ])('%s', (_, exercise, sets, total) => {
    const [week] = ask([trained(dayIn(0), exercise, sets)]);
    expect(week).toMatchObject({ kg: total, coverage: 1, sets: sets.length });
  });

  test('each side with its own load, both hands: 8 left of 14 kg, 8 right of 12 kg', () => {
    const sets = [lifted(14, 8, { side: 'left' }), lifted(12, 8, { side: 'right' })];
    const [week] = ask([trained(dayIn(0), 'lib-split-squat', sets)]);
    expect(week).toMatchObject({ kg: 416, left: 224, right: 192 });
  });

  test('135 lb is 61.23496995 kg (exact by definition, 1959 agreement), in one week with kg', () => {
    const [week] = ask([trained(dayIn(0), 'lib-back-squat', [{ load: lb(135), reps: 10 }, lifted(60, 1)])]);
    expect(week?.kg).toBeCloseTo(672.3496995, 9);
  });
});

describe('with one’s own body: shares from segment masses (de Leva 1996), by our own reckoning', () => {
  test('62 kg woman, pull-ups with 10 kg: 69.5944 kg each; with 20 kg of help 39.5944', () => {
    const sets = [
      { added: kg(10), reps: 3 },
      { assist: kg(20), reps: 1 },
    ];
    const [week] = ask([trained(dayIn(0), 'lib-pull-up', sets)], weighs(62, 0, 'female'));
    expect(week?.kg).toBeCloseTo(3 * 69.5944 + 39.5944, 6);
    expect(week?.shares).toHaveLength(1);
    expect(week?.shares[0]).toBeCloseTo(0.9612, 9);
    expect(week?.stale).toBe(0);
  });

  test.each([
    [28, 0],
    [29, 1],
  ])('a mass that is %s days old: %s set told as by a stale one', (age, stale) => {
    const [week] = ask([trained(dayIn(age), 'lib-pull-up', [{ reps: 5 }])], weighs(60, 0));
    expect(week).toMatchObject({ sets: 1, stale });
  });

  test('no mass, no share, a band, and help that is as much as the body: not counted, told why, never 0', () => {
    const pull = [{ reps: 5 }, { reps: 5, band: 'red' }];
    const [none] = ask([trained(dayIn(0), 'lib-pull-up', pull)]);
    expect(none).toMatchObject({ sets: 0, coverage: 0, not: { 'no-mass': 1, 'no-number': 1 } });
    expect(none).not.toHaveProperty('kg');
    const row = trained(dayIn(0), 'lib-inverted-row', [{ reps: 8 }]);
    expect(ask([row], weighs(60, 0))[0]?.not).toEqual({ 'no-share': 1 });
    const helped = trained(dayIn(0), 'lib-pull-up', [{ reps: 5, assist: kg(60) }]);
    expect(ask([helped], weighs(60, 0))[0]?.not).toEqual({ 'nothing-left': 1 });
  });

  test('the mass by then counts, not a later one; before the first one that one', () => {
    const masses = [
      { ...kg(70), day: dayIn(10), notedAt: 1 },
      { ...kg(60), day: dayIn(3), notedAt: 9 },
      { ...kg(65), day: dayIn(10), notedAt: 2 },
    ];
    const share = 0.9583; // the mean of both sexes
    for (const [day, mass] of [
      [0, 60],
      [5, 60],
      [10, 65],
      [12, 65],
    ] as const) {
      const [week] = ask([trained(dayIn(day), 'lib-pull-up', [{ reps: 1 }])], { masses });
      expect(week?.kg).toBeCloseTo(share * mass, 9);
    }
  });
});

describe('what is missing', () => {
  test('sets without a load or reps, or that do not go together, are told apart; warm-ups and other exercises are none of it', () => {
    const sets: Partial<SetRecord>[] = [
      lifted(100, 5),
      { reps: 5 },
      { load: kg(100) },
      lifted(100, 5, { unread: [{ type: 'added-and-assist', path: 'sets/x' }] }),
      lifted(60, 5, { kind: 'warm-up' }),
      lifted(60, 5, { exercise: 'lib-farmer-carry' }),
      lifted(60, 5, { exercise: 'gone' }),
      lifted(0, 5),
    ];
    const weeks = ask([trained(dayIn(0), 'lib-back-squat', sets)]);
    expect(weeks).toHaveLength(1);
    expect(weeks[0]).toMatchObject({
      kg: 500,
      sets: 2,
      coverage: 0.4,
      comparable: 0.4,
      not: { 'no-load': 1, 'no-reps': 1, unread: 1 },
    });
  });

  test('a total says how many exercises and what share of sets it stands on', () => {
    const weeks = ask([
      trained(dayIn(0), 'lib-back-squat', times(3, lifted(60, 8))),
      trained(dayIn(1), 'lib-pull-up', [{ reps: 5 }]),
      trained(dayIn(7), 'lib-pull-up', [{ reps: 5 }]),
    ]);
    expect(totalTonnage(weeks)).toEqual([
      { week: dayIn(0), kg: 1440, sets: 3, coverage: 0.75, comparable: 1, exercises: 1 },
      { week: dayIn(7), sets: 0, coverage: 0, comparable: 1, exercises: 0 },
    ]);
  });
});

describe('weeks', () => {
  const on = (days: number) => trained(dayIn(days), 'lib-back-squat', [lifted(100, 1)]);
  test('Saturday, Sunday and Monday lie in weeks by the first day that is set', () => {
    const sessions = [on(5), on(6), on(7)];
    const weeks = (first: 'mon' | 'sun' | 'sat') =>
      ask(sessions, NO_MASS, first).map(({ week, kg: sum }) => [week, sum]);
    expect(weeks('mon')).toEqual([
      [dayIn(0), 200],
      [dayIn(7), 100],
    ]);
    expect(weeks('sun')).toEqual([
      [dayIn(-1), 100],
      [dayIn(6), 200],
    ]);
    expect(weeks('sat')).toEqual([[dayIn(5), 300]]);
  });

  test('a week with one session says so, and one with none is not there', () => {
    const weeks = ask([on(0), on(2), on(4), on(9), on(22)]);
    expect(weeks.map(({ week, sessions }) => [week, sessions])).toEqual([
      [dayIn(0), 3],
      [dayIn(7), 1],
      [dayIn(21), 1],
    ]);
  });

  test('a week of 167 hours is a week, and a session counts on the day it bears, wherever that was', () => {
    // the clocks of Berlin go forward on 29 March 2026, a Sunday
    const at = Date.parse('2026-03-29T21:30Z');
    const berlin = trained('2026-03-29', 'lib-back-squat', [lifted(100, 1)], {
      start: { at, day: '2026-03-29', zone: 'Europe/Berlin' },
    });
    const kiritimati = { ...berlin, id: 'b', start: { at, day: '2026-03-30', zone: 'Pacific/Kiritimati' } };
    expect(ask([berlin, kiritimati]).map(({ week }) => week)).toEqual(['2026-03-23', '2026-03-30']);
  });
});

describe('relative volume, worked by hand from its definition, Σ repetitions × load/e1RM', () => {
  const squat = shipped('lib-back-squat');
  test.each([
    ['3 × 8 at 75 %', times(3, lifted(75, 8)), 18],
    ['5 × 5 at 80 %', times(5, lifted(80, 5)), 20],
    ['1 × 20 at 50 %', [lifted(50, 20)], 10],
  ])('%s', (_, sets, reps) => {
    const volume = relativeVolume([trained(dayIn(0), squat.id, sets)], squat, NO_MASS, () => 100);
    expect(volume?.reps).toBeCloseTo(reps, 9);
  });

  test('of a pair by what one hand holds; none without a 1RM', () => {
    const press = shipped('lib-dumbbell-press');
    const session = trained(dayIn(0), press.id, [lifted(20, 10), { reps: 3 }]);
    expect(relativeVolume([session], press, NO_MASS, () => 40)).toEqual({ reps: 5, sets: 1, not: 1 });
    for (const max of [undefined, 0, -1, Number.NaN])
      expect(relativeVolume([session], press, NO_MASS, () => max)).toBeUndefined();
  });
});

describe('carries in kg·m, worked by hand from the definition', () => {
  const carried = (exercise: string, ...sets: Partial<SetRecord>[]) =>
    carries({ sessions: [trained(dayIn(0), exercise, sets)], exercises, firstDay: 'mon' });
  test('two of 24 kg for 40 m; one of 32 kg for 30 m; 1 lb·ft is 0.138255 kg·m', () => {
    expect(carried('lib-farmer-carry', { load: kg(24), distance: metres(40) })).toEqual([
      { exercise: 'lib-farmer-carry', week: dayIn(0), kgM: 1920, metres: 40, sets: 1, not: 0 },
    ]);
    expect(carried('lib-suitcase-carry', { load: kg(32), distance: metres(30), side: 'left' })[0]?.kgM).toBe(960);
    expect(carried('lib-suitcase-carry', { load: lb(1), distance: { value: 1, unit: 'ft' } })[0]?.kgM).toBeCloseTo(
      0.138255,
      6,
    );
  });

  test('one without a distance is not counted and told; it is in no tonnage', () => {
    const sets = [{ load: kg(24) }, { distance: metres(10) }, { load: kg(20), distance: metres(10) }];
    expect(carried('lib-suitcase-carry', ...sets)[0]).toMatchObject({ kgM: 200, sets: 1, not: 2 });
    expect(carried('lib-suitcase-carry', { load: kg(24) })[0]).not.toHaveProperty('kgM');
    expect(ask([trained(dayIn(0), 'lib-suitcase-carry', sets)])).toEqual([]);
  });
});

describe('time under tension, worked by hand from the definition', () => {
  const of = (exercise: string, ...sets: Partial<SetRecord>[]) =>
    underTension([trained(dayIn(0), exercise, sets)], shipped(exercise));
  test('3 × 30 s with 20 kg: 90 s and 1800 kg·s', () => {
    expect(of('lib-plank', ...times(3, { seconds: 30, load: kg(20) }))).toEqual({
      seconds: 90,
      kgSeconds: 1800,
      sets: 3,
      not: 0,
    });
  });
  test('8 reps at 3-1-1-0 take 40 s, 10 at 4-0-1-0 take 50 s; as fast as can be, or no tempo, is no time', () => {
    expect(of('lib-back-squat', { reps: 8, tempo: '3-1-1-0' })?.seconds).toBe(40);
    expect(of('lib-back-squat', { reps: 10, tempo: '4010' }, { reps: 10, tempo: '40x0' }, { reps: 3 })).toEqual({
      seconds: 50,
      sets: 1,
      not: 2,
    });
    expect(of('lib-back-squat', { reps: 10, tempo: '40x0' })).toBeUndefined();
  });
});

describe('for any records', () => {
  const ids = ['lib-back-squat', 'lib-split-squat', 'lib-pull-up', 'lib-farmer-carry', 'lib-plank', 'lib-inverted-row'];
  const all = (sessions: readonly SessionRecord[]) => [
    ask(sessions, weighs(60, 20)),
    totalTonnage(ask(sessions, weighs(60, 20))),
    carries({ sessions, exercises, firstDay: 'sun' }),
    ids.map((id) => [
      underTension(sessions, shipped(id)),
      relativeVolume(sessions, shipped(id), weighs(60, 20), () => 90),
    ]),
  ];
  const holds = (check: (sessions: SessionRecord[]) => void) => forAny(anyHistory(...ids), check);

  test('every number is one', () => holds((sessions) => expectFinite(all(sessions))));
  test('their order does not matter, nor that one stands twice', () =>
    holds((sessions) => expect(all([...sessions, ...sessions].reverse())).toEqual(all(sessions))));
  test('lb and ft or kg and m', () =>
    holds((sessions) => expect(rounded(all(inPounds(sessions)))).toEqual(rounded(all(sessions)))));
  test('the other way round, left is right', () =>
    holds((sessions) => {
      const turned = ask(mirrored(sessions)).map((one) => ({ ...one, left: one.right, right: one.left }));
      expect(turned).toEqual(ask(sessions));
    }));
});
