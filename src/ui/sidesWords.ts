import type { Answers } from '../analysis/answers';
import type { SidesFinding } from '../analysis/clientFinding';
import type { LearningFinding, MeasuresFinding } from '../analysis/otherFindings';
import type { OwnBest, SideDate, SidesError, SideUnit, TestError } from '../analysis/sides';
import type { Measure } from '../domain/measure';
import type { Picture } from './charts/picture';
import { countOf, number } from './format';
import { type FoundWords, inUnit, percent, type Telling, tenths, tooFewText } from './otherWords';
import { SIDE } from './setWords';
import { dayText } from './trendWords';

/*
 * Left and right, degrees, and the learning of the weaker side, in words and pictures. Both sides stand in their own units, each against its own best.
 */

const UNIT: Readonly<Record<Exclude<SideUnit, 'kg'>, string>> = { reps: ' reps', seconds: ' s', degrees: '°' };
const MEASURE: Readonly<Record<SideUnit, Measure>> = {
  kg: 'load',
  reps: 'reps',
  seconds: 'seconds',
  degrees: 'degrees',
};

const inOwn = (value: number, unit: SideUnit, telling: Telling): number =>
  unit === 'kg' ? inUnit(value, telling) : Math.round(value * 10) / 10;
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
    sentence: `${name}, ${dayText(last.day, telling.today)}: ${standingText(one, telling)}${bestText(one, telling)}.`,
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
      return 'beyond the test’s error on one date of the last three: not repeated';
    case 'error-unknown':
      return `both as they are: ${unknownText(one)}, so no difference is called one`;
  }
}

const unknownText = ({ has, needs }: { readonly has: number; readonly needs: number }): string =>
  has < needs
    ? `how far two trials differ by chance is not known for this test yet (has ${countOf(has, 'pair')} of trials, needs ${needs})`
    : 'all trials of a day are alike, which tells of no error';

const gapText = ({ apart, percent: share }: SideDate, unit: SideUnit, telling: Telling): string =>
  `${valueText(Math.abs(apart), unit, telling)}${share === undefined ? '' : ` (${tenths(share)}\u00a0%)`}`;

/** `; of their own best left 98 %, right 100 %` */
function bestText(
  { best }: { readonly best: { readonly left?: OwnBest; readonly right?: OwnBest } },
  _: Telling,
): string {
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
        caption: unit === 'kg' ? `could be lifted once, ${telling.unit}` : unit === 'degrees' ? 'degrees' : name,
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

const sideOf = (side: 'left' | 'right' | undefined): string => (side ? `, ${SIDE[side]}` : '');
const degrees = (value: number): string => `${tenths(value)}°`;

/** Returns how degrees have changed since the first day. */
export function measuresText(one: MeasuresFinding, telling: Telling): FoundWords {
  const name = `${telling.exercise(one.exercise)}${sideOf(one.side)}`;
  switch (one.type) {
    case 'too-few':
      return { number: 'not enough yet', sentence: `${name}: ${tooFewText(one, 'day')}.` };
    case 'error-unknown':
      return {
        number: countOf(one.days, 'day'),
        sentence: `${name}: what measuring twice differs by is not known for this test, so no change is called real.`,
      };
    default: {
      const { first, last, by, mdc } = one.change;
      const more = `${degrees(Math.abs(by))} ${by < 0 ? 'less' : 'more'} than on ${dayText(first.day, telling.today)}`;
      const real =
        one.type === 'changed'
          ? `a real change (beyond ${degrees(mdc)})`
          : `within what measuring twice differs by (${degrees(mdc)})`;
      return {
        number: degrees(last.value),
        sentence: `${name}, ${dayText(last.day, telling.today)}: ${more}, ${real}.`,
      };
    }
  }
}

/** Returns first and last day of each test, with what a change must be beyond. */
export function measuresPictures({ found }: Answers, telling: Telling): readonly Picture[] {
  const told = found.flatMap((one) => (one.topic === 'measures' && 'change' in one ? [one] : []));
  if (told.length === 0) return [];
  return [
    {
      id: 'degrees',
      title: 'First and last day',
      as: 'rows',
      caption: 'degrees',
      measure: 'degrees',
      series: ['square', 'disc'],
      columns: [
        'Test',
        'First day',
        'First, degrees',
        'Last day',
        'Last, degrees',
        'Change, degrees',
        'Real beyond, degrees',
        'Trials, first and last',
      ],
      points: told.map(({ exercise, side, change: { first, last, by, mdc, trials } }) => {
        const name = `${telling.exercise(exercise)}${sideOf(side)}`;
        return {
          key: `${exercise} ${side ?? ''}`,
          name,
          beside: degrees(last.value),
          marks: [
            { series: 0, value: first.value, low: first.value - mdc, high: first.value + mdc },
            { series: 1, value: last.value },
          ],
          said: [
            `${name}: ${degrees(first.value)} on ${dayText(first.day, telling.today)}, ${degrees(last.value)} on ${dayText(last.day, telling.today)}`,
            `a change is real beyond ${degrees(mdc)}`,
          ],
          cells: [
            name,
            dayText(first.day, telling.today),
            tenths(first.value),
            dayText(last.day, telling.today),
            tenths(last.value),
            tenths(by).replace('-', '−'),
            tenths(mdc),
            trials.join(', '),
          ],
        };
      }),
      notes: ['Square with its range: the first day, and what measuring twice differs by. Disc: the last day.'],
    },
  ];
}

/** Returns how the weaker side of a skill learns. */
export function learningText(one: LearningFinding, telling: Telling): FoundWords {
  const where = `${telling.exercise(one.exercise)}, the ${SIDE[one.side]} is the weaker side (${percent(one.share)} good of late, the other ${percent(one.other)})`;
  return { number: `${percent(one.share)} good`, sentence: `${where}: ${curveText(one)}.` };
}

function curveText(one: LearningFinding): string {
  switch (one.type) {
    case 'curve':
      return `it gets better, and half of what is left is gained in about ${countOf(Math.max(1, Math.round(one.halfLife)), 'session')}`;
    case 'no-bend':
      return 'it gets better steadily; where that ends cannot be told yet';
    case 'no-improvement':
      return `over ${countOf(one.judged, 'session')} no more than chance would have it`;
    case 'too-few':
      return tooFewText(one, 'judged session');
  }
}

/** Returns the share of good ones on both sides of each skill, one judged session after the other. */
export function learningPictures({ others, found }: Answers, telling: Telling): readonly Picture[] {
  const ids = found.flatMap((one) => (one.topic === 'learning' ? [one.exercise] : []));
  return ids.flatMap((id): Picture[] => {
    const own = others.learning.find(({ exercise }) => exercise === id);
    if (!own) return [];
    const count = Math.max(...own.sides.map(({ attempts }) => attempts.length));
    const shareOf = (side: 'left' | 'right', n: number): number | undefined => {
      const value = own.sides.find((one) => one.side === side)?.attempts.find((one) => one.n === n)?.value;
      return value === undefined ? undefined : Math.round(value * 100);
    };
    return [
      {
        id,
        title: telling.exercise(id),
        as: 'counts',
        caption: 'good ones, %, by judged session',
        measure: 'good',
        series: ['disc', 'square'],
        columns: ['Judged session', 'Left, % good', 'Right, % good'],
        points: Array.from({ length: count }, (_, index) => {
          const n = index + 1;
          const shares = (['left', 'right'] as const).map((side) => shareOf(side, n));
          const [left, right] = shares;
          return {
            key: String(n),
            marks: shares.flatMap((value, series) => (value === undefined ? [] : [{ series, value }])),
            said: [`Session ${n}: left ${goodText(left)}, right ${goodText(right)}`],
            cells: [String(n), cellText(left), cellText(right)],
          };
        }),
        notes: ['Discs: left. Squares: right. Over all sessions in which each side was judged, whatever the window.'],
      },
    ];
  });
}

const goodText = (value: number | undefined): string => (value === undefined ? 'not judged' : `${value}\u00a0% good`);
const cellText = (value: number | undefined): string => (value === undefined ? '' : String(value));
