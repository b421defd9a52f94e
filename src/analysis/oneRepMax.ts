import { ok, type Result } from '../domain/result';
import { MOST_REPS, type NoEstimate, outOf, repsInAll, type SetDone } from './repMax';

/*
 * The estimate of what could be lifted once that single sets in lists are shown with: the mean of two published formulas (Epley 1985, Brzycki 1993;
 * averaging two is supported by Mayhew 1995, J Sports Med Phys Fitness 35:108), over repetitions done and left. How sure it is is our own model,
 * fitted to published errors of called repetitions (Zourdos 2021; Hackett 2017) and of such formulas (Reynolds 2006; Kravitz 2003; Hutchins &
 * Gearhart 2010).
 */

export type OneRepMax = {
  /** In the unit of the load. */
  readonly value: number;
  /** Repetitions done and left, 1–15. */
  readonly reps: number;
  /** Above 12 repetitions. */
  readonly rough: boolean;
  /** Relative SD among sets of one athlete on one lift (what the formulas get wrong there is always the same): for what changes. */
  readonly within: number;
  /** Relative SD against what would truly be lifted once: for loads that are set by it. */
  readonly total: number;
};

/** From one day to another, as a share, where the athlete's own is not known. */
const USUAL_DAY_CV = 0.03;
const ROUGH_ABOVE = 12;

/**
 * Returns what could be lifted once and how sure that is; `dayCv` is the athlete's own day-to-day variation as a share (0–1). Valid up to 12
 * repetitions, rough to 15; fails above, and where load or repetitions are none.
 * @example oneRepMax({ load: 60, reps: 8, left: 2 }) // ok({ value: 80, reps: 10, rough: false, within: 0.0454…, total: 0.0721… })
 */
export function oneRepMax(set: SetDone, { dayCv = USUAL_DAY_CV } = {}): Result<OneRepMax, NoEstimate> {
  const counted = repsInAll(set);
  if (!counted.ok) return counted;
  if (!(dayCv >= 0 && dayCv <= 1)) return outOf('dayCv');
  const reps = counted.value;
  const value = set.load * ratioAt(reps);
  if (!Number.isFinite(value)) return outOf('load');
  const within = Math.hypot(steepness(reps) * leftSd(set.left ?? 0, reps), dayCv);
  return ok({ value, reps, rough: reps > ROUGH_ABOVE, within, total: Math.hypot(within, formulaSd(reps)) });
}

/**
 * Returns the load for so many repetitions at an effort (RPE 5–10), as a share of what can be lifted once, 0–1; `rough` above 12 repetitions done
 * and left. Fails above 15 of them, and below RPE 5, where nobody can tell.
 */
export function shareOfMax(
  reps: number,
  rpe: number,
): Result<{ readonly share: number; readonly rough: boolean }, NoEstimate> {
  const left = leftAt(rpe);
  if (!left.ok) return left;
  const counted = repsInAll({ load: 1, reps, left: left.value });
  if (!counted.ok) return counted;
  return ok({ share: 1 / ratioAt(counted.value), rough: counted.value > ROUGH_ABOVE });
}

const RPE_OF_NONE_LEFT = 10;
const LOWEST_RPE = 5;

/** Returns the repetitions left at an effort on the scale that counts them (RPE 10 is none); fails below RPE 5, where nobody can tell. */
export function leftAt(rpe: number): Result<number, NoEstimate> {
  return rpe >= LOWEST_RPE && rpe <= RPE_OF_NONE_LEFT ? ok(RPE_OF_NONE_LEFT - rpe) : outOf('rpe');
}

/**
 * Returns how many times the load of `n` repetitions (done and left, 1–15) could be lifted once: 1 for one repetition, and between 1 and 2 the line
 * from one to the other. Fails out of 1–15.
 */
export function repRatio(n: number): Result<number, NoEstimate> {
  return n >= 1 && n <= MOST_REPS ? ok(ratioAt(n)) : outOf('repsAndLeft');
}

function ratioAt(n: number): number {
  return n >= 2 ? (36 / (37 - n) + 1 + n / 30) / 2 : 1 + (n - 1) * (ratioAt(2) - 1);
}

/** By how much of itself the estimate grows with a repetition. */
function steepness(n: number): number {
  return (n >= 2 ? (1 / 30 + 36 / (37 - n) ** 2) / 2 : ratioAt(2) - 1) / ratioAt(n);
}

/** How far a called number of repetitions left is off, in repetitions. */
function leftSd(left: number, n: number): number {
  return (0.5 + 0.3 * left) * (n > ROUGH_ABOVE ? 1.75 : 1);
}

/** What the formulas are off by for one athlete on one lift. */
function formulaSd(n: number): number {
  return n === 1 ? 0 : 0.02 + 0.004 * (n - 1);
}
