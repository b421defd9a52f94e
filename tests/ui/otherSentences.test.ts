import { describe, expect, test } from 'vitest';
import { answersOf } from '../../src/analysis/answers';
import type { OtherFinding } from '../../src/analysis/otherFindings';
import { readStudio } from '../../src/analysis/studio';
import { dayShort } from '../../src/ui/format';
import { otherNextText, otherSureText, otherTone, type Telling } from '../../src/ui/otherWords';
import { closedSentence, heldSentence } from '../../src/ui/painWords';
import { foundWords, topicsOf } from '../../src/ui/people/topics';
import { setsPictures } from '../../src/ui/setsWords';
import { tonnagePictures } from '../../src/ui/tonnageWords';
import { about, clientWith, did, foundOf, mass, only } from '../analysis/foundIn';
import { dayIn, kg, times } from '../reference/records';

/* Sentences that must say no more than what was noted. */

const telling = (day: number): Telling => ({
  unit: 'kg',
  distance: 'm',
  today: dayIn(day),
  exercise: (id) => id,
  cue: (id) => id,
});
const says = (one: OtherFinding, day: number): string => foundWords(one, telling(day)).sentence;
const SQUAT = 'lib-front-squat';
/** Day 0, in the order of the machine's own language. */
const FIRST = dayShort(dayIn(0));
const arrived = (day: number, of: number, sleep = of, more: { readonly pain?: number } = {}) =>
  did(dayIn(day), SQUAT, [], {
    arrival: { items: { sleep, energy: of, body: of, calm: of, mood: of }, usual: false, sore: [], ...more },
  });

describe('how they came in', () => {
  test('below over three days says so, where the last of them is no low one', () => {
    const usual = Array.from({ length: 28 }, (_, n) => arrived(n, 4, n % 2 === 0 ? 3 : 4));
    const client = clientWith([...usual, arrived(28, 2), arrived(29, 2), arrived(30, 4)]);
    const one = only(about('came-in', foundOf(client, dayIn(30))));
    expect(foundWords(one, telling(30)).number).toBe('20 of 25');
    expect(says(one, 30)).toContain('over 3 days asked: below own normal of 18.8');
  });
});

describe('pain', () => {
  test('before a session no exercise is said to have been stopped; a set that it ended is', () => {
    const before = only(about('pain', foundOf(clientWith([arrived(29, 4, 4, { pain: 5 })]), dayIn(30))));
    expect(says(before, 30)).toMatch(/^Before sessions: noted on [^,]*\.$/);
    const sets = [{ load: kg(50), reps: 3, pain: { value: 3, rising: false }, ended: 'pain' as const }];
    const ended = only(about('pain', foundOf(clientWith([did(dayIn(29), SQUAT, sets)]), dayIn(30))));
    expect(says(ended, 30)).toContain('and it ended a set');
  });
});

describe('pain that was noted once', () => {
  const once = (one: Parameters<typeof did>[2][number]) =>
    only(about('pain', foundOf(clientWith([did(dayIn(0), SQUAT, [one])]), dayIn(1))));

  test('when, how much and where, and to ask next time', () => {
    const one = once({ load: kg(50), reps: 3, side: 'left', pain: { value: 3, rising: false, place: 'knee' } });
    expect(foundWords(one, telling(1))).toEqual({
      number: '3 of 10',
      sentence: `lib-front-squat, left, knee: noted once, on ${FIRST}.`,
    });
    expect(otherNextText(one.next, dayIn(1))).toBe('Ask the client about it before the next session.');
    expect(otherTone(one)).toBe('plain');
    const before = did(dayIn(0), SQUAT, [], { arrival: { items: {}, usual: true, sore: ['hip'], pain: 2 } });
    const came = only(about('pain', foundOf(clientWith([before]), dayIn(1))));
    expect(says(came, 1)).toBe(`Before sessions: noted once, on ${FIRST}; sore: hip.`);
  });

  test('what was stopped says on the client’s page what the floor says of it', () => {
    const one = once({ load: kg(50), reps: 3, pain: { value: 4, rising: false } });
    expect(otherNextText(one.next, dayIn(1))).toBe(
      'Refer: nothing heavier than then is offered until a clearance is noted; a licensed practitioner is to be asked.',
    );
    expect(heldSentence({ day: dayIn(0), pain: 4 }, '50 kg')).toBe(
      `Pain 4 of 10 on ${FIRST}. Refer: nothing heavier than 50 kg is offered until a clearance is noted; a licensed practitioner is to be asked.`,
    );
    expect(heldSentence({ day: dayIn(0) }, null)).toContain(
      `A set ended in pain on ${FIRST}. Refer: nothing heavier than then `,
    );
    expect(closedSentence({ level: 'stop', why: 'pain', pain: 4 })).toBe(
      'Closed for this session: pain 4 of 10. Stop and refer: nothing heavier than this is offered until a clearance is noted; a licensed practitioner is to be asked.',
    );
    // pain before a session stops no exercise, so nothing is said to be held back
    const came = did(dayIn(0), SQUAT, [], { arrival: { items: {}, usual: true, sore: [], pain: 5 } });
    expect(otherNextText(only(about('pain', foundOf(clientWith([came]), dayIn(1)))).next, dayIn(1))).toBe(
      'Refer: a licensed practitioner is to be asked.',
    );
  });
});

describe('pain in sessions running', () => {
  test('those before a session free of it are told apart', () => {
    const hurt = (day: number, value: number) =>
      did(dayIn(day), SQUAT, [{ load: kg(50), reps: 3, ...(value > 0 ? { pain: { value, rising: false } } : {}) }]);
    const some = [hurt(0, 2), hurt(3, 0), hurt(7, 2), hurt(10, 2)];
    const one = only(about('pain', foundOf(clientWith(some), dayIn(11))));
    expect(says(one, 11)).toMatch(/in 2 sessions running since .* \(3 sessions with pain since .*\)\.$/);
  });
});

describe('left and right', () => {
  test('two dates that differ the other way round are not one date', () => {
    const rowed = (day: number, left: number, right: number) =>
      did(dayIn(day), 'lib-one-arm-row', [
        ...times(2, { side: 'left' as const, load: kg(left), reps: 1, effort: { value: 0, as: 'left' as const } }),
        ...times(2, { side: 'right' as const, load: kg(right), reps: 1, effort: { value: 0, as: 'left' as const } }),
      ]);
    const one = only(about('sides', foundOf(clientWith([rowed(1, 30, 40), rowed(8, 40, 30)]), dayIn(10))));
    expect(says(one, 10)).toContain('beyond the test’s error, but not the same way on two of the last three dates');
  });
});

describe('tonnage', () => {
  test('with half of the sets unknown it is the least it can have been', () => {
    const some = [...times(3, { load: kg(60), reps: 5 }), ...times(3, { reps: 5 })];
    const found = about('tonnage', foundOf(clientWith([did(dayIn(0), SQUAT, some)]), dayIn(7)));
    expect(found.map((one) => foundWords(one, telling(7)).number)).toEqual([
      'at least 900\u00a0kg',
      'at least 900\u00a0kg',
    ]);
  });

  test('what is reckoned by an old mass is not told to be counted', () => {
    const client = clientWith([did(dayIn(70), 'lib-pull-up', times(3, { reps: 5 }))], { masses: [mass(70, dayIn(1))] });
    const found = about('tonnage', foundOf(client, dayIn(77)));
    const stale = found.find(({ type }) => type === 'stale-mass');
    expect(stale && otherSureText(stale)).toBe('It rests on 1 session.');
  });

  test('of exercises done in the same last week the one done in most weeks stands first', () => {
    const lifted = (week: number, exercise: string) =>
      did(dayIn(7 * week), exercise, times(3, { load: kg(40), reps: 5 }));
    const often = [0, 1, 2, 3].map((week) => lifted(week, 'lib-romanian-deadlift'));
    for (const rare of ['lib-bench-press', 'lib-thruster']) {
      const answers = answersOf(clientWith([...often, lifted(3, rare)]), [], readStudio([]), dayIn(28));
      expect(tonnagePictures(answers, telling(28))[0]?.id).toBe('lib-romanian-deadlift');
    }
  });
});

describe('landings', () => {
  const landed = (sets: Parameters<typeof did>[2], level?: 'beginner') =>
    about('landings', foundOf(clientWith([did(dayIn(0), 'lib-drop-landing', sets)], level ? { level } : {}), dayIn(1)));

  test('one is one: it was judged, or was not', () => {
    const few = landed([{ landings: 1, good: 1 }, { landings: 1 }]).find(({ type }) => type === 'too-few');
    expect(few && says(few, 1)).toBe('lib-drop-landing, 1 landing was judged, 10 are needed; 1 was not judged.');
  });

  test('more than the range is told by how many, fewer is told to be no lack', () => {
    const on = (landings: number) => landed([{ landings }], 'beginner').filter(({ type }) => type !== 'too-few');
    expect(says(only(on(112)), 1)).toMatch(/: 12 above the range for the level, 80–100 a session\.$/);
    expect(says(only(on(79)), 1)).toMatch(
      /: the range for the level is 80–100 a session; fewer is no reason to add\.$/,
    );
    expect(says(only(on(80)), 1)).toMatch(/: within the range for the level, 80–100 a session\.$/);
  });

  test('without anything that presses the count stands above how good they were', () => {
    const sets = [{ landings: 12, good: 11 }];
    const answers = answersOf(
      clientWith([did(dayIn(0), 'lib-drop-landing', sets)], { level: 'beginner' }),
      [],
      readStudio([]),
      dayIn(1),
    );
    const { found, pictures } = only(topicsOf(answers, telling(1)).told.filter(({ topic }) => topic === 'landings'));
    expect(found.map((one) => foundWords(one, telling(1)).number)).toEqual(['12 landings', '92\u00a0% good']);
    expect(pictures.map(({ id }) => id)).toEqual(['counts', 'good']);
  });
});

describe('hard sets', () => {
  const hard = times(3, { load: kg(80), reps: 8, effort: { value: 1, as: 'left' as const } });

  test('a week cut short is said to be one', () => {
    const whole = only(about('sets', foundOf(clientWith([did(dayIn(0), SQUAT, hard)]), dayIn(7))));
    expect(says(whole, 7)).not.toContain('cut short');
    const client = clientWith([did(dayIn(0), SQUAT, hard, { attendance: 'cut-short' })]);
    expect(says(only(about('sets', foundOf(client, dayIn(7)))), 7)).toContain('; a week cut short or missed in part');
  });

  test('with sets that nobody could judge the table says at least too', () => {
    const some = [...hard, { load: kg(80), reps: 8 }];
    const weeks = [did(dayIn(0), SQUAT, some), did(dayIn(7), SQUAT, hard), did(dayIn(14), SQUAT, [{ reps: 8 }])];
    const answers = answersOf(clientWith(weeks), [], readStudio([]), dayIn(21));
    const byWeek = setsPictures(answers, telling(21)).find(({ id }) => id === 'weeks');
    expect(byWeek?.points.map(({ cells }) => cells[1])).toEqual(['at least 3', '3', 'not known']);
  });
});

test('whole-session load: days before the first record are none that a line is missing of', () => {
  const of = (day: number) => did(dayIn(day), SQUAT, [], { minutes: 60, effort: { value: 5, as: 'session' } });
  // from Thursday: two of four days are known, and three lie before
  const one = only(about('load', foundOf(clientWith([of(3), of(5)]), dayIn(8))));
  expect(says(one, 8)).toContain('; 2 of 7 days known, 3 were before the first record.');
  expect(otherNextText(one.next, dayIn(8))).toContain('2 days of the week have no line');
});

describe('degrees', () => {
  test('of a test without a known error the last degrees are told, the mean of that day’s trials', () => {
    const measured = (day: number, ...all: readonly number[]) =>
      did(
        dayIn(day),
        'lib-ankle-range',
        all.map((degrees) => ({ side: 'left' as const, degrees })),
      );
    const one = only(about('measures', foundOf(clientWith([measured(0, 30, 32), measured(9, 36, 39)]), dayIn(10))));
    expect(foundWords(one, telling(10)).number).toBe('37.5°');
    expect(says(one, 10)).toContain('measured on 2 days: how far measuring twice differs is not known');
    expect(one).toMatchObject({ first: { day: dayIn(0), value: 31 }, last: { day: dayIn(9), value: 37.5 } });
  });
});

test('kg of one side are said to be what could be lifted once, estimated', () => {
  const once = (side: 'left' | 'right') => ({ side, load: kg(20), reps: 1, effort: { value: 0, as: 'left' as const } });
  const row = (day: number) =>
    did(dayIn(day), 'lib-one-arm-row', [...times(2, once('left')), ...times(2, once('right'))]);
  const one = only(about('sides', foundOf(clientWith([row(0), row(3)]), dayIn(4))));
  expect(says(one, 4)).toContain(', what could be lifted once, estimated: no difference beyond');
});

test('a day without a line may be noted to have been of rest', () => {
  expect(otherNextText({ type: 'confirm-rest-days', days: [dayIn(1)] }, dayIn(7))).toContain('a rest day');
});
