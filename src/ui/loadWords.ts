import type { Answers } from '../analysis/answers';
import type { LoadWeek } from '../analysis/sessionLoad';
import type { LoadFinding } from '../analysis/weekFinding';
import type { Picture } from './charts/picture';
import { countOf, number } from './format';
import { capital, type FoundWords, PICTURE, signed, type Telling, tenths, weekText } from './otherWords';
import { atLeast, isRunning, weekHead } from './pastWeekWords';
import { dayText } from './trendWords';

/*
 * Whole-session load in words and pictures: effort × minutes, other work included. Descriptive: nothing here foretells an injury.
 */

/** Returns a week's load in words. */
export function loadText(one: LoadFinding, { today }: Telling): FoundWords {
  const { sessions, otherWork, missing, known, notLogged, total, type } = one;
  const before = 7 - known - notLogged.length;
  const week = capital(weekText(one.day, today));
  const of = `${countOf(sessions, 'session')}${otherWork > 0 ? ` and ${countOf(otherWork, 'line')} of other work` : ''}`;
  const open =
    missing > 0
      ? `of ${number(missing)} of them effort or time is not noted`
      : type === 'days-unknown'
        ? `${known} of 7 days known${before > 0 ? `, ${before} ${before === 1 ? 'was' : 'were'} before the first record` : ''}`
        : 'all seven days known';
  return {
    number: totalText(total, type === 'least'),
    sentence: `${week}, effort × minutes over ${of}; ${open}.${changeText(one.change)} ${variationText(one.variation)}`,
  };
}

const totalText = (total: number | undefined, isLeast: boolean): string =>
  total === undefined ? 'not known' : atLeast(isLeast, Math.round(total), number(Math.round(total)));

const changeText = (change: LoadWeek['change']): string =>
  change
    ? ` ${signed(Math.round(change.au))} against the week before${change.share === undefined ? '' : ` (${signed(Math.round(change.share * 100))} %)`}.`
    : '';

function variationText(variation: LoadWeek['variation']): string {
  switch (variation.type) {
    case 'told':
      return `Day-to-day sameness ${tenths(variation.monotony)}: mean of the days over their spread.`;
    case 'no-variation':
      return 'No day-to-day variation: all seven days were alike.';
    case 'days-unknown':
      return 'Day-to-day variation needs all seven days known.';
  }
}

/** Returns the weeks, and the slow and the quick mean of days. */
export function loadPictures({ others }: Answers, { today }: Telling): readonly Picture[] {
  const { weeks, days, lines } = others.load;
  const weekly: Picture = {
    id: 'weeks',
    title: 'By week',
    as: 'weeks',
    of: 'effort × minutes',
    caption: 'effort × minutes a week',
    measure: 'load',
    series: ['bar'],
    columns: [
      'Week from',
      'Effort × minutes',
      'Not noted',
      'Days known',
      'Against the week before',
      'Change',
      'Sameness (mean ÷ sample SD)',
      'Total × sameness',
    ],
    points: weeks.map(({ week, total, missing, known, running, change, variation }) => {
      const value = total === undefined ? undefined : Math.round(total);
      const isLeast = missing > 0 || running || known < 7;
      return {
        key: week,
        day: week,
        sum: totalText(value, missing > 0),
        marks: value === undefined ? [] : [{ series: 0, value, least: missing > 0 || isRunning(week, today) }],
        said: [
          `${weekHead(week, today)}: ${value === undefined ? 'nothing noted' : totalText(value, missing > 0)}`,
          `${known} of 7 days known${missing > 0 ? `, ${missing} without effort or time` : ''}${isLeast ? '' : changeText(change)}`,
        ],
        cells: [
          dayText(week, today),
          value === undefined ? 'nothing noted' : totalText(value, missing > 0),
          number(missing),
          number(known),
          change ? signed(Math.round(change.au)) : '',
          change?.share === undefined ? '' : `${signed(Math.round(change.share * 100))}\u00a0%`,
          variation.type === 'told'
            ? tenths(variation.monotony)
            : variation.type === 'no-variation'
              ? 'no variation'
              : '',
          variation.type === 'told' ? number(Math.round(variation.strain)) : '',
        ],
      };
    }),
    notes: [PICTURE.least],
  };
  const byDay = new Map(days.map((one) => [one.day, one]));
  const daily: Picture = {
    id: 'days',
    title: '7-day and 28-day mean',
    as: 'days',
    caption: 'effort × minutes a day',
    measure: 'load',
    series: ['line', 'dashes'],
    columns: ['Day', 'That day', '7-day mean', '28-day mean'],
    points: lines.flatMap(({ day, short, long }) => {
      const own = byDay.get(day);
      if (short === undefined && long === undefined && (own === undefined || own.kind === 'not-logged')) return [];
      const [quick, slow] = [short, long].map((one) => (one === undefined ? undefined : Math.round(one)));
      return [
        {
          key: day,
          day,
          marks: [
            ...(quick === undefined ? [] : [{ series: 0, value: quick }]),
            ...(slow === undefined ? [] : [{ series: 1, value: slow }]),
          ],
          said: [
            `${dayText(day, today)}: ${thatDay(own)}`,
            `7-day mean ${quick ?? 'not known'}, 28-day mean ${slow ?? 'not known'}`,
          ],
          cells: [dayText(day, today), thatDay(own), cell(quick), cell(slow)],
        },
      ];
    }),
    notes: [
      'Whole line: the mean of about 7 days. Dashes: of about 28. They are told where six in seven days are known.',
    ],
  };
  return daily.points.some(({ marks }) => marks.length > 0) ? [weekly, daily] : [weekly];
}

const cell = (value: number | undefined): string => (value === undefined ? '' : number(value));

function thatDay(own: Answers['others']['load']['days'][number] | undefined): string {
  switch (own?.kind) {
    case 'loaded':
      return number(Math.round(own.told));
    case 'partly':
      return own.counted > 0 ? `at least ${number(Math.round(own.told))}` : 'not noted';
    case 'rest':
      return '0, rest';
    default:
      return 'no line';
  }
}
