import type { Judgement } from '../../src/analysis/trend';
import { type Covered, coverage, type Foretold, foretelling, type Judged } from './promise';
import type { History } from './world';

/*
 * How well judgements tell the truth of histories: when they call a stall, what their bands hold, and what their chances are worth.
 */

/** Whether a stall is called after an exposure. */
export type Flag = (answer: Judgement) => boolean;

/** "stalled", and "stalled" or "watch". */
export const isStalled: Flag = ({ status }) => status === 'stalled';
export const isWatched: Flag = ({ status }) => status === 'stalled' || status === 'watch';

/** A share with what it is a share of; no share of nothing. */
export type Share = { readonly share: number | undefined; readonly of: number };

export type StallScore = {
  /** Of stretches of 8 weeks of progress, those with a call. */
  readonly falseAlarms: Share;
  /** Of plateaus that last so many weeks, those called within them; by weeks. */
  readonly detected: Readonly<Record<Weeks, Share>>;
  /** The same of those that were not called already just before the plateau. */
  readonly detectedAnew: Readonly<Record<Weeks, Share>>;
  /** Weeks to the first call, in the middle of all plateaus of 6 weeks and more; infinite where most are never called. */
  readonly delay: number | undefined;
};

export const WEEKS = [2, 3, 4, 6] as const;
export type Weeks = (typeof WEEKS)[number];

export type Score = {
  readonly histories: number;
  readonly stalled: StallScore;
  readonly watch: StallScore;
  /** Of all exposures, those after which there is not enough data. */
  readonly none: number;
  /** By `now`, `2`, `4` and `8` weeks ahead. */
  readonly bands: Readonly<Record<string, Covered>>;
  readonly hits: Foretold | undefined;
};

/** Returns everything the bars are about. */
export function score(judged: readonly Judged[]): Score {
  const answers = judged.flatMap((each) => each.answers);
  return {
    histories: judged.length,
    stalled: stallScore(judged, isStalled),
    watch: stallScore(judged, isWatched),
    none: answers.filter(({ status }) => status === 'none').length / answers.length,
    bands: coverage(judged),
    hits: foretelling(judged),
  };
}

/** Returns when a flag is raised, rightly and wrongly. */
export function stallScore(judged: readonly Judged[], flag: Flag): StallScore {
  const called = judged.map(({ history, answers }) => ({ history, calls: answers.map(flag) }));
  const alarms = called.flatMap(falseAlarms);
  const plateaus = called.flatMap(plateauOf);
  const within = (weeks: Weeks, among: readonly Plateau[]): Share =>
    shareOf(among.filter(({ lasts }) => lasts >= 7 * weeks).map(({ after }) => after <= 7 * weeks));
  const byWeeks = (among: readonly Plateau[]): Record<Weeks, Share> => ({
    2: within(2, among),
    3: within(3, among),
    4: within(4, among),
    6: within(6, among),
  });
  const delays = plateaus.filter(({ lasts }) => lasts >= 42).map(({ after }) => after);
  const middle = delays.toSorted((a, b) => a - b)[Math.floor(delays.length / 2)];
  return {
    falseAlarms: shareOf(alarms),
    detected: byWeeks(plateaus),
    detectedAnew: byWeeks(plateaus.filter(({ wasCalled }) => !wasCalled)),
    delay: middle === undefined ? undefined : middle / 7,
  };
}

function shareOf(each: readonly boolean[]): Share {
  return { share: each.length === 0 ? undefined : each.filter(Boolean).length / each.length, of: each.length };
}

type Called = { readonly history: History; readonly calls: readonly boolean[] };

const WINDOW = 56;

/** Whether there was a call in each stretch of 56 days that all progress and hold 6 exposures; one begins where another ended. */
function falseAlarms({ history, calls }: Called): boolean[] {
  const { state } = history.truth;
  const alarms: boolean[] = [];
  let run = 0;
  for (let day = 0; day < state.length; day += 1) {
    run = state[day] === 'P' ? run + 1 : 0;
    if (run < WINDOW) continue;
    run = 0;
    const within = calls.filter((_, n) => {
      const held = history.exposures[n]!.day;
      return held > day - WINDOW && held <= day;
    });
    if (within.length >= 6) alarms.push(within.includes(true));
  }
  return alarms;
}

type Plateau = {
  /** Days that it lasts, as far as is known, and days to the first call in it (infinite for none). */
  readonly lasts: number;
  readonly after: number;
  readonly wasCalled: boolean;
};

/** The plateau of a history, if 3 weeks of progress and 6 exposures came before it. */
function plateauOf({ history, calls }: Called): Plateau[] {
  const { plateau_day: begins, state } = history.truth;
  if (begins === null || begins < 21) return [];
  if (state.slice(begins - 21, begins) !== 'P'.repeat(21)) return [];
  const before = history.exposures.filter(({ day }) => day < begins).length;
  if (before < 6) return [];
  let ends = begins;
  while (state[ends] === 'S') ends += 1;
  const first = history.exposures.find(({ day }, n) => day > begins && calls[n]);
  return [
    {
      lasts: ends - begins,
      after: first ? first.day - begins : Number.POSITIVE_INFINITY,
      wasCalled: calls[before - 1] ?? false,
    },
  ];
}
