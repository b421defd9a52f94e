import { type Day, noonOf } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import type { Top } from '../domain/exposure';
import type { SetRecord, Side } from '../domain/set';
import { type CueTally, FEWEST_USES, type Form } from './charts/cueCounts';
import type { ChartWords } from './charts/layout';
import type { Compared, Story } from './charts/story';
import type { DayTick } from './charts/ticks';
import type { Frame, Held, Span, Visit } from './charts/visits';
import { countOf, dayShort, number } from './format';
import { heldText } from './sentence';
import { effortText, SIDE } from './setWords';

/*
 * Every English word of the trend sheet and its chart.
 */

export const TREND = {
  missing: 'An exercise that is not in this library',
  missingWhy: 'What was logged of it is kept. Without the exercise nobody can say what its numbers are.',
  reading: 'Reading…',
  none: 'No session of this exercise yet.',
  earlier: '‹ earlier',
  later: 'later ›',
  asTable: 'As a table',
  more: { right: 'More to the right ›', left: '‹ more to the left' },
  asChart: 'As a chart',
  choose: 'what is shown',
  shows: 'what the chart shows',
  step: 'session by session',
  stepHow: 'Sessions on the chart: step with the arrow keys',
  ring: 'Ring: pain was noted.',
  dotted: 'Dotted: more than 8 weeks apart.',
  cues: 'What the cues did',
  cueMissing: 'A cue that is not in this library',
  cueCaution: 'A cue is often given when a set goes badly, so sets with it and without it are not alike.',
  lastTime: 'last time',
  thisTime: 'this time',
} as const;

export const SPAN: Readonly<Record<Span, string>> = { weeks: '8 weeks', months: '6 months', all: 'all' };
const SPAN_SINCE: Readonly<Record<Span, string>> = {
  weeks: 'in the last 8 weeks',
  months: 'in the last 6 months',
  all: 'yet',
};

export const COLUMNS = {
  day: 'Day',
  side: 'Side',
  held: 'Held',
  measured: 'That day',
  could: 'So far',
  effort: 'Effort',
  good: 'Good',
  pain: 'Pain',
} as const;

const withYear = new Intl.DateTimeFormat(undefined, {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
});
const month = new Intl.DateTimeFormat(undefined, { month: 'short', timeZone: 'UTC' });
const monthOfYear = new Intl.DateTimeFormat(undefined, { month: 'short', year: 'numeric', timeZone: 'UTC' });

/** Returns a day as `24 Nov`, with its year where that is not today's. */
export const dayText = (day: Day, today: Day): string =>
  day.slice(0, 4) === today.slice(0, 4) ? dayShort(day) : withYear.format(noonOf(day));

/** Returns the label of a day on the axis: `24 Nov`, `Nov`, the first month of a year with it, or a year alone. */
export function dayTickText({ day, as }: DayTick): string {
  if (as === 'year') return String(Number(day.slice(0, 4)));
  if (as === 'day') return dayShort(day);
  return (day.slice(5, 7) === '01' ? monthOfYear : month).format(noonOf(day));
}

/** Returns what the numbers of the chart are, in a few words: `load, kg`. */
export function captionText({ measure, unit }: Frame, exercise: Exercise, lowest: number): string {
  switch (measure) {
    case 'load':
      return `${exercise.perHand ? 'load in each hand' : 'load'}, ${unit}`;
    case 'added':
      return lowest < 0 ? `load added, ${unit}; below 0 taken off` : `load added, ${unit}`;
    case 'good':
      return exercise.holds === 'tries' ? 'good tries, %' : 'good landings, %';
    default:
      return measure;
  }
}

/** Returns a number on the axis: `57.5`, `+5`, `−10`, `40°`, `75 %`. */
export function valueText(value: number, { measure }: Pick<Frame, 'measure'>): string {
  const text = value < 0 ? `−${number(-value)}` : number(value);
  if (measure === 'good') return `${text} %`;
  if (measure === 'degrees') return `${text}°`;
  return measure === 'added' && value > 0 ? `+${text}` : text;
}

/** Returns what stands for a side in one session: `57.5 kg × 5`, `135 lb × 5 (61.2 kg)`, `8 landings, 7 of 8 good`. */
export function heldWords(held: Held, exercise: Exercise, frame: Frame): string {
  const { top } = held;
  const counted = exercise.holds === 'landings' || exercise.holds === 'tries';
  const total = top.landings ?? top.tries;
  const said = counted && total === undefined ? [] : [heldText(asSet(top), exercise)];
  if (held.converted && held.value !== undefined) said[0] = `${said[0]} (${convertedText(held.value, frame)})`;
  if (top.good !== undefined) said.push(goodText(top));
  return together(said.join(', ')) || 'not noted';
}

/** A number and its unit stay in one line. */
export const together = (text: string): string => text.replace(/(?<=\d) (?=kg|lb|×|%)|(?<=×) (?=\d)/g, '\u00a0');

/** A top is worded as the set it was. */
const asSet = (top: Top): SetRecord => ({ ...top, id: '', parts: [], cues: [], marks: [], faults: [], unread: [] });

/** A converted load is told to a tenth: nobody loaded it. */
const convertedText = (value: number, frame: Frame): string =>
  `${valueText(Math.round(value * 10) / 10, frame)} ${frame.unit}`;

const goodText = (top: Top): string => `${top.good} of ${top.of} good`;

/** Returns the table's cell of how many were good: `7 of 8 (87.5 %)`; empty where none was judged. */
export function goodCell({ top, value }: Held, { measure }: Frame): string {
  if (top.good === undefined || top.of === undefined) return '';
  const share = measure === 'good' && value !== undefined ? ` (${number(Math.round(value * 10) / 10)} %)` : '';
  return together(`${top.good} of ${top.of}${share}`);
}

export const effortCell = (top: Top): string => (top.effort ? effortText(top.effort) : '');
export const sideText = (side: Side | undefined): string => (side ? SIDE[side] : 'both');
export const painText = (pain: number): string => `${pain} of 10`;
export const NOTHING_HELD = 'no set made';

/** Returns one session: `18 Nov: 57.5 kg × 5, 2 left; pain 3 of 10`, or a line for its day and one for each side. */
export function visitLines(visit: Visit, exercise: Exercise, frame: Frame, today: Day): readonly string[] {
  const day = dayText(visit.day, today);
  const pain = visit.pain === undefined ? [] : [`pain ${painText(visit.pain)}`];
  const held = visit.held.map((one) => {
    const said = [`${sideWord(one.top.side)}${heldWords(one, exercise, frame)}`, effortCell(one.top)];
    return said.filter((text) => text !== '').join(', ');
  });
  if (visit.held.some(({ top }) => top.side)) return [[day, ...pain].join(', '), ...held];
  return [`${day}: ${[...held, ...pain].join('; ')}`];
}

export const sideWord = (side: Side | undefined): string => (side ? `${SIDE[side]} ` : '');

/** Returns the sentence above the chart: `Last time 57.5 kg × 5 on 18 Nov; 5 kg more than on 30 Sep.` */
export function storyText(story: Story, exercise: Exercise, frame: Frame, today: Day): string {
  switch (story.type) {
    case 'first':
      return 'First session: nothing to compare with yet.';
    case 'nothing-charted':
      return exercise.holds === 'tick'
        ? 'Ticked off when done: there are no numbers to chart.'
        : 'No numbers were noted before that a chart could show.';
    case 'this':
    case 'last': {
      const isThis = story.type === 'this';
      const held = bySide(story.sides.map((one) => [one.side, heldWords(one.held, exercise, frame)]));
      const when = isThis ? '' : ` on ${dayText(story.visit.day, today)}`;
      const apart = story.sides.map((one) => apartWords(one, isThis, exercise, frame, today));
      return together(`${isThis ? 'This time' : 'Last time'} ${held}${when}; ${joined(story.sides, apart)}.`);
    }
  }
}

/** What is said of each side; once where it is the same of both. */
function bySide(said: readonly (readonly [side: Side | undefined, text: string])[]): string {
  const [first] = said;
  if (first && said.length > 1 && said.every(([, text]) => text === first[1])) return `each side ${first[1]}`;
  return said.map(([side, text]) => `${sideWord(side)}${text}`).join(', ');
}

/** How far apart two numbers are (`5 kg more`), and from what (`than on 30 Sep`). */
type Apart = { readonly what: string; readonly from: string };

/** `left 1 kg more, right 2 kg more than on 28 May`: from what is said once where it is the same. */
function joined(sides: readonly Compared[], apart: readonly Apart[]): string {
  const [first] = apart;
  const pairs = (text: (one: Apart) => string): string =>
    bySide(apart.map((one, index) => [sides[index]?.side, text(one)]));
  if (!first || apart.some((one) => one.from !== first.from)) return pairs(({ what, from }) => `${what}${from}`);
  return `${pairs(({ what }) => what)}${first.from}`;
}

function apartWords({ held, against }: Compared, isThis: boolean, exercise: Exercise, frame: Frame, today: Day): Apart {
  if (!against) return { what: 'that is the first time: nothing to compare with yet', from: '' };
  const then = `${isThis ? 'last time, ' : ''}on ${dayText(against.visit.day, today)}`;
  if (frame.measure === 'good') return { what: goodText(against.held.top), from: ` ${then}` };
  const apart = (held.value ?? 0) - (against.held.value ?? 0);
  const parts = held.converted || against.held.converted ? 10 : 1000;
  const [what, joint] = apartText(Math.round(apart * parts) / parts, held, exercise, frame);
  // where the reps differ too, more or less load alone would not be the whole of it
  const alike = held.top.reps === against.held.top.reps || frame.measure === 'reps';
  return { what, from: ` ${joint} ${then}${alike ? '' : ` (${heldWords(against.held, exercise, frame)})`}` };
}

function apartText(
  apart: number,
  { value = 0 }: Held,
  exercise: Exercise,
  { measure, unit }: Frame,
): readonly [what: string, joint: 'than' | 'as'] {
  const size = Math.abs(apart);
  const more = apart > 0 ? 'more' : 'less';
  if (apart === 0) return [SAME[measure], 'as'];
  switch (measure) {
    case 'load':
      return [`${exercise.perHand ? '2 × ' : ''}${number(size)} ${unit} ${more}`, 'than'];
    case 'added': {
      // from −20 to −10: both ends of the change are help
      const isHelp = value <= 0 && value - apart <= 0;
      return [`${number(size)} ${unit} ${isHelp ? `${apart > 0 ? 'less' : 'more'} help` : more}`, 'than'];
    }
    case 'seconds':
      return [`${number(size)} s ${apart > 0 ? 'longer' : 'shorter'}`, 'than'];
    case 'degrees':
      return [`${number(size)}° ${more}`, 'than'];
    case 'pin':
      return [`${countOf(size, 'pin')} ${apart > 0 ? 'higher' : 'lower'}`, 'than'];
    default:
      return [`${countOf(size, 'rep')} ${apart > 0 ? 'more' : 'fewer'}`, 'than'];
  }
}

const SAME: Readonly<Record<Frame['measure'], string>> = {
  load: 'the same load',
  added: 'the same load',
  reps: 'as many reps',
  seconds: 'as long',
  degrees: 'as many degrees',
  pin: 'the same pin',
  good: 'as many good',
};

/** Returns why no chart is there: `Nothing to chart in the last 8 weeks.` */
export const nothingText = (span: Span): string => `Nothing to chart ${SPAN_SINCE[span]}.`;

/** Returns what is said of loads of the other unit. */
export const mixedText = ({ unit }: Frame): string =>
  `Loads logged in ${unit === 'kg' ? 'lb' : 'kg'} are shown in ${unit}.`;

/** Returns from when sets are counted for the cues: `sets since 30 Sep`. */
export const cuesSince = (day: Day, today: Day): string => `sets since ${dayText(day, today)}`;

/** Returns what a cue did, in lines; how often alone where that is too seldom. */
export function cueLines(tally: CueTally): readonly string[] {
  const { given, better, same, worse } = tally;
  if (given < FEWEST_USES) return [`too few to tell (${given})`];
  const open = given - better - same - worse;
  const told = `better on ${better} of ${given}, same on ${same}, worse on ${worse}`;
  return [`${told}${open > 0 ? `, not noted on ${open}` : ''}`, formText(tally.with, tally.without)];
}

function formText(own: Form, others: Form): string {
  if (own.noted === 0) return 'form not noted on sets with it';
  const without = others.noted === 0 ? 'not noted on any without' : `on ${others.clean} of ${others.noted} without`;
  return `clean form on ${own.clean} of ${countOf(own.noted, 'set')} with it, ${without}`;
}

/** Returns the words of the chart. */
export function chartWords(
  frame: Frame,
  caption: string,
  sides: readonly (Side | undefined)[],
  marks: ChartWords['marks'],
): ChartWords {
  return {
    caption,
    value: (value) => valueText(value, frame),
    day: dayTickText,
    side: (side) => (side === undefined && sides.length === 1 ? '' : sideText(side)),
    marks,
  };
}
