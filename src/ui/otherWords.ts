import { isHeadsUp } from '../analysis/findings';
import type { OtherAct } from '../analysis/otherActs';
import type { OtherFinding, Topic } from '../analysis/otherFindings';
import { type Day, dayOfWeek } from '../domain/day';

import { type DistanceUnit, fromKg, type LoadUnit, toMetres } from '../domain/units';
import { chanceText } from './barWords';
import { countOf, number } from './format';
import { heldBack } from './painWords';
import { dayText, TREND } from './trendWords';

/*
 * The words around the answers beside the trends: what topics are called, what each cannot tell, how sure a finding is and what to do next.
 */

/** What answers are told in and by: units, names, and the day they are read. */
export type Telling = {
  readonly unit: LoadUnit;
  readonly distance: DistanceUnit;
  readonly today: Day;
  readonly exercise: (id: string) => string;
  readonly cue: (id: string) => string;
};

/** What is found in words: one number, and a sentence. */
export type FoundWords = { readonly number: string; readonly sentence: string };

export const TOPIC: Readonly<Record<Topic, string>> = {
  pain: 'Pain',
  'came-in': 'How they came in',
  sides: 'Left and right',
  landings: 'Landings',
  cues: 'Cues',
  tonnage: 'Tonnage',
  sets: 'Hard sets by area',
  carries: 'Carries',
  time: 'Time under tension',
  volume: 'Relative volume',
  load: 'Whole-session load',
  measures: 'Range in degrees',
  learning: 'Learning of the weaker side',
};

/** What each cannot tell, in one sentence. */
export const LIMIT: Readonly<Record<Topic, string>> = {
  pain: 'What pain comes from is not for this app to say: a licensed practitioner is to be asked.',
  'came-in': 'How they came in never decides alone: it is a thing to talk about.',
  sides:
    'A difference is only told beyond the test’s own error and on two of three dates; no limit of 10 or 15 % is proven, and none foretells an injury.',
  landings:
    'Published ranges are a guide to plan by, without proof that they prevent injuries; good is what the coach saw.',
  cues: 'A cue is often given when a set goes badly, so sets with it and without it are not alike.',
  tonnage:
    'Kilograms times reps cannot be compared between exercises; a change of a third is often no more than habit.',
  sets: 'A direct set counts one, an indirect one half, and a set of one side half of that. They are no targets for one person.',
  carries: 'Load times distance is an index of what was carried, no work as physics has it, and no part of tonnage.',
  time: 'Only sets with a noted time or tempo are counted.',
  volume:
    'Each rep is weighed by its share of what could be lifted once: 8 reps at 75 % are 6. What could be lifted once is an estimate.',
  load: 'Load figures do not foretell injuries.',
  measures: 'Only the client’s own change is told, and never graded.',
  learning: 'A curve through what was judged: where it leads is not promised.',
};

export const OTHERS = {
  title: 'What else the records say',
  window: 'Charts and tables go back',
  windows: { '4': '4 weeks', '12': '12 weeks', all: 'all' },
  which: 'which one',
  sure: 'How sure',
  asTable: TREND.asTable,
  asChart: TREND.asChart,
  nothingIn: 'Nothing in this window: look further back.',
  notCharted: 'Nothing of it can be charted; the table has what is noted.',
  more: (count: number): string => countOf(count, 'more finding'),
  headsUp: 'Heads-up',
  goingWell: 'Going well',
  failed: 'This could not be worked out. What was logged is safe; open the page again to try once more.',
  none: 'Nothing noted yet that these could be worked out from.',
  own: 'Each is set against this client’s own past alone.',
} as const;

export const PICTURE = {
  how: {
    weeks: 'Weeks on the chart: step with the arrow keys',
    days: 'Days on the chart: step with the arrow keys',
    counts: 'Sessions on the chart: step with the arrow keys',
    rows: 'Lines of the chart: step with the arrow keys',
  },
  rows: { label: 'line by line', back: '‹ above', on: 'below ›' },
  weeks: { label: 'week by week', back: TREND.earlier, on: TREND.later },
  tableOf: (topic: string, title: string): string => `${topic}, ${title}, as a table`,
  least: 'Open bars: not over yet, or not all of it noted.',
  usual: 'Tint: where usual weeks lie, by the weeks before the last whole one.',
} as const;

/** Returns how far the working out is: `Working it out: 3 of 12 clients`. */
export const workingText = (told: { readonly done: number; readonly of: number } | undefined): string =>
  told && told.of > 1 ? `Working it out: ${told.done} of ${countOf(told.of, 'client')}` : 'Working it out';

/** Returns the line that names what nothing is noted of: `Not noted yet: landings, carries.` */
export const notNotedText = (topics: readonly Topic[]): string =>
  `Not noted yet: ${topics.map((topic) => TOPIC[topic].toLowerCase()).join(', ')}.`;

/** Returns kg in the unit they are told in, rounded to its tenths or, from a hundred on, to whole ones. */
export function inUnit(kg: number, { unit }: Pick<Telling, 'unit'>): number {
  const value = fromKg(kg, unit);
  // never −0, which would be told with its sign
  return (Math.abs(value) < 100 ? Math.round(value * 10) / 10 : Math.round(value)) + 0;
}

/** Returns kg as they are told: `1,440 kg`, `24.5 kg`. */
export const massText = (kg: number, telling: Pick<Telling, 'unit'>): string =>
  `${number(inUnit(kg, telling))}\u00a0${telling.unit}`;

/** Returns kg·m in the units they are told in, whole, and the name of that unit. */
export function carried(kgM: number, { unit, distance }: Pick<Telling, 'unit' | 'distance'>): number {
  return Math.round(fromKg(kgM, unit) / toMetres({ value: 1, unit: distance }));
}
export const carryUnit = ({ unit, distance }: Pick<Telling, 'unit' | 'distance'>): string => `${unit}·${distance}`;

/** Returns metres as they are told. */
export const metresIn = (metres: number, { distance }: Pick<Telling, 'distance'>): number =>
  Math.round(metres / toMetres({ value: 1, unit: distance }));

/** Returns a share in whole per cent: `55 %`. */
export const percent = (share: number): string => `${number(Math.round(share * 100))}\u00a0%`;

/** Returns a number to a tenth. */
export const tenths = (value: number): string => number(Math.round(value * 10) / 10 + 0);

/** Returns a change with its sign: `+120`, `−40`, `0`. */
export const signed = (value: number): string =>
  value > 0 ? `+${number(value)}` : value < 0 ? `−${number(-value)}` : '0';

/** Returns the week that begins on a day: `the week from 16 Nov`. */
export const weekText = (week: Day, today: Day): string => `the week from ${dayText(week, today)}`;

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Returns `1 was not judged`, `3 were not judged`. */
export const wereNot = (count: number, done: string): string =>
  `${number(count)} ${count === 1 ? 'was' : 'were'} not ${done}`;

/** Returns a finding that there is too little yet: `Not enough yet: has 3 weeks, needs 4.` */
export const tooFewText = ({ has, needs }: { readonly has: number; readonly needs: number }, noun: string): string =>
  `not enough yet (has ${countOf(has, noun)}, needs ${number(needs)})`;

const MORE: Readonly<Record<Extract<OtherAct, { type: 'log-more' }>['what'], string>> = {
  weeks: 'more week',
  days: 'more day',
  dates: 'more date with two trials of each side',
  trials: 'more trial of each side on one day',
  uses: 'more use of a cue with its answer',
  judged: 'more judged one',
  sessions: 'more session',
};

/** Returns what to do next; empty where things are to go on as they are. */
export function otherNextText(next: OtherAct, today: Day, topic?: Topic): string {
  switch (next.type) {
    case 'keep-on':
      return '';
    case 'look-into':
      return (topic && LOOK_INTO[topic]) ?? 'See what was different before the next one is planned.';
    case 'ask-the-client':
      return 'Ask the client about it before the next session.';
    case 'note-mass':
      return 'Note the body mass of these days, on this page.';
    case 'note-level':
      return 'Note how much landing the client is used to, on this page.';
    case 'try-another-cue':
      return 'Try another cue for the same fault.';
    case 'refer':
      return next.held ? `Refer: ${heldBack()}` : 'Refer: a licensed practitioner is to be asked.';
    case 'test-again':
      return next.on < today
        ? 'Test both sides again at the next session.'
        : `Test again on ${WEEKDAYS[dayOfWeek(next.on)]} ${dayText(next.on, today)}.`;
    case 'log-more':
      return `Log ${plural(next.count, MORE[next.what])}.`;
    case 'note-effort':
      return next.of === 'sets'
        ? 'Note how many reps were left, at least on the last set.'
        : 'Note the whole-session effort at the end, and the effort and hours of other work.';
    case 'note-sets':
      return `Note what is missing of ${countOf(next.count, 'set')}: load, reps, distance, time or tempo.`;
    case 'confirm-rest-days':
      return `${countOf(next.days.length, 'day')} of the week ${next.days.length === 1 ? 'has' : 'have'} no line: note what was done, or that it was a rest day.`;
  }
}

const LOOK_INTO: { readonly [T in Topic]?: string } = {
  landings: 'Watch that, and see whether height, step or cue should change.',
  sides: 'Watch both sides, and see what differs in how it is done.',
  measures: 'See what it is worked on with.',
  learning: 'See whether an easier step or another cue would do.',
};

const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** The first noun of several words takes the plural. */
function plural(count: number, words: string): string {
  if (count === 1) return `1 ${words}`;
  return `${number(count)} ${words.replace(/^(more )?(judged one|\w+)/, '$1$2s')}`;
}

/** Findings that are a chance and no count: what the chance is of. */
const CHANCE: Readonly<Record<string, (certainty: number) => string>> = {
  'came-in below': (chance) => `Of usual days ${chanceText(chance)} would not be told of by this rule.`,
  'tonnage above': (chance) => `Of usual weeks ${chanceText(chance)} would not be told of by this rule.`,
  'tonnage below': (chance) => `Of usual weeks ${chanceText(chance)} would not be told of by this rule.`,
  'measures changed': (chance) =>
    `In ${Math.round(chance * 100)} of 100 cases measuring twice is less apart than that.`,
  'cues best': (chance) => `${capital(chanceText(chance))} that it is the best of those used for that fault.`,
  'cues often': (chance) => `${capital(chanceText(chance))} that it is so in more than half of its uses.`,
  'cues seldom': (chance) => `${capital(chanceText(chance))} that it is so in fewer than half of its uses.`,
  'cues no-help': (chance) => `${capital(chanceText(chance))} that it does not help by a tenth or more.`,
  'landings weaker-side': (chance) => `${capital(chanceText(chance))} that this is so.`,
};
/** The most sessions that a finding names. */
const MOST_NAMED = 24;

/** Returns how sure a finding is and on how many sessions it rests. */
export function otherSureText({ topic, type, certainty, evidence }: OtherFinding): string {
  const chance = certainty === undefined ? undefined : CHANCE[`${topic} ${type}`]?.(certainty);
  const count =
    evidence.length >= MOST_NAMED ? `the last ${MOST_NAMED} sessions or more` : countOf(evidence.length, 'session');
  const isCount = certainty === 1 && topic !== 'volume' && !UNCOUNTED.includes(type);
  return [chance ?? (isCount ? 'Counted, no estimate.' : ''), evidence.length === 0 ? '' : `It rests on ${count}.`]
    .filter((text) => text !== '')
    .join(' ');
}
/** Of what is not known yet there is nothing to be sure of, and what is reckoned by an old mass is no count. */
const UNCOUNTED: readonly OtherFinding['type'][] = [
  'too-few',
  'error-unknown',
  'plain',
  'not-all',
  'partly-known',
  'untold',
  'stale-mass',
];

const GOOD: readonly string[] = ['sides closed', 'sides closing', 'cues best', 'cues often', 'learning curve'];

/** Returns what a finding is: worth a look, going well, or neither. Never told by colour alone. */
export function otherTone(one: OtherFinding): 'look' | 'good' | 'plain' {
  if (isHeadsUp(one)) return 'look';
  return GOOD.includes(`${one.topic} ${one.type}`) ? 'good' : 'plain';
}
