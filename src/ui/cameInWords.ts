import type { Answers } from '../analysis/answers';
import type { ItemStanding } from '../analysis/cameIn';
import type { CameInFinding, PainFinding } from '../analysis/clientFinding';
import { ARRIVAL_ITEMS } from '../domain/arrival';
import { ARRIVAL } from './careWords';
import type { Picture, PicturePoint } from './charts/picture';
import { countOf, number } from './format';
import { capital, type FoundWords, type Telling, tenths } from './otherWords';
import { SIDE } from './setWords';
import { dayText } from './trendWords';

/*
 * How a client came in, and pain that returns, in words and pictures.
 */

/** Returns how they came in on the last day they were asked. */
export function cameInText(one: CameInFinding, { today }: Telling): FoundWords {
  const day = dayText(one.day, today);
  switch (one.type) {
    case 'below':
    case 'usual': {
      const days = one.running > 1 ? `, told so ${one.running} times in a row` : '';
      const moved = one.moved.slice(0, 2).flatMap((item) => movedText(item));
      const how =
        one.type === 'below'
          ? `below own normal of ${tenths(one.normal)}${days}`
          : `about as usual, own normal ${tenths(one.normal)}`;
      return {
        number: `${one.sum} of 25`,
        sentence: `On ${day}${one.days > 1 ? `, over ${one.days} days asked` : ''}: ${how}${moved.length > 0 ? `; ${moved.join(', ')}` : ''}.`,
      };
    }
    case 'plain': {
      const need =
        one.has < one.needs
          ? `${one.has} full answers before it, ${one.needs} are needed`
          : `asked over ${countOf(one.span, 'day')}, ${one.needsSpan} are needed`;
      return {
        number: one.sum === undefined ? 'not all told' : `${one.sum} of 25`,
        sentence: `On ${day}; asked too seldom yet to know what is usual (${need}).`,
      };
    }
    case 'as-usual':
      return { number: 'as usual', sentence: `Told so on ${day}, without numbers.` };
    case 'not-all':
      return { number: 'not all told', sentence: `On ${day} not all five were answered, so there is no sum.` };
  }
}

const movedText = ({ item, today, usual }: ItemStanding): readonly string[] =>
  today === undefined || usual === undefined
    ? []
    : [`${ARRIVAL[item].asks.toLowerCase()} ${today}, usually ${tenths(usual)}`];

/** Returns the sums by day, and the five answers of the last day against their own means. */
export function cameInPictures({ others, found }: Answers, { today }: Telling): readonly Picture[] {
  const came = others.cameIn;
  if (!came) return [];
  const told = found.find((one) => one.topic === 'came-in');
  const normal = told?.topic === 'came-in' && 'normal' in told ? told.normal : undefined;
  const asked = (item: (typeof ARRIVAL_ITEMS)[number]): string => ARRIVAL[item].asks;
  const sums: Picture = {
    id: 'sums',
    title: 'Sum',
    as: 'days',
    caption: 'sum of five, 5 to 25, 25 best',
    measure: 'reps',
    ends: [5, 25],
    series: ['disc'],
    ...(normal === undefined ? {} : { level: Math.round(normal * 10) / 10 }),
    columns: ['Day', 'Sum, 5–25', ...ARRIVAL_ITEMS.map(asked)],
    points: came.days.map(({ day, sum, items, usual }): PicturePoint => {
      const answers = ARRIVAL_ITEMS.map((item) => items[item]);
      const single = ARRIVAL_ITEMS.flatMap((item, n) =>
        answers[n] === undefined ? [] : [`${asked(item).toLowerCase()} ${answers[n]}`],
      );
      const of = sum === undefined ? (usual ? 'as usual' : 'not all told') : `${sum} of 25`;
      return {
        key: day,
        day,
        marks: sum === undefined ? [] : [{ series: 0, value: sum }],
        said: [`${dayText(day, today)}: ${of}`, single.join(', ')],
        cells: [
          dayText(day, today),
          sum === undefined ? of : String(sum),
          ...answers.map((one) => (one === undefined ? '' : String(one))),
        ],
      };
    }),
    notes: [
      ...(normal === undefined
        ? []
        : [
            'Dashes: own normal, the mean of the four weeks before the last answer, or of more where these hold fewer than fourteen.',
          ]),
      '“As usual” has no number, and moves nothing.',
    ],
  };
  const items: Picture = {
    id: 'items',
    title: 'Each answer',
    as: 'rows',
    caption: `${dayText(came.day, today)}, 1 to 5, 5 best`,
    measure: 'reps',
    series: ['disc', 'square'],
    ends: [1, 5],
    columns: ['Asked', 'That day, 1–5', 'Own mean', 'Away'],
    points: came.items.map(({ item, today: now, usual, away }) => ({
      key: item,
      name: asked(item),
      beside: now === undefined ? 'not told' : String(now),
      marks: [
        ...(now === undefined ? [] : [{ series: 0, value: now }]),
        ...(usual === undefined ? [] : [{ series: 1, value: usual }]),
      ],
      said: [
        `${asked(item)}: ${now ?? 'not told'}${usual === undefined ? '' : `, own mean ${tenths(usual)}`}`,
        `1 is ${ARRIVAL[item].worst}, 5 is ${ARRIVAL[item].best}`,
      ],
      cells: [
        asked(item),
        now === undefined ? 'not told' : String(now),
        usual === undefined ? '' : tenths(usual),
        away === undefined ? '' : tenths(away).replace('-', '−'),
      ],
    })),
    notes: ['Disc: that day. Square: the own mean. Single answers are shown, and not judged.'],
  };
  return [sums, items];
}

/** Returns what was noted of pain: about what, how often, and what lies between. */
export function painText(one: PainFinding, telling: Telling): FoundWords {
  const last = one.notes.at(-1);
  const times = countOf(one.notes.length, 'session');
  const about = aboutText(one, telling);
  const rest = one.after.sessions > 0 ? `; ${countOf(one.after.sessions, 'session')} since without a note of it` : '';
  const number = last?.value === undefined ? 'set ended by it' : `${last.value} of 10`;
  const on = dayText(last?.day ?? one.day, telling.today);
  switch (one.type) {
    case 'again':
    case 'now-and-then':
      return {
        number,
        sentence: `${about}: back on ${on}, after ${countOf(one.between.sessions, 'session')} without a note of it (${times} with pain since ${dayText(one.since, telling.today)})${rest}.`,
      };
    case 'running':
      return {
        number,
        sentence: `${about}: in ${countOf(one.run.sessions, 'session')} running since ${dayText(one.run.since, telling.today)}${one.notes.length > one.run.sessions ? ` (${times} with pain since ${dayText(one.since, telling.today)})` : ''}${rest}.`,
      };
    case 'noted':
      return {
        number,
        sentence: `${about}: noted on ${on}${last?.ended && last.value ? ', and it ended a set' : ''}${rest}.`,
      };
    case 'once': {
      const where = last?.places.length
        ? `${one.about === 'arrival' ? '; sore: ' : ', '}${last.places.join(', ')}`
        : '';
      return {
        number,
        sentence:
          one.about === 'arrival'
            ? `${about}: noted once, on ${on}${where}${rest}.`
            : `${about}${where}: noted once, on ${on}${last?.rising ? ', rising in the set' : ''}${rest}.`,
      };
    }
  }
}

const aboutText = ({ about, exercise, place, side }: PainFinding, telling: Telling): string => {
  const which = side ? `, ${SIDE[side]}` : '';
  if (about === 'exercise') return `${telling.exercise(exercise ?? '')}${which}`;
  return about === 'place' ? `${capital(place ?? 'one place')}${which}` : 'Before sessions';
};

/** Returns the sessions with pain, of each thing it is about. */
export function painPictures({ found }: Answers, telling: Telling): readonly Picture[] {
  return found.flatMap((one, n): Picture[] => {
    if (one.topic !== 'pain') return [];
    return [
      {
        id: `${n}`,
        title: aboutText(one, telling),
        as: 'days',
        caption: 'pain, 0 to 10',
        measure: 'reps',
        series: ['bar'],
        ends: [0, 10],
        columns: ['Day', 'Pain, 0–10', 'Rising', 'Ended a set', 'Exercise', 'Side', 'Place'],
        points: one.notes.map(({ session, day, value, rising, ended, exercises, sides, places }) => ({
          key: session,
          day,
          marks: value === undefined ? [] : [{ series: 0, value }],
          said: [
            `${dayText(day, telling.today)}: ${value === undefined ? 'no number noted' : `${value} of 10`}${rising ? ', rising' : ''}${ended ? ', ended a set' : ''}`,
            [...exercises.map(telling.exercise), ...sides.map((side) => SIDE[side]), ...places].join(', '),
          ],
          cells: [
            dayText(day, telling.today),
            value === undefined ? 'not noted' : number(value),
            rising ? 'yes' : '',
            ended ? 'yes' : '',
            exercises.map(telling.exercise).join(', '),
            sides.map((side) => SIDE[side]).join(', '),
            places.join(', '),
          ],
        })),
        notes: [
          'Only sessions with a note of it; a session without one may have been free of pain or not asked about.',
        ],
      },
    ];
  });
}
