/*
 * The numbers of the trend engine, from the simulation study it was chosen by (our own; STATS.md §8). Capacity is counted in units u, of which
 * one is about one per cent: 100 ln kg for what is lifted once, 100 ln(1 + reps/30) for reps, degrees for degrees. Time is in weeks.
 */

/** What a trend is of: a lift's estimated 1RM in kg, reps in one set, or degrees of a range. */
export type TrendKind = 'e1rm' | 'reps' | 'deg';

export type TrendModel = {
  /** Spread of what is measured about the curve, u: four possible levels, of which the log shows the likelier ones. */
  readonly noise: Readonly<Record<TrendKind, readonly number[]>>;
  /** Time constant by which gains wear off while progressing, weeks. */
  readonly tau: number;
  /** Variances that a week adds to the level and to the slope. */
  readonly levelDrift: number;
  readonly slopeDrift: number;
  /** Hazard of a stall beginning, and of one ending, a week. */
  readonly toStall: number;
  readonly toProgress: number;
  /** Slopes, u a week: at the start, within a stall, and after one has ended. */
  readonly firstSlope: Spread;
  readonly stallSlope: Spread;
  readonly resumedSlope: Spread;
  /** How sure a history begins as progressing. */
  readonly firstProgress: number;
  readonly firstLevelSd: number;
  /** Spread of the personal curve of load against reps, as a share of the usual curve. */
  readonly repCurveSd: number;
  /** A bad day: how often, by how much, and how different bad days are. */
  readonly badDay: { readonly share: number; readonly shift: number; readonly sd: number };
  /** What a gap costs: for each day beyond the eighth, off the level and onto its SD. Beyond `mostDays` nothing more is lost. */
  readonly gap: { readonly days: number; readonly loss: number; readonly sd: number; readonly mostDays: number };
  /** How many hypotheses are kept for a level of noise. */
  readonly kept: number;
};

type Spread = { readonly mean: number; readonly sd: number };

export const MODEL: TrendModel = {
  noise: { e1rm: [0.9, 1.6, 2.6, 4], reps: [0.9, 1.5, 2.4, 3.6], deg: [1.6, 2.3, 3.1, 4.3] },
  tau: 30,
  levelDrift: 0.25 ** 2,
  slopeDrift: 0.05 ** 2,
  toStall: 0.08,
  toProgress: 0.05,
  firstSlope: { mean: 0.8, sd: 0.7 },
  stallSlope: { mean: 0, sd: 0.2 },
  resumedSlope: { mean: 0.6, sd: 0.4 },
  firstProgress: 0.85,
  firstLevelSd: 60,
  repCurveSd: 0.2,
  badDay: { share: 0.07, shift: -6.5, sd: 3 },
  gap: { days: 8, loss: 0.1, sd: 0.25, mostDays: 365 },
  kept: 3,
};

/** From when something is said: P(stall) of "stalled" and of "watch", and the least data. */
export const SAID = {
  stalled: 0.65,
  watch: 0.5,
  /** Exposures that were measured by, and the weeks between the first and the last of them, before a status is told. */
  fewest: 6,
  weeks: 2.5,
  /** Before a level is told. */
  fewestForLevel: 3,
} as const;

/** Returns a capacity in units u of one in kg, reps or degrees; a lift of 0 kg or less is −Infinity. */
export function toUnits(kind: TrendKind, value: number): number {
  return kind === 'deg' ? value : 100 * Math.log(Math.max(0, kind === 'e1rm' ? value : 1 + value / REPS_AT_ONCE));
}

/** Returns a capacity in kg, reps (never below 0) or degrees of one in units u. */
export function fromUnits(kind: TrendKind, units: number): number {
  if (kind === 'deg') return units;
  return kind === 'e1rm' ? Math.exp(units / 100) : Math.max(0, REPS_AT_ONCE * (Math.exp(units / 100) - 1));
}

/** Reps stand for strength as a load does: so many reps are as much again. */
export const REPS_AT_ONCE = 30;
