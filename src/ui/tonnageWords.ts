import type { Answers } from '../analysis/answers';
import type { NotMoved } from '../analysis/moved';
import { sumOf } from '../analysis/stats/spread';
import type { TonnageWeek } from '../analysis/tonnage';
import type { TonnageFinding } from '../analysis/weekFinding';
import type { Picture, PicturePoint } from './charts/picture';
import { countOf, number } from './format';
import {
  capital,
  type FoundWords,
  inUnit,
  massText,
  PICTURE,
  percent,
  type Telling,
  tenths,
  tooFewText,
  weekText,
} from './otherWords';
import { isRunning, weekHead } from './pastWeekWords';
import { dayText } from './trendWords';

/*
 * Tonnage in words and pictures: kg × reps by week, each exercise for itself; a total only as one, with how much of the sets it covers.
 */

const WHY: Readonly<Record<NotMoved, string>> = {
  'no-load': 'no load noted',
  'no-reps': 'no reps noted',
  'no-mass': 'no body mass noted',
  'no-share': 'no published share of the body',
  'no-number': 'a band or pin is no number of kg',
  'nothing-left': 'as much help as body',
  unread: 'cannot be read here',
};

/** Returns a week's tonnage in words: of one exercise, or the total, which says that it is one. */
export function tonnageText(one: TonnageFinding, telling: Telling): FoundWords {
  const kg = 'kg' in one ? one.kg : undefined;
  const week = weekText(one.day, telling.today);
  const isTotal = isTotalOf(one) && one.exercises > 1;
  return {
    number:
      kg === undefined
        ? 'not known'
        : `${one.type === 'partly-known' ? 'at least ' : ''}${massText(kg, telling)}${isTotal ? ' in total' : ''}`,
    sentence: `${whatText(one, week, telling)}: ${standingText(one, telling)}. ${coverageText(one)}`,
  };
}

/** Returns whether a finding tells of everything that was lifted in a week. */
export const isTotalOf = (one: TonnageFinding): boolean => one.exercise === undefined && one.type !== 'stale-mass';

function whatText(one: TonnageFinding, week: string, telling: Telling): string {
  if (one.exercise !== undefined) return `${telling.exercise(one.exercise)}, ${week}`;
  if (one.exercises <= 1) return `${capital(week)}, all of one exercise`;
  return one.type === 'stale-mass'
    ? `${capital(week)}, ${one.exercises} exercises`
    : `${capital(week)}, over ${one.exercises} exercises that cannot be compared with each other`;
}

function standingText(one: TonnageFinding, telling: Telling): string {
  switch (one.type) {
    case 'above':
    case 'below':
      return `${one.type} the usual ${massText(one.usual, telling)}; usual weeks lie between ${massText(one.low, telling)} and ${massText(one.high, telling)}`;
    case 'usual':
      return `as usual; usual weeks lie between ${massText(one.low, telling)} and ${massText(one.high, telling)}`;
    case 'too-few':
      return `${tooFewText(one, 'week')} to set it against usual weeks`;
    case 'partly-known':
      return 'not set against other weeks, since too much of it is not known';
    case 'set-apart':
      return 'a week cut short or missed in part, so no usual one';
    case 'stale-mass':
      return `by a body mass noted for ${dayText(one.massDay, telling.today)}, which is old`;
  }
}

/** `36 of 39 sets counted (92 %); 3 not: no body mass noted.` */
function coverageText({
  sets,
  not,
  coverage,
  stale,
}: Pick<TonnageFinding, 'sets' | 'not' | 'coverage' | 'stale'>): string {
  const missing = sumOf(Object.values(not));
  const whys = (Object.keys(not) as NotMoved[])
    .filter((why) => (not[why] ?? 0) > 0)
    .map((why) => `${not[why]} (${WHY[why]})`);
  const told = `${sets} of ${countOf(sets + missing, 'set')} counted (${percent(coverage)})`;
  return `${told}${whys.length > 0 ? `; not counted: ${whys.join(', ')}` : ''}${stale > 0 ? `; ${stale} by an old body mass` : ''}.`;
}

/** Returns the weeks of the total, and of each exercise for itself. */
export function tonnagePictures({ others, found, asOf }: Answers, telling: Telling): readonly Picture[] {
  const { weeks, total } = others.tonnage;
  const ids = [...new Set(weeks.map(({ exercise }) => exercise))];
  const own = ids.map((id) => ({ id, weeks: weeks.filter(({ exercise }) => exercise === id) }));
  // what was done last stands first
  const lastOf = (one: (typeof own)[number]): string => one.weeks.at(-1)?.week ?? '';
  own.sort((a, b) => (lastOf(a) === lastOf(b) ? b.weeks.length - a.weeks.length : lastOf(a) < lastOf(b) ? 1 : -1));
  const rangeOf = (exercise: string | undefined): Pick<Picture, 'range' | 'notes'> => {
    const told = found.find((one) => one.topic === 'tonnage' && one.exercise === exercise && 'low' in one);
    if (told?.topic !== 'tonnage' || !('low' in told)) return { notes: [PICTURE.least] };
    return {
      range: { low: inUnit(told.low, telling), high: inUnit(told.high, telling) },
      notes: [PICTURE.usual, PICTURE.least],
    };
  };
  const totals: Picture = {
    ...base(telling),
    id: TOTAL,
    title: 'Total',
    of: 'in total',
    columns: ['Week from', `Total, ${telling.unit} × reps`, 'Exercises', 'Sets counted', 'Counted of all sets'],
    points: total.map(({ week, kg, exercises, sets, coverage, comparable }) =>
      pointOf(week, kg, comparable < 1 || isRunning(week, asOf), telling, {
        said: [
          `${exercises === 1 ? '1 exercise' : `a total of ${exercises} exercises`}, ${countOf(sets, 'set')} counted (${percent(coverage)})`,
        ],
        cells: [number(exercises), number(sets), percent(coverage)],
      }),
    ),
    ...rangeOf(undefined),
  };
  const each = own.map(
    ({ id, weeks: done }): Picture => ({
      ...base(telling),
      id,
      title: telling.exercise(id),
      of: telling.exercise(id),
      columns: [
        'Week from',
        `${telling.unit} × reps`,
        'Left',
        'Right',
        'Sessions',
        'Sets counted',
        'Counted of all sets',
        'Own body counted as',
      ],
      points: done.map((one) => exercisePoint(one, isRunning(one.week, asOf), telling)),
      ...rangeOf(id),
    }),
  );
  return own.length > 1 ? [...each, totals] : each;
}

/** `95.8 %` */
const shareText = (share: number): string => `${tenths(share * 100)}\u00a0%`;

/** Returns how much of the own body is counted, by exercise; empty where none was moved. */
export function bodyText({ others }: Answers, telling: Telling): string {
  const shares = new Map(
    others.tonnage.weeks.flatMap(({ exercise, shares: own }) => (own.length > 0 ? [[exercise, own] as const] : [])),
  );
  if (shares.size === 0) return '';
  const told = [...shares].map(([id, own]) => `${telling.exercise(id)} ${own.map(shareText).join(', ')}`);
  return `The own body is counted by a published share of its mass: ${told.join('; ')}.`;
}

/** The picture of all exercises in one. */
export const TOTAL = 'total';

const base = ({ unit }: Telling): Pick<Picture, 'as' | 'caption' | 'measure' | 'series'> => ({
  as: 'weeks',
  caption: `${unit} × reps a week`,
  measure: 'load',
  series: ['bar'],
});

function exercisePoint(one: TonnageWeek, running: boolean, telling: Telling): PicturePoint {
  const { week, kg, left, right, sessions, sets, coverage, comparable, shares } = one;
  const sided = left > 0 || right > 0;
  return pointOf(week, kg, comparable < 1 || running, telling, {
    said: [
      ...(sided ? [`left ${massText(left, telling)}, right ${massText(right, telling)}`] : []),
      `${countOf(sets, 'set')} counted (${percent(coverage)}) in ${countOf(sessions, 'session')}`,
    ],
    cells: [
      ...(sided ? [number(inUnit(left, telling)), number(inUnit(right, telling))] : ['', '']),
      number(sessions),
      number(sets),
      percent(coverage),
      shares.map(shareText).join(', '),
    ],
  });
}

function pointOf(
  week: string,
  kg: number | undefined,
  least: boolean,
  telling: Telling,
  { said, cells }: Pick<PicturePoint, 'said' | 'cells'>,
): PicturePoint {
  const value = kg === undefined ? undefined : inUnit(kg, telling);
  return {
    key: week,
    day: week,
    sum: kg === undefined ? 'not known' : massText(kg, telling),
    marks: value === undefined ? [] : [{ series: 0, value, least }],
    said: [`${weekHead(week, telling.today)}: ${kg === undefined ? 'not known' : massText(kg, telling)}`, ...said],
    cells: [dayText(week, telling.today), value === undefined ? 'not known' : number(value), ...cells],
  };
}
