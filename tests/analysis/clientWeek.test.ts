import { describe, expect, test } from 'vitest';
import { demoRows } from '../../fixtures/demo/studio';
import { type ClientWeek, clientWeek, type WeekDay } from '../../src/analysis/clientWeek';
import { type ClientRecord, knownBy, readStudio } from '../../src/analysis/studio';
import { instantAt } from '../../src/domain/day';
import type { OtherWork, WorkKind } from '../../src/domain/otherWork';
import type { SessionRecord } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import type { Target } from '../../src/domain/target';
import { shown } from '../../src/merge/shown';
import { sessionOf, set } from '../domain/made';

/* A client's week, with what is to come out written down by hand: dates from a calendar on the wall. */

const client = (more: Partial<ClientRecord> = {}): ClientRecord => ({
  stream: 'k',
  alias: 'Client K',
  sessions: [],
  targets: [],
  masses: [],
  otherWork: [],
  ...more,
});

/** A session that began at an instant, as its zone's calendar had it. */
function session(id: string, at: string, zone: string, more: Partial<SessionRecord> = {}): SessionRecord {
  const start = instantAt(Date.parse(at), zone);
  const end = { ...start, at: start.at + 50 * 60_000 };
  return { ...sessionOf({}), id, start, end, sets: [set({ exercise: 'lib-front-squat' })], ...more };
}

const work = (id: string, kind: WorkKind, day: string, more: Partial<OtherWork> = {}): OtherWork => ({
  id,
  work: kind,
  day,
  notedAt: 1,
  ...more,
});

const kinds = ({ days }: ClientWeek): readonly WeekDay['kind'][] => days.map(({ kind }) => kind);
const on = ({ days }: ClientWeek, day: string): WeekDay => {
  const found = days.find((one) => one.day === day);
  if (!found) throw new Error(`${day} is not in the week`);
  return found;
};
const withSessions = ({ days }: ClientWeek): readonly string[] =>
  days.flatMap(({ day, sessions }) => sessions.map(({ id }) => `${id} ${day}`));

describe('the days of a week', () => {
  test('a week with one session: its sets without the warm-up, minutes by the clock, effort; the other days are not logged, and what is ahead is ahead', () => {
    const sets: SetRecord[] = [
      set({ kind: 'warm-up' }),
      set({ kind: 'working' }),
      set({ kind: 'working' }),
      set({ kind: 'back-off' }),
    ];
    const one = session('a', '2026-11-24T16:00Z', 'UTC', { sets, effort: { value: 7.5, as: 'session' } });
    // Thursday
    const week = clientWeek(client({ sessions: [one] }), 'mon', '2026-11-26');
    expect(week.week).toBe('2026-11-23');
    expect(kinds(week)).toEqual(['not-logged', 'done', 'not-logged', 'not-logged', 'ahead', 'ahead', 'ahead']);
    expect(on(week, '2026-11-24').sessions).toEqual([
      { id: 'a', day: '2026-11-24', sets: 3, minutes: 50, effort: 7.5, isDone: true, isOpen: false },
    ]);
    expect(week).toMatchObject({ done: 1, otherWork: 0, rests: 0, landed: 0 });
  });

  test('minutes that the trainer set stand; with no end and no minutes there are none, and the session is open', () => {
    const { end: _, ...open } = session('open', '2026-11-24T16:00Z', 'UTC');
    const set20 = session('set', '2026-11-23T16:00Z', 'UTC', { minutes: 20 });
    const week = clientWeek(client({ sessions: [open, set20] }), 'mon', '2026-11-24');
    expect(on(week, '2026-11-23').sessions[0]).toMatchObject({ minutes: 20, isOpen: false });
    expect(on(week, '2026-11-24').sessions[0]).not.toHaveProperty('minutes');
    expect(on(week, '2026-11-24').sessions[0]).not.toHaveProperty('effort');
    expect(on(week, '2026-11-24').sessions[0]).toMatchObject({ isOpen: true, isDone: true });
  });

  test('cancelled and no-show are told and not done; cut short is done', () => {
    const sessions = [
      session('c', '2026-11-23T16:00Z', 'UTC', { sets: [], attendance: 'cancelled' }),
      session('n', '2026-11-24T16:00Z', 'UTC', { sets: [], attendance: 'no-show' }),
      session('s', '2026-11-25T16:00Z', 'UTC', { attendance: 'cut-short' }),
    ];
    const week = clientWeek(client({ sessions }), 'mon', '2026-11-26');
    expect(kinds(week).slice(0, 4)).toEqual(['missed', 'missed', 'done', 'not-logged']);
    expect(week.done).toBe(1);
    expect(on(week, '2026-11-23').sessions[0]).toMatchObject({ attendance: 'cancelled', isDone: false });
    expect(on(week, '2026-11-25').sessions[0]).toMatchObject({ attendance: 'cut-short', isDone: true });
  });

  test('a rest day is told from a day nothing is noted of; work of that day counts all the same, a cancelled session does not', () => {
    const otherWork = [
      work('r1', 'rest day', '2026-11-23'),
      work('r2', 'rest day', '2026-11-24'),
      work('w', 'rehearsal', '2026-11-24', { hours: 3, effort: 6 }),
      work('r3', 'rest day', '2026-11-25'),
      work('x', 'travel', '2026-11-27'),
    ];
    const sessions = [session('c', '2026-11-25T10:00Z', 'UTC', { sets: [], attendance: 'cancelled' })];
    const week = clientWeek(client({ otherWork, sessions }), 'mon', '2026-11-29');
    expect(kinds(week)).toEqual(['rest', 'done', 'rest', 'not-logged', 'done', 'not-logged', 'not-logged']);
    expect(on(week, '2026-11-24')).toMatchObject({
      isRest: true,
      otherWork: [{ id: 'w', work: 'rehearsal', hours: 3, effort: 6 }],
    });
    expect(on(week, '2026-11-27').otherWork).toEqual([{ id: 'x', work: 'travel' }]);
    expect(week).toMatchObject({ done: 0, otherWork: 2, rests: 2 });
  });

  test('a session with no start noted is on the day of its first set; one with neither is nowhere', () => {
    const at = instantAt(Date.parse('2026-11-25T23:30Z'), 'Europe/Vienna');
    const { start: _, end: __, ...bare } = session('b', '2026-11-25T12:00Z', 'UTC', { sets: [set({ at })] });
    const { start: ___, end: ____, ...nothing } = session('n', '2026-11-25T12:00Z', 'UTC');
    const timeless = { ...nothing, sets: [] };
    const week = clientWeek(client({ sessions: [bare, timeless] }), 'mon', '2026-11-29');
    // half past midnight in Vienna
    expect(withSessions(week)).toEqual(['b 2026-11-26']);
    expect(on(week, '2026-11-26').sessions[0]).not.toHaveProperty('minutes');
  });
});

describe('a week is seven days of the calendar', () => {
  test('where clocks go back and forward there are seven days, and late evenings stay on theirs', () => {
    const back = [
      session('sat', '2026-10-24T21:30Z', 'Europe/Vienna'),
      session('sun', '2026-10-25T22:45Z', 'Europe/Vienna'),
      session('mon', '2026-10-25T23:15Z', 'Europe/Vienna'),
    ];
    const autumn = clientWeek(client({ sessions: back }), 'mon', '2026-10-25');
    expect(autumn.days.map(({ day }) => day)).toEqual([
      '2026-10-19',
      '2026-10-20',
      '2026-10-21',
      '2026-10-22',
      '2026-10-23',
      '2026-10-24',
      '2026-10-25',
    ]);
    expect(withSessions(autumn)).toEqual(['sat 2026-10-24', 'sun 2026-10-25']);
    const spring = clientWeek(
      client({ sessions: [session('d', '2027-03-28T21:50Z', 'Europe/Vienna')] }),
      'mon',
      '2027-03-28',
    );
    expect(spring.days.at(-1)?.day).toBe('2027-03-28');
    expect(withSessions(spring)).toEqual(['d 2027-03-28']);
  });

  test('a flight moves no day: two sessions ten hours apart stand on the days their own calendars had', () => {
    const sessions = [
      // Friday 27 Nov, 09:00 in Auckland; and, later, Thursday 26 Nov, 22:00 in Honolulu
      session('akl', '2026-11-26T20:00Z', 'Pacific/Auckland'),
      session('hnl', '2026-11-27T08:00Z', 'Pacific/Honolulu'),
    ];
    const week = clientWeek(client({ sessions }), 'mon', '2026-11-29');
    expect(withSessions(week)).toEqual(['hnl 2026-11-26', 'akl 2026-11-27']);
  });

  test('another first day makes another week of the same days', () => {
    const sessions = [
      session('fri', '2026-11-20T12:00Z', 'UTC'),
      session('sat', '2026-11-21T12:00Z', 'UTC'),
      session('sun', '2026-11-22T12:00Z', 'UTC'),
      session('mon', '2026-11-23T12:00Z', 'UTC'),
    ];
    const weekFrom = (first: 'mon' | 'sat' | 'sun') => clientWeek(client({ sessions }), first, '2026-11-24');
    expect(weekFrom('mon').week).toBe('2026-11-23');
    expect(weekFrom('mon').done).toBe(1);
    expect(weekFrom('sun').week).toBe('2026-11-22');
    expect(weekFrom('sun').done).toBe(2);
    expect(weekFrom('sat').week).toBe('2026-11-21');
    expect(weekFrom('sat').done).toBe(3);
    // on the last day of a week it is still that week
    expect(clientWeek(client(), 'sat', '2026-11-27').week).toBe('2026-11-21');
  });

  test('what was noted of later days is not told', () => {
    const sessions = [session('a', '2026-11-24T12:00Z', 'UTC'), session('b', '2026-11-26T12:00Z', 'UTC')];
    const otherWork = [work('w', 'class', '2026-11-25')];
    const week = clientWeek(client({ sessions, otherWork }), 'mon', '2026-11-24');
    expect(withSessions(week)).toEqual(['a 2026-11-24']);
    expect(week.otherWork).toBe(0);
    expect(kinds(week).slice(2)).toEqual(['ahead', 'ahead', 'ahead', 'ahead', 'ahead']);
  });
});

describe('landings and dates', () => {
  const jumps = (...landings: number[]): Partial<SessionRecord> => ({
    sets: landings.map((count) => set({ exercise: 'lib-box-jump', landings: count })),
  });

  test('landings by session against the range of the level, warm-ups counted; hours since the one of the week before', () => {
    const sessions = [
      session('before', '2026-11-22T12:00Z', 'UTC', jumps(40)),
      session('a', '2026-11-24T12:00Z', 'UTC', jumps(50, 40)),
      session('none', '2026-11-25T12:00Z', 'UTC'),
      session('b', '2026-11-26T12:00Z', 'UTC', jumps(60, 45)),
    ];
    const { landings, landed } = clientWeek(client({ sessions, level: 'beginner' }), 'mon', '2026-11-26');
    expect(landed).toBe(195);
    expect(landings).toEqual([
      {
        session: 'a',
        day: '2026-11-24',
        landings: 90,
        against: { from: 80, to: 100, type: 'within', off: 0, mark: 'plain' },
        hoursSince: 48,
      },
      {
        session: 'b',
        day: '2026-11-26',
        landings: 105,
        against: { from: 80, to: 100, type: 'above', off: 5, mark: 'amber' },
        hoursSince: 48,
      },
    ]);
    const unleveled = clientWeek(client({ sessions }), 'mon', '2026-11-26').landings;
    expect(unleveled.map(({ against }) => against)).toEqual([undefined, undefined]);
  });

  const target = (id: string, day: string): Target => ({
    id,
    exercise: 'lib-front-squat',
    goal: { value: 100, unit: 'kg' },
    reps: 5,
    from: '2026-01-01',
    day,
  });

  test('dates from the first day of the week to eight weeks ahead, with days to go across a clock change', () => {
    // Thursday 22 Oct: clocks go back on the 25th. 56 days on is 17 Dec
    const week = clientWeek(
      client({
        date: { name: 'opening', day: '2026-10-30' },
        targets: [
          target('gone', '2026-10-18'),
          target('past', '2026-10-20'),
          target('near', '2026-12-17'),
          target('far', '2026-12-18'),
          target('today', '2026-10-22'),
        ],
      }),
      'mon',
      '2026-10-22',
    );
    expect(week.dates.map((one) => [one.type === 'own' ? one.name : one.target.id, one.day, one.daysToGo])).toEqual([
      ['past', '2026-10-20', -2],
      ['today', '2026-10-22', 0],
      ['opening', '2026-10-30', 8],
      ['near', '2026-12-17', 56],
    ]);
  });

  test('a client of whom nothing is noted has seven days and nothing else', () => {
    expect(clientWeek(client(), 'sun', '2026-11-26')).toMatchObject({
      week: '2026-11-22',
      done: 0,
      landings: [],
      dates: [],
    });
    expect(kinds(clientWeek(client(), 'sun', '2026-11-26'))).toEqual([
      'not-logged',
      'not-logged',
      'not-logged',
      'not-logged',
      'not-logged',
      'ahead',
      'ahead',
    ]);
  });
});

test('in the demo each week has what its rows tell, and nothing of it is lost in JSON', () => {
  const rows = demoRows({ seed: 7, today: '2026-11-25', zone: 'Europe/Vienna' });
  const studio = readStudio(
    rows.map((row) => ({ stream: row.stream, id: row.id, kind: row.kind, values: shown(row) })),
  );
  expect(studio.clients).toHaveLength(4);
  for (const one of studio.clients) {
    for (const day of ['2026-10-25', '2026-11-15', '2026-11-25']) {
      const week = clientWeek(knownBy(one, day), studio.firstDay, day);
      const all = one.sessions.filter(({ start }) => start && start.day >= week.week && start.day <= day);
      expect(withSessions(week)).toHaveLength(all.length);
      expect(JSON.parse(JSON.stringify(week))).toEqual(week);
      expect(JSON.stringify(week)).not.toContain('null');
    }
    expect(one.date?.name).toBeTypeOf('string');
  }
});
