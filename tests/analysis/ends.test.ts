import { describe, expect, test } from 'vitest';
import { type End, endsOf, retestDay } from '../../src/analysis/ends';
import { shownReps } from '../../src/analysis/series';
import { NO_BODY } from '../../src/analysis/track';
import { dayOfWeek } from '../../src/domain/day';
import type { Exercise } from '../../src/domain/exercise';
import type { Exposure } from '../../src/domain/exposure';
import { added, dayAt, FRONT_SQUAT, type Held, lift, on, PULL_UP, pounds } from './made';

/* How it stands after the last session, but for what findings make of it. */

function only(exercise: Exercise, exposures: readonly Exposure[], body = NO_BODY): End {
  const [end, ...others] = endsOf(exercise, exposures, body);
  if (!end || others.length > 0) throw new Error(`${others.length} more ends`);
  return end;
}
const squats = (...sessions: readonly (readonly Held[])[]): End =>
  only(
    FRONT_SQUAT,
    sessions.map((sets, n) => on(n * 3, FRONT_SQUAT, sets)),
  );

describe('an exercise as it stands', () => {
  test('of one session: nothing is told yet, and a level neither', () => {
    const end = squats([lift(100, 5, 2)]);
    expect(end).toMatchObject({ status: 'none', used: 1, span: 0, perWeek: 0, evidence: [end.session], told: 1 });
    expect(end).not.toHaveProperty('level');
    expect(end).not.toHaveProperty('since');
  });

  test('of no session that tells anything there is no end', () => {
    expect(endsOf(FRONT_SQUAT, [on(0, FRONT_SQUAT, [lift(40, 20, 0)])], NO_BODY)).toEqual([]);
    expect(endsOf(FRONT_SQUAT, [], NO_BODY)).toEqual([]);
  });

  test('a level is told from the third session on, a status from the sixth over 17.5 days', () => {
    const since = (count: number, apart: number): End =>
      only(
        FRONT_SQUAT,
        Array.from({ length: count }, (_, n) => on(n * apart, FRONT_SQUAT, [lift(100 + n, 5, 2)])),
      );
    expect(since(2, 7)).not.toHaveProperty('level');
    expect(since(3, 7).level).toBeGreaterThan(100);
    expect(since(5, 7).status).toBe('none');
    expect(since(6, 7).status).toBe('ok');
    // 5 × 3 days are 15, 5 × 4 are 20; 6 × 3 are 18
    expect([since(6, 3).status, since(6, 4).status, since(7, 3).status]).toEqual(['none', 'ok', 'ok']);
  });

  test('its pace is that of the last eight sessions: 7 in 21 days are 2.33 a week, whatever was before', () => {
    const some = [0, 100, ...Array.from({ length: 8 }, (_, n) => 200 + n * 3)];
    const end = only(
      FRONT_SQUAT,
      some.map((n) => on(n, FRONT_SQUAT, [lift(100, 5, 2)])),
    );
    expect(end.perWeek).toBeCloseTo(7 / 3, 12);
    // all of one day: as if it were the next
    expect(
      only(
        FRONT_SQUAT,
        [0, 0].map((n) => on(n, FRONT_SQUAT, [lift(100, 5, 2)])),
      ).perWeek,
    ).toBe(7);
  });

  test('its reps are those of most of the latest sets; of as many, those done last', () => {
    const five = lift(100, 5, 2);
    const eight = lift(90, 8, 2);
    expect(squats([five, five, five], [eight, eight]).reps).toBe(5);
    expect(squats([five, five], [eight, eight]).reps).toBe(8);
    expect(squats([five], [eight, eight], [five]).reps).toBe(5);
    // of the last eight sessions: nine sets of eight are gone by
    const many = Array.from({ length: 9 }, () => eight);
    expect(squats(many, ...Array.from({ length: 8 }, () => [five])).reps).toBe(5);
  });

  test('heavy sets are shown as of one rep, long ones as of twelve at the most', () => {
    const reps = [undefined, 1, 2, 3, 4, 12, 13, 15].map((one) => shownReps(one === undefined ? {} : { reps: one }));
    expect(reps).toEqual([1, 1, 1, 1, 4, 12, 12, 12]);
  });

  test('its unit is the one its loads were last logged in; kg before any was', () => {
    expect(squats([lift(100, 5, 2)], [pounds(225, 5, 2)]).unit).toBe('lb');
    expect(squats([pounds(225, 5, 2)], [lift(100, 5, 2)]).unit).toBe('kg');
    expect(only(PULL_UP, [on(0, PULL_UP, [added(0, 8, 2)])]).unit).toBe('kg');
  });

  test('of a loaded body it tells how much of it is moved, by the mass of the last session', () => {
    const masses = [
      { day: dayAt(0), kg: 80 },
      { day: dayAt(7), kg: 70 },
    ];
    const some = [0, 3, 9].map((n) => on(n, PULL_UP, [added(10, 5, 2)]));
    expect(only(PULL_UP, some, { share: 0.5, masses })).toMatchObject({ way: 'system', own: 35 });
    expect(only(PULL_UP, some.slice(0, 2), { share: 0.5, masses })).toMatchObject({ own: 40 });
    expect(only(PULL_UP, [on(0, PULL_UP, [added(0, 8, 2)])], { share: 0.5, masses })).not.toHaveProperty('own');
  });

  test('a break of more than two weeks is told for three weeks after it', () => {
    const at = (...days: readonly number[]) =>
      only(
        FRONT_SQUAT,
        days.map((n) => on(n, FRONT_SQUAT, [lift(100, 5, 2)])),
      ).returned;
    expect(at(0, 14)).toBeUndefined();
    expect(at(0, 15)).toBe(dayAt(15));
    expect(at(0, 15, 22, 36)).toBe(dayAt(15));
    expect(at(0, 15, 22, 36, 37)).toBeUndefined();
    // of two breaks the later
    expect(at(0, 15, 31)).toBe(dayAt(31));
  });
});

test('a change can be judged two weeks after the last session, on its weekday', () => {
  const retest = retestDay({ day: '2026-12-22' });
  expect(retest).toBe('2027-01-05');
  expect(dayOfWeek(retest)).toBe(dayOfWeek('2026-12-22'));
});
