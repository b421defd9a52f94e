import { fail, ok, type Result } from '../domain/result';

/*
 * The published formulas by which a load lifted so many times tells what could be lifted once, for comparing. Where the app estimates, it uses
 * oneRepMax.ts. Each is for sets to failure; repetitions left are added to those done.
 */

const RATIOS = {
  /** Epley 1985. */
  epley: (n: number): number => 1 + n / 30,
  /** Brzycki 1993. */
  brzycki: (n: number): number => 36 / (37 - n),
  /** Lander 1985. */
  lander: (n: number): number => 100 / (101.3 - 2.67123 * n),
  /** Lombardi 1989. */
  lombardi: (n: number): number => n ** 0.1,
  /** Mayhew 1992. */
  mayhew: (n: number): number => 100 / (52.2 + 41.9 * Math.exp(-0.055 * n)),
  /** O'Conner 1989. */
  oconner: (n: number): number => 1 + 0.025 * n,
  /** Wathan 1994. */
  wathan: (n: number): number => 100 / (48.8 + 53.8 * Math.exp(-0.075 * n)),
} as const;

export type RepMaxFormula = keyof typeof RATIOS;

/** A set: its load in any unit (with one's own body: the system load), whole repetitions done, and how many more could have been. */
export type SetDone = { readonly load: number; readonly reps: number; readonly left?: number };

/** Why there is no estimate: what is not within the bounds. `repsAndLeft` is the sum of the two, and `dayCv` that of oneRepMax.ts. */
export type NoEstimate = {
  readonly type: 'out-of-range';
  readonly field: 'load' | 'reps' | 'left' | 'repsAndLeft' | 'rpe' | 'dayCv';
};

/** Two of the formulas have no value at 37 repetitions, and all seven are far apart long before. */
export const MOST_REPS = 15;
const ROUGH_ABOVE = 10;

/**
 * Returns what could be lifted once by a formula, in the unit of the load; `rough` above 10 repetitions. One repetition is the load itself, whatever
 * the formula says of it; between 1 and 2 (half a repetition left) it is the line from one to the other, our own choice. Fails above 15 repetitions
 * and where load or repetitions are none.
 * @example repMax('epley', { load: 60, reps: 8 }) // ok({ value: 76, rough: false })
 */
export function repMax(
  formula: RepMaxFormula,
  set: SetDone,
): Result<{ readonly value: number; readonly rough: boolean }, NoEstimate> {
  const counted = repsInAll(set);
  if (!counted.ok) return counted;
  const n = counted.value;
  const value = set.load * (n >= 2 ? RATIOS[formula](n) : 1 + (n - 1) * (RATIOS[formula](2) - 1));
  return Number.isFinite(value) ? ok({ value, rough: n > ROUGH_ABOVE }) : outOf('load');
}

/** Returns the repetitions done and left together, from 1 to 15; fails where the set makes no estimate. */
export function repsInAll({ load, reps, left = 0 }: SetDone): Result<number, NoEstimate> {
  if (!(load > 0 && Number.isFinite(load))) return outOf('load');
  if (!(reps >= 1 && Number.isInteger(reps))) return outOf('reps');
  if (!(left >= 0)) return outOf('left');
  const n = reps + left;
  return n <= MOST_REPS ? ok(n) : outOf('repsAndLeft');
}

/** Returns the failure that names what is out of its bounds. */
export function outOf(field: NoEstimate['field']): Result<never, NoEstimate> {
  return fail({ type: 'out-of-range', field });
}
