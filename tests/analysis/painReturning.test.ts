import { describe, expect, test } from 'vitest';
import { isHeadsUp } from '../../src/analysis/findings';
import { knownBy } from '../../src/analysis/studio';
import type { SessionRecord } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { dayIn, kg, trained } from '../reference/records';
import { about, clientWith, did, foundOf, only } from './foundIn';

/* Pain that comes again, in records made by hand. Day 0 is a Monday. */

const SQUAT = 'lib-front-squat';
const HOP = 'lib-hop-and-hold';

describe('pain that comes again', () => {
  /** A squat a week; of each session the pain that was told, if any. */
  const squats = (...pains: readonly (number | undefined | Partial<SetRecord>)[]): SessionRecord[] =>
    pains.map((pain, n) =>
      did(dayIn(7 * n), SQUAT, [
        { load: kg(60), reps: 5 },
        { load: kg(60), reps: 5, ...(typeof pain === 'number' ? { pain: { value: pain } } : pain) },
      ]),
    );
  const told = (sessions: readonly SessionRecord[], day: number) =>
    about('pain', foundOf(clientWith(sessions), dayIn(day)));

  test('after a session without it: with both dates, what was told, and a question as the next act', () => {
    expect(only(told(squats(2, 0, undefined, 3), 21))).toEqual({
      topic: 'pain',
      type: 'again',
      about: 'exercise',
      exercise: SQUAT,
      day: dayIn(21),
      since: dayIn(0),
      certainty: 1,
      evidence: [`${dayIn(0)}-12-${SQUAT}`, `${dayIn(21)}-12-${SQUAT}`],
      notes: [2, 3].map((value, n) => ({
        session: `${dayIn(21 * n)}-12-${SQUAT}`,
        day: dayIn(21 * n),
        value,
        rising: false,
        ended: false,
        exercises: [SQUAT],
        sides: [],
        places: [],
      })),
      // two sessions without a note, in one of which none was told
      between: { sessions: 2, toldNone: 1 },
      after: { sessions: 0, toldNone: 0 },
      run: { sessions: 1, since: dayIn(21) },
      next: { type: 'ask-the-client' },
    });
  });

  test('how many sessions ran on is told without those before a session free of it', () => {
    const found = only(told(squats(2, undefined, 2, 2), 21));
    expect(found).toMatchObject({ type: 'running', since: dayIn(0), run: { sessions: 2, since: dayIn(14) } });
    expect(found.notes).toHaveLength(3);
  });

  test('in two sessions running', () => {
    expect(only(told(squats(undefined, 3, 2), 14))).toMatchObject({
      type: 'running',
      since: dayIn(7),
      next: { type: 'ask-the-client' },
    });
  });

  test('rising over two running, or from 4 on, or where it ended a set, a practitioner is to be asked', () => {
    expect(only(told(squats(2, 3), 14)).next).toEqual({ type: 'refer' });
    for (const pains of [[1, undefined, 4], [5], [1, { ended: 'pain' as const }], [6, 4], [5, 2], [5, undefined, 1]])
      expect(only(told(squats(...pains), 14)).next, JSON.stringify(pains)).toEqual({ type: 'refer', held: true });
    // told to be rising within both, though no higher
    const rising = { pain: { value: 2, rising: true } };
    expect(only(told(squats(rising, rising), 14)).next).toEqual({ type: 'refer' });
    expect(only(told(squats(2, rising), 14)).next).toEqual({ type: 'ask-the-client' });
    // rising, but a session lies between
    expect(only(told(squats(1, 0, 2), 14)).next).toEqual({ type: 'ask-the-client' });
    expect(told(squats(undefined, 0, 0), 14)).toEqual([]);
  });

  test('once, and mild: noted, to be asked about, no heads-up, and gone after two weeks', () => {
    const one = only(told(squats(undefined, 3), 7));
    expect(one).toMatchObject({
      type: 'once',
      about: 'exercise',
      exercise: SQUAT,
      day: dayIn(7),
      since: dayIn(7),
      evidence: [`${dayIn(7)}-12-${SQUAT}`],
      notes: [{ value: 3, ended: false }],
      next: { type: 'ask-the-client' },
    });
    expect(isHeadsUp(one)).toBe(false);
    expect(isHeadsUp(only(told(squats(3, undefined, 3), 14)))).toBe(true);
    expect(only(told(squats(3, 0), 14))).toMatchObject({ type: 'once', after: { sessions: 1, toldNone: 1 } });
    expect(told(squats(3), 14)).toHaveLength(1);
    expect(told(squats(3), 15)).toEqual([]);
  });

  test('an exercise that was stopped is told of for six weeks, whatever came after, until it is cleared', () => {
    const stopped = squats(5, 0, 0);
    expect(only(told(stopped, 42))).toMatchObject({ type: 'noted', next: { type: 'refer', held: true } });
    expect(told(stopped, 43)).toEqual([]);
    const at = Date.parse(`${dayIn(10)}T09:00Z`);
    const client = clientWith(stopped, { clearances: { [SQUAT]: { who: 'the house physio', at, day: dayIn(10) } } });
    expect(about('pain', foundOf(client, dayIn(21)))).toEqual([]);
  });

  test('is told for two weeks after it was noted last, and for six where nothing came after', () => {
    expect(told(squats(2, 3), 7 + 42)).toHaveLength(1);
    expect(told(squats(2, 3), 7 + 43)).toEqual([]);
    expect(only(told(squats(2, 3, 0), 7 + 14))).toMatchObject({ day: dayIn(7), after: { sessions: 1, toldNone: 1 } });
    expect(told(squats(2, 3, 0), 7 + 15)).toEqual([]);
  });

  test('a clearance lifts what went before it, once it is known', () => {
    const cleared = (day: number) =>
      clientWith(squats(2, 5, 3), {
        clearances: { [SQUAT]: { who: 'the house physio', at: Date.parse(`${dayIn(day)}T09:00Z`), day: dayIn(day) } },
      });
    // between the second and the third: what is left is one mild note
    expect(only(about('pain', foundOf(cleared(10), dayIn(14))))).toMatchObject({ type: 'once', notes: [{ value: 3 }] });
    expect(only(about('pain', foundOf(cleared(3), dayIn(14)))).notes.map(({ value }) => value)).toEqual([5, 3]);
    const later = knownBy(cleared(15), dayIn(14));
    expect(only(about('pain', foundOf(later, dayIn(14)))).notes.map(({ value }) => value)).toEqual([2, 5, 3]);
  });

  test('a quarter of a year later it has not come again', () => {
    const far = (days: number) => [
      did(dayIn(0), SQUAT, [{ pain: { value: 2 } }]),
      did(dayIn(days), SQUAT, [{ pain: { value: 2 } }]),
    ];
    expect(only(told(far(91), 91))).toMatchObject({ type: 'running', notes: [{ value: 2 }, { value: 2 }] });
    expect(only(told(far(92), 92))).toMatchObject({ type: 'once', notes: [{ value: 2 }] });
  });

  test('at one place in two exercises it is told of the place; in one, of the exercise', () => {
    const knee = { pain: { value: 2, place: ' Knee ' }, side: 'left' as const };
    const sessions = [
      did(dayIn(0), SQUAT, [knee]),
      did(dayIn(2), 'lib-bench-press', [{ reps: 5 }]),
      did(dayIn(4), HOP, [{ ...knee, pain: { value: 1, place: 'knee' } }]),
    ];
    expect(only(told(sessions, 4))).toMatchObject({
      type: 'again',
      about: 'place',
      place: 'knee',
      side: 'left',
      between: { sessions: 1, toldNone: 0 },
      notes: [
        { value: 2, exercises: [SQUAT], sides: ['left'] },
        { value: 1, exercises: [HOP], sides: ['left'] },
      ],
    });
    // in two exercises of one session each is told of
    const both = [did(dayIn(0), SQUAT, [knee, { ...knee, exercise: HOP }])];
    expect(told(both, 0).map(({ type, exercise }) => [type, exercise])).toEqual([
      ['once', SQUAT],
      ['once', HOP],
    ]);
    expect(only(told(squats(knee, knee), 7))).toMatchObject({ about: 'exercise', exercise: SQUAT, side: 'left' });
  });

  test('before sessions: in two running, or much; mild ones weeks apart are no heads-up', () => {
    const asked = (...pains: readonly (number | undefined)[]) =>
      pains.map((pain, n) =>
        trained(dayIn(7 * n), SQUAT, [{ reps: 5 }], {
          arrival: { items: {}, usual: true, sore: ['knee'], ...(pain === undefined ? {} : { pain }) },
        }),
      );
    expect(only(told(asked(1, 1), 7))).toMatchObject({
      about: 'arrival',
      type: 'running',
      next: { type: 'ask-the-client' },
    });
    expect(only(told(asked(undefined, 5), 7))).toMatchObject({ type: 'noted', next: { type: 'refer' } });
    const apart = only(told(asked(1, undefined, 1), 14));
    expect(apart).toMatchObject({ about: 'arrival', type: 'now-and-then', notes: [{ value: 1 }, { value: 1 }] });
    expect(isHeadsUp(apart)).toBe(false);
    const once = only(told(asked(undefined, 3), 7));
    expect(once).toMatchObject({ about: 'arrival', type: 'once', notes: [{ value: 3, places: ['knee'] }] });
    expect(isHeadsUp(once)).toBe(false);
  });
});
