import { describe, expect, test } from 'vitest';
import {
  type DayLoad,
  dayLoads,
  loadLines,
  loadOf,
  loadWeeks,
  restDays,
  variationOf,
} from '../../src/analysis/sessionLoad';
import type { OtherWork } from '../../src/domain/otherWork';
import type { SessionRecord } from '../../src/domain/session';
import { anyHistory, dayIn, expectFinite, forAny, inPounds, mirrored, times, trained } from './records';

const NONE = { sessions: [], otherWork: [], rests: new Set<string>() };
const rated = (
  days: number,
  effort: number | undefined,
  minutes: number | undefined,
  more: Partial<SessionRecord> & { hour?: number } = {},
) =>
  trained(dayIn(days), 'lib-back-squat', [], {
    ...(effort === undefined ? {} : { effort: { value: effort, as: 'session' } }),
    ...(minutes === undefined ? {} : { minutes }),
    ...more,
  });
const work = (days: number, hours?: number, effort?: number): OtherWork => ({
  id: `w${days}`,
  work: 'rehearsal',
  day: dayIn(days),
  ...(hours === undefined ? {} : { hours }),
  ...(effort === undefined ? {} : { effort }),
  notedAt: 1,
});

describe('Foster 1998 and 2001: effort 0–10 × minutes', () => {
  test.each([
    [7, 60, 420],
    [0, 45, 0],
    [8.5, 40, 340],
  ])('%s × %s = %s', (effort, minutes, load) => expect(loadOf(rated(0, effort, minutes))).toBe(load));

  test('two sessions a day are added, other work too: 3 h of rehearsal at 4 are 720', () => {
    const sessions = [rated(0, 7, 60, { hour: 8 }), rated(0, 5, 30, { hour: 17 })];
    expect(dayLoads({ ...NONE, sessions, otherWork: [work(0, 3, 4)] }, dayIn(0), dayIn(0))).toEqual([
      { day: dayIn(0), kind: 'loaded', load: 1290, told: 1290, counted: 3, missing: 0 },
    ]);
  });

  test('without effort or minutes there is no load, and it is not 0', () => {
    for (const one of [rated(0, undefined, 60), rated(0, 7, undefined)]) expect(loadOf(one)).toBeUndefined();
    const records = {
      ...NONE,
      sessions: [rated(0, 5, 60), rated(0, undefined, 60, { hour: 18 })],
      otherWork: [work(1, 8)],
    };
    expect(dayLoads(records, dayIn(0), dayIn(1))).toEqual([
      { day: dayIn(0), kind: 'partly', told: 300, counted: 1, missing: 1 },
      { day: dayIn(1), kind: 'partly', told: 0, counted: 0, missing: 1 },
    ]);
  });
});

describe('a day of rest that was noted', () => {
  const rest = (days: number): OtherWork => ({ id: `r${days}`, work: 'rest day', day: dayIn(days), notedAt: 1 });
  const kinds = (otherWork: readonly OtherWork[], sessions: readonly SessionRecord[] = []) =>
    dayLoads({ sessions, otherWork, rests: restDays(otherWork) }, dayIn(0), dayIn(1)).map(({ kind, load, missing }) => [
      kind,
      load,
      missing,
    ]);

  test('is one of 0; a day without a line is not known', () => {
    expect(kinds([rest(0)])).toEqual([
      ['rest', 0, 0],
      ['not-logged', undefined, 0],
    ]);
  });

  test('work or a session of that day counts all the same, and the rest is no work without a load', () => {
    expect(kinds([rest(0), work(0, 3, 4), rest(1)], [rated(1, 5, 60)])).toEqual([
      ['loaded', 720, 0],
      ['loaded', 300, 0],
    ]);
    expect(kinds([rest(0), work(0)])[0]).toEqual(['partly', undefined, 1]);
  });

  test('a session that was called off leaves it one of rest', () => {
    expect(kinds([rest(0)], [rated(0, undefined, undefined, { attendance: 'cancelled' })])[0]).toEqual(['rest', 0, 0]);
  });
});

describe('monotony and strain (Foster 1998; his worked week could not be read, so figures are computed with Python)', () => {
  const told = (...loads: number[]) => variationOf(loads);
  test('400, 0, 600, 300, 0, 500, 0: 0.9995 and 1799.07, with the sample SD', () => {
    const week = told(400, 0, 600, 300, 0, 500, 0);
    if (week.type !== 'told') return expect.fail();
    expect(week.monotony).toBeCloseTo(0.9995, 4);
    expect(week.strain).toBeCloseTo(1799.07, 1);
  });

  test.each([
    [1, 0.37796],
    [2, 0.58554],
    [3, 0.80178],
    [4, 1.06904],
    [5, 1.46385],
    [6, 2.26779],
  ])('%s equal sessions in seven days: %s', (count, monotony) => {
    const week = told(...times(count, 310.7), ...times(7 - count, 0));
    expect(week.type === 'told' && week.monotony).toBeCloseTo(monotony, 5);
  });

  test('every day the same, or nothing every day: no variation, be the last digit what it may', () => {
    expect(told(...times(7, 300))).toEqual({ type: 'no-variation' });
    expect(told(...times(7, 0))).toEqual({ type: 'no-variation' });
    expect(told(...times(6, 0.3), 0.1 + 0.2)).toEqual({ type: 'no-variation' });
    expect(told(...times(6, 300))).toEqual({ type: 'days-unknown' });
  });
});

describe('a day of rest that was confirmed, and a day that was not logged', () => {
  const loads = [400, 600, 300, 500];
  const sessions = [0, 2, 3, 5].map((day, n) => rated(day, 10, (loads[n] ?? 0) / 10));
  const week = (...rests: number[]) =>
    loadWeeks(dayLoads({ ...NONE, sessions, rests: new Set(rests.map(dayIn)) }, dayIn(0), dayIn(6)), 'mon')[0];
  test('three confirmed: all seven are known', () => {
    expect(week(1, 4, 6)).toMatchObject({ total: 1800, known: 7, missing: 0, variation: { type: 'told' } });
  });
  test('two confirmed: one is not known, and there is no monotony', () => {
    expect(week(1, 4)).toMatchObject({ total: 1800, known: 6, variation: { type: 'days-unknown' } });
  });
  test('training on a day that was told to be of rest counts', () => {
    expect(dayLoads({ ...NONE, sessions, rests: new Set([dayIn(0)]) }, dayIn(0), dayIn(0))[0]).toMatchObject({
      kind: 'loaded',
      load: 400,
    });
  });
  test('a week of nothing logged has no total; one of confirmed rest has 0', () => {
    const of = (rests: readonly number[]) =>
      loadWeeks(dayLoads({ ...NONE, rests: new Set(rests.map(dayIn)) }, dayIn(0), dayIn(6)), 'mon')[0];
    expect(of([])).not.toHaveProperty('total');
    expect(of([0, 1, 2, 3, 4, 5, 6])).toMatchObject({ total: 0, variation: { type: 'no-variation' } });
  });
  test('a session that was cancelled or missed is neither load nor rest', () => {
    const records = {
      ...NONE,
      sessions: [rated(0, 5, 60, { attendance: 'no-show' }), rated(1, 5, 60, { attendance: 'cut-short' })],
    };
    expect(dayLoads(records, dayIn(0), dayIn(1)).map(({ kind }) => kind)).toEqual(['not-logged', 'loaded']);
  });
});

describe('weeks', () => {
  const weeks = (sessions: SessionRecord[], to: number, first: 'mon' | 'sun' = 'mon') =>
    loadWeeks(dayLoads({ ...NONE, sessions }, dayIn(0), dayIn(to)), first);
  test('change from week to week in AU and as a share; none where a load is missing, the week runs, or there was nothing', () => {
    const [, second, third, fourth] = weeks(
      [rated(0, 5, 60), rated(8, 5, 90), rated(15, 4, 60), rated(15, undefined, 60, { hour: 20 }), rated(21, 9, 60)],
      22,
    );
    expect(second?.change).toEqual({ au: 150, share: 0.5 });
    expect(third?.change).toBeUndefined();
    expect(fourth).toMatchObject({ running: true, total: 540 });
    expect(fourth).not.toHaveProperty('change');
    expect(weeks([rated(0, 0, 60), rated(8, 5, 90)], 13)[1]?.change).toEqual({ au: 450 });
  });

  test('no change against a first week that is cut', () => {
    const days = dayLoads(
      { ...NONE, sessions: [rated(4, 5, 60), rated(8, 5, 90), rated(15, 5, 60)] },
      dayIn(3),
      dayIn(20),
    );
    expect(loadWeeks(days, 'mon').map(({ change }) => change?.au)).toEqual([undefined, undefined, -150]);
  });

  test('the first day of the week decides where a Sunday lies', () => {
    const sessions = [rated(6, 5, 60), rated(7, 5, 60)];
    expect(weeks(sessions, 13).map(({ total }) => total)).toEqual([300, 300]);
    expect(weeks(sessions, 13, 'sun').map(({ total }) => total)).toEqual([undefined, 600, undefined]);
  });

  test('by the clock: an hour that the clock skipped is not trained, what was paused neither, and the day is the one it bears', () => {
    // from 00:30 to 03:30 in Berlin on 29 March 2026 two hours pass
    const at = Date.parse('2026-03-28T23:30Z');
    const start = { at, day: '2026-03-29', zone: 'Europe/Berlin' };
    const end = { ...start, at: at + 2 * 3_600_000 };
    const night = rated(0, 5, undefined, { start, end, pauses: [{ id: 'p', from: at, to: at + 1_800_000 }] });
    expect(loadOf(night)).toBe(450);
    expect(dayLoads({ ...NONE, sessions: [night] }, '2026-03-28', '2026-03-29').map(({ kind }) => kind)).toEqual([
      'not-logged',
      'loaded',
    ]);
    // a clock that ran backwards tells no minutes
    expect(loadOf({ ...night, end: { ...end, at: at - 1 } })).toBeUndefined();
  });
});

describe('lines of 7 and 28 days (Williams 2017, British Journal of Sports Medicine 51:209): weights 0.25 and 0.0689655', () => {
  const known = (...loads: (number | undefined)[]): DayLoad[] =>
    loads.map((load, n) => ({
      day: dayIn(n),
      kind: 'loaded',
      ...(load === undefined ? {} : { load }),
      told: 0,
      counted: 1,
      missing: 0,
    }));
  test('by hand: 400, 0, 600', () => {
    const lines = loadLines(known(400, 0, 600));
    expect(lines.map(({ short }) => short)).toEqual([400, 300, 375]);
    expect(lines[1]?.long).toBeCloseTo(372.4138, 4);
  });
  test('a day that is not known moves nothing; with two of seven unknown there is no line', () => {
    const lines = loadLines(known(undefined, 400, 0, 400, 400, 400, 400, undefined, 0, undefined));
    // 400, 300, 325, 343.75, 357.8125, 368.359375; unknown: as it was; then three quarters of it
    const told = [undefined, 400, 300, 325, 343.75, 357.8125, 368.359375, 368.359375, 276.26953125, undefined];
    expect(lines.map(({ short }) => short)).toEqual(told);
  });
});

describe('for any records', () => {
  test('every number is one; order, units and sides do not matter', () =>
    forAny(anyHistory('lib-back-squat'), (sessions) => {
      const of = (records: readonly SessionRecord[]) => {
        const days = dayLoads(
          { sessions: records, otherWork: [work(3, 2, 5), work(9)], rests: new Set([dayIn(1), dayIn(2)]) },
          dayIn(-3),
          dayIn(64),
        );
        return [days, loadWeeks(days, 'mon'), loadLines(days)];
      };
      const told = of(sessions);
      expectFinite(told);
      for (const other of [[...sessions, ...sessions].reverse(), inPounds(sessions), mirrored(sessions)])
        expect(of(other)).toEqual(told);
    }));
  test('no days between a day and an earlier one', () => expect(dayLoads(NONE, dayIn(3), dayIn(0))).toEqual([]));
});
