import { describe, expect, test } from 'vitest';
import { othersOf } from '../../src/analysis/others';
import { knownBy, readStudio } from '../../src/analysis/studio';
import type { SessionRecord } from '../../src/domain/session';
import { dayIn, kg, times, trained } from '../reference/records';
import { about, clientWith, did, foundOf, worked } from './foundIn';

/* What is found of the whole-session load, in records made by hand. Day 0 is a Monday. */

const SQUAT = 'lib-front-squat';

describe('whole-session load', () => {
  const effort = (value: number) => ({ value, as: 'session' }) as const;
  const trainedOn = (day: number, minutes = 60, rated: number | undefined = 5) =>
    trained(dayIn(day), SQUAT, [], { minutes, ...(rated === undefined ? {} : { effort: effort(rated) }) });
  const told = (sessions: readonly SessionRecord[], otherWork: readonly ReturnType<typeof worked>[] = [], day = 14) =>
    about('load', foundOf(clientWith(sessions, { otherWork }), dayIn(day)));
  const rests = (...days: readonly number[]) => days.map((day) => worked(dayIn(day), 'rest day'));

  test('days that nothing was logged on are not known to be of rest: they are named, and there is no variation', () => {
    expect(told([trainedOn(7), trainedOn(9), trainedOn(11)])).toMatchObject([
      {
        type: 'days-unknown',
        day: dayIn(7),
        total: 900,
        known: 3,
        sessions: 3,
        variation: { type: 'days-unknown' },
        next: { type: 'confirm-rest-days', days: [8, 10, 12, 13].map(dayIn) },
      },
    ]);
  });

  test('confirmed, the same week has its variation, and no ratio', () => {
    const [found] = told([trainedOn(7), trainedOn(9), trainedOn(11)], rests(8, 10, 12, 13));
    expect(found).toMatchObject({ type: 'known', total: 900, known: 7, otherWork: 0, next: { type: 'keep-on' } });
    // three equal sessions in seven days: √(6 × 3 ÷ (7 × 4)) = 0.80178 (METHODS §4)
    if (found?.variation.type !== 'told') throw new Error('no variation');
    expect(found.variation.monotony).toBeCloseTo(0.80178, 5);
    expect(JSON.stringify(found)).not.toMatch(/ratio|risk/);
  });

  test('a rest day is no work whose load is missing; a day with both is that of the session', () => {
    const [found] = told([trainedOn(7)], rests(7, 8, 9, 10, 11, 12, 13));
    expect(found).toMatchObject({ type: 'known', total: 300, missing: 0, known: 7, sessions: 1, otherWork: 0 });
  });

  test('what nobody rated is missing, never 0: the total is the least it can have been', () => {
    const work = worked(dayIn(8), 'rehearsal', { hours: 2, effort: 4 });
    const unrated = trained(dayIn(9), SQUAT, [], { minutes: 60 });
    expect(told([trainedOn(7), unrated], [work])).toMatchObject([
      // 300 and 480; a rehearsal of two hours is 120 minutes
      { type: 'least', total: 780, missing: 1, otherWork: 1, next: { type: 'note-effort', of: 'sessions', count: 1 } },
    ]);
    const [untold] = told([unrated]);
    expect(untold).toMatchObject({ type: 'untold', missing: 1 });
    expect(untold).not.toHaveProperty('total');
  });

  test('a session that was cancelled or missed is none', () => {
    const off = (['cancelled', 'no-show'] as const).map((attendance, n) =>
      trained(dayIn(8 + n), SQUAT, [], { attendance }),
    );
    expect(told([trainedOn(7), ...off])).toMatchObject([{ type: 'days-unknown', sessions: 1, missing: 0, total: 300 }]);
  });

  test('against the week before in AU and as a share, only where both are whole', () => {
    const before = [trainedOn(0), trainedOn(2)];
    expect(told([...before, trainedOn(7, 90), trainedOn(9)])).toMatchObject([{ change: { au: 150, share: 0.25 } }]);
    const [part] = told([...before, trained(dayIn(3), SQUAT, [], { minutes: 5 }), trainedOn(7)]);
    expect(part).not.toHaveProperty('change');
  });

  test('a week of one session is a week; of a week that nothing is known of nothing is said', () => {
    expect(told([trainedOn(8)])).toMatchObject([{ total: 300, known: 1, sessions: 1 }]);
    expect(told([trainedOn(0)], [], 14)).toEqual([]);
  });
});

test('a session whose start nobody noted is known by its first set, whatever the order of its sets', () => {
  const { start: _, ...session } = did(dayIn(0), 'lib-front-squat', times(2, { load: kg(60), reps: 5 }));
  const [first, second] = session.sets;
  if (!first || !second) throw new Error('no sets');
  const late = { at: Date.parse(`${dayIn(1)}T00:10Z`), day: dayIn(1), zone: 'UTC' };
  const client = clientWith([
    { ...session, sets: [{ ...second, at: late }, first] },
    did(dayIn(9), 'lib-front-squat', times(2, { load: kg(60), reps: 5 })),
  ]);
  expect(knownBy(client, dayIn(0)).sessions).toHaveLength(1);
  const { load } = othersOf(client, [], readStudio([]), dayIn(9));
  expect(load.days[0]).toMatchObject({ day: dayIn(0), kind: 'partly', missing: 1 });
  expect(load.weeks.map(({ week, missing }) => [week, missing])).toEqual([
    [dayIn(0), 1],
    [dayIn(7), 1],
  ]);
});
