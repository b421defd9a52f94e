import type { Answers } from '../analysis/answers';
import type { SidesFinding } from '../analysis/clientFinding';
import type { OwnBest, SideDate, SidesError, SideUnit, TestError } from '../analysis/sides';
import type { Measure } from '../domain/measure';
import type { Picture } from './charts/picture';
import { countOf, number } from './format';
import { type FoundWords, inUnit, percent, type Telling, tenths } from './otherWords';
import { SIDE } from './setWords';
import { dayText } from './trendWords';

/*
 * Left and right in words and pictures: both in their own units, each against its own best.
 */

const UNIT: Readonly<Record<Exclude<SideUnit, 'kg'>, string>> = { reps: ' reps', seconds: ' s', degrees: '°' };
const MEASURE: Readonly<Record<SideUnit, Measure>> = {
  kg: 'load',
  reps: 'reps',
  seconds: 'seconds',
  degrees: 'degrees',
};

const CAPTION: Readonly<Record<SideUnit, (telling: Telling) => string>> = {
  kg: ({ unit }) => `could be lifted once, estimated, ${unit}`,
  reps: () => 'reps, those left counted',
  seconds: () => 'seconds held',
  degrees: () => 'degrees',
};

const inOwn = (value: number, unit: SideUnit, telling: Telling): number =>
  unit === 'kg' ? inUnit(value, telling) : Math.round(value * 10) / 10 + 0;
const unitName = (unit: SideUnit, telling: Telling): string => (unit === 'kg' ? `\u00a0${telling.unit}` : UNIT[unit]);
const valueText = (value: number, unit: SideUnit, telling: Telling): string =>
  `${number(inOwn(value, unit, telling))}${unitName(unit, telling)}`;

/** Returns how the sides of an exercise stand, both in their units. */
export function sidesText(one: SidesFinding, telling: Telling): FoundWords {
  const name = telling.exercise(one.exercise);
  if (one.type === 'too-few')
    return {
      number: 'not enough yet',
      sentence: `${name}: has ${countOf(one.has, 'date')} with two trials of each side, needs ${one.needs}.`,
    };
  const { last } = one;
  return {
    number: `left ${valueText(last.left.value, one.unit, telling)}, right ${valueText(last.right.value, one.unit, telling)}`,
    sentence: `${name}, ${dayText(last.day, telling.today)}${one.unit === 'kg' ? ', what could be lifted once, estimated' : ''}: ${standingText(one, telling)}${bestText(one)}.`,
  };
}

function standingText(one: Exclude<SidesFinding, { type: 'too-few' }>, telling: Telling): string {
  switch (one.type) {
    case 'gap':
      return `the ${SIDE[one.side]} is less by ${gapText(one.last, one.unit, telling)}, beyond the test’s error on ${one.times} of the last ${countOf(one.of, 'date')}, since ${dayText(one.since, telling.today)}`;
    case 'closing':
      return `the ${SIDE[one.side]} is still less by ${gapText(one.last, one.unit, telling)}, down from ${gapText(one.widest, one.unit, telling)} on ${dayText(one.widest.day, telling.today)}`;
    case 'closed':
      return `within the test’s error now; on ${dayText(one.widest.day, telling.today)} the ${SIDE[one.side]} was less by ${gapText(one.widest, one.unit, telling)}`;
    case 'even':
      return 'no difference beyond the test’s own error';
    case 'once':
      return 'beyond the test’s error, but not the same way on two of the last three dates';
    case 'error-unknown':
      return `${unknownText(one)}, so neither side is called the weaker`;
  }
}

const unknownText = ({ has, needs }: { readonly has: number; readonly needs: number }): string =>
  has < needs
    ? `how far two trials differ by chance is not known for this test yet (has ${countOf(has, 'pair')} of trials, needs ${needs})`
    : 'the trials of each day are noted alike, which does not show how far two differ by chance';

const gapText = ({ apart, percent: share }: SideDate, unit: SideUnit, telling: Telling): string =>
  `${valueText(Math.abs(apart), unit, telling)}${share === undefined ? '' : ` (${tenths(share)}\u00a0%)`}`;

/** `; of their own best left 98 %, right 100 %` */
function bestText({ best }: { readonly best: { readonly left?: OwnBest; readonly right?: OwnBest } }): string {
  const told = (['left', 'right'] as const).flatMap((side) => {
    const share = best[side]?.share;
    return share === undefined ? [] : [`${SIDE[side]} ${percent(share)}`];
  });
  return told.length === 0 ? '' : `; of own best ${told.join(', ')}`;
}

const errorText = ({ from }: SidesError): string => (from === 'own' ? 'by the client’s own trials' : 'as published');

/** Half of what two trials differ by chance, for the larger of two values: where ranges of this size do not meet, the difference is beyond it. */
const halfError = (error: TestError, { left, right }: SideDate): number =>
  'units' in error ? error.units / 2 : (error.cv * Math.max(left.value, right.value)) / 2;

/** Returns both sides of each exercise by date. */
export function sidesPictures({ others, found }: Answers, telling: Telling): readonly Picture[] {
  const order = found.flatMap((one) => (one.topic === 'sides' ? [one.exercise] : []));
  const told = others.sides.filter(({ dates }) => dates.length > 0);
  const place = (id: string): number => (order.includes(id) ? order.indexOf(id) : order.length);
  return told
    .toSorted((a, b) => place(a.exercise) - place(b.exercise))
    .map(({ exercise, unit, dates, error }): Picture => {
      const name = unitName(unit, telling).trim();
      return {
        id: exercise,
        title: telling.exercise(exercise),
        as: 'days',
        caption: CAPTION[unit](telling),
        measure: MEASURE[unit],
        series: ['disc', 'square'],
        columns: [
          'Day',
          `Left, ${name}`,
          `Right, ${name}`,
          `Right less left, ${name}`,
          'Apart, %',
          'Beyond the error',
          'Trials, left and right',
        ],
        points: dates.map((date) => {
          const spread = error && halfError(error, date);
          const mark = (series: number, value: number) => ({
            series,
            value: inOwn(value, unit, telling),
            ...(spread === undefined
              ? {}
              : { low: inOwn(value - spread, unit, telling), high: inOwn(value + spread, unit, telling) }),
          });
          const [left, right] = [date.left.value, date.right.value];
          const day = dayText(date.day, telling.today);
          return {
            key: date.session,
            day: date.day,
            marks: [mark(0, left), mark(1, right)],
            said: [
              `${day}: left ${valueText(left, unit, telling)}, right ${valueText(right, unit, telling)}`,
              `apart by ${gapText(date, unit, telling)}${error ? (date.beyond ? ', beyond the error' : ', within the error') : ''}`,
            ],
            cells: [
              day,
              number(inOwn(left, unit, telling)),
              number(inOwn(right, unit, telling)),
              number(inOwn(date.apart, unit, telling)).replace('-', '−'),
              date.percent === undefined ? '' : tenths(date.percent),
              error ? (date.beyond ? 'yes' : 'no') : '',
              `${date.left.trials}, ${date.right.trials}`,
            ],
          };
        }),
        notes: [
          'Discs: left. Squares: right.',
          ...(error
            ? [
                `Ranges are half the test’s error each way (${errorText(error)}): where they do not meet, the difference is beyond it.`,
              ]
            : []),
        ],
      };
    });
}
