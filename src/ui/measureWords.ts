import type { Answers } from '../analysis/answers';
import type { LearningFinding, MeasuresFinding } from '../analysis/otherFindings';
import type { Measured } from '../analysis/realChange';
import { meanOf } from '../analysis/stats/spread';
import type { Day } from '../domain/day';
import type { Picture, PicturePoint } from './charts/picture';
import { countOf } from './format';
import { type FoundWords, percent, type Telling, tenths, tooFewText } from './otherWords';
import { SIDE } from './setWords';
import { dayText } from './trendWords';

/*
 * Degrees over time, and the learning of the weaker side, in words and pictures: the client's own change alone.
 */

/** The judged sessions that a side is told by of late. */
const LATE = 3;

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
        number: degrees(one.last.value),
        sentence: `${name}, ${dayText(one.last.day, telling.today)}, measured on ${countOf(one.days, 'day')}: how far measuring twice differs is not known for this test, so no change is called real.`,
      };
    default: {
      const { first, last, by, mdc } = one.change;
      const more = `${degrees(Math.abs(by))} ${by < 0 ? 'less' : 'more'} than on ${dayText(first.day, telling.today)}`;
      const real =
        one.type === 'changed'
          ? `a real change (beyond ${degrees(mdc)})`
          : `no further apart than measuring twice may be (${degrees(mdc)})`;
      return {
        number: degrees(last.value),
        sentence: `${name}, ${dayText(last.day, telling.today)}: ${more}, ${real}.`,
      };
    }
  }
}

/** Returns the key of the row of a test. */
export const rowOf = ({ exercise, side }: Pick<MeasuresFinding, 'side'> & { readonly exercise: string }): string =>
  `${exercise} ${side ?? ''}`;

const byText = (by: number): string => tenths(by).replace('-', '−');

const spanText = (name: string, first: Measured, last: Measured, telling: Telling): string =>
  `${name}: ${degrees(first.value)} on ${dayText(first.day, telling.today)}, ${degrees(last.value)} on ${dayText(last.day, telling.today)}`;

/** Returns first and last day of each test, with what a change must be beyond. */
export function measuresPictures({ found }: Answers, telling: Telling): readonly Picture[] {
  const told = found.flatMap((one) => (one.topic === 'measures' && one.type !== 'too-few' ? [one] : []));
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
      points: told.map((one): PicturePoint => {
        const name = `${telling.exercise(one.exercise)}${sideOf(one.side)}`;
        const day = (on: Day): string => dayText(on, telling.today);
        const row = { key: rowOf(one), name };
        if (one.type === 'error-unknown') {
          const { last, first } = one;
          return {
            ...row,
            beside: degrees(last.value),
            marks: [
              { series: 0, value: first.value },
              { series: 1, value: last.value },
            ],
            said: [spanText(name, first, last, telling), 'how far measuring twice differs is not known'],
            cells: [
              name,
              day(first.day),
              tenths(first.value),
              day(last.day),
              tenths(last.value),
              byText(last.value - first.value),
              '',
              '',
            ],
          };
        }
        const { first, last, by, mdc, trials } = one.change;
        return {
          ...row,
          beside: degrees(last.value),
          marks: [
            { series: 0, value: first.value, low: first.value - mdc, high: first.value + mdc },
            { series: 1, value: last.value },
          ],
          said: [spanText(name, first, last, telling), `a change is real beyond ${degrees(mdc)}`],
          cells: [
            name,
            day(first.day),
            tenths(first.value),
            day(last.day),
            tenths(last.value),
            byText(by),
            tenths(mdc),
            trials.join(', '),
          ],
        };
      }),
      notes: [
        'Square: the first day, with how far measuring twice may differ where that is known. Disc: the last day.',
      ],
    },
  ];
}

/** Returns how the weaker side of a skill learns. */
export function learningText(one: LearningFinding, telling: Telling): FoundWords {
  const where = `${telling.exercise(one.exercise)}, the ${SIDE[one.side]} is the weaker side (${percent(one.share)} good in its last three sessions, the other ${percent(one.other)})`;
  return { number: `${percent(one.share)} good`, sentence: `${where}: ${curveText(one)}.` };
}

function curveText(one: LearningFinding): string {
  switch (one.type) {
    case 'curve':
      return `it gets better; going on like this, about ${countOf(Math.max(1, Math.round(one.halfLife)), 'more session')} bring it half of the way it still has to go`;
    case 'no-bend':
      return 'it gets better steadily; where that ends cannot be told yet';
    case 'no-improvement':
      return `over ${countOf(one.judged, 'session')} it has grown no more than by chance`;
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
    const lateOf = (side: 'left' | 'right', n: number): number | undefined => {
      const upTo = own.sides.find((one) => one.side === side)?.attempts.filter((one) => one.n <= n) ?? [];
      const share = upTo.at(-1)?.n === n ? meanOf(upTo.slice(-LATE).map(({ value }) => value)) : undefined;
      return share === undefined ? undefined : Math.round(share * 100);
    };
    return [
      {
        id,
        title: telling.exercise(id),
        as: 'counts',
        caption: 'good ones, %, by judged session of each side',
        measure: 'good',
        series: ['disc', 'square'],
        columns: ['Judged session of that side', 'Left, % good', 'Right, % good'],
        points: Array.from({ length: count }, (_, index) => {
          const n = index + 1;
          const shares = (['left', 'right'] as const).map((side) => shareOf(side, n));
          const [left, right] = shares;
          return {
            key: String(n),
            marks: shares.flatMap((value, series) => (value === undefined ? [] : [{ series, value }])),
            said: [
              `The last three up to judged session ${n} of each side: left ${goodText(lateOf('left', n))}, right ${goodText(lateOf('right', n))}`,
              `session ${n} alone: left ${goodText(left)}, right ${goodText(right)}`,
            ],
            cells: [String(n), cellText(left), cellText(right)],
          };
        }),
        notes: [
          'Discs: left. Squares: right. Each side’s judged sessions are counted by themselves, over all there are, whatever the window.',
        ],
      },
    ];
  });
}

const goodText = (value: number | undefined): string => (value === undefined ? 'not yet' : `${value}\u00a0% good`);
const cellText = (value: number | undefined): string => (value === undefined ? '' : String(value));
