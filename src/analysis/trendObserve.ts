import { REPS_AT_ONCE, type TrendKind, toUnits } from './trendModel';

/*
 * What one session tells of a capacity: all working sets weighed together, each corrected for the sets before it (our own simulation study,
 * STATS.md §6–§8: the mean of all sets errs by 1.4 % where the best set errs by 2.4 %).
 */

/** A set as the engine takes it: kg (0 where reps are counted), reps made, reps in reserve. */
export type TrendSet = {
  readonly load: number;
  readonly reps: number;
  readonly rir: number;
  /** The reserve is the least it can have been: "4 or more left". */
  readonly atLeast?: boolean;
  /** Spread of the reserve beyond that of a reserve that was told, reps; where nobody told it. */
  readonly unsure?: number;
};

/** One session of one exercise and side. `day` is counted from any origin; sets with a load are of a lift, `value` is in degrees. */
export type TrendExposure = {
  readonly day: number;
  /** A week that was planned lighter: it tells nothing of what could be done. */
  readonly deload: boolean;
} & ({ readonly sets: readonly TrendSet[] } | { readonly value: number });

/** A session as measured: `y` in units u, `h` what the personal rep curve does to it, `v` the variance of `y`. */
export type Observation = {
  readonly y: number;
  readonly h: number;
  readonly v: number;
  /** `lower`: the capacity was at least that. `none`: the session is not measured by. */
  readonly use: 'measured' | 'lower' | 'none';
};

/** A reserve from here on is told as "at least": nobody can count it. */
const UNCOUNTED = 4.5;
/** What the sets before take off each set, reps. */
const FATIGUE = { e1rm: 0.4, reps: 0.7 } as const;
/** Spread of what a set's reserve was told as, reps. */
const REPS_SD = 0.9;
/** The load of one rep is more than that of n by 1 + (n − 1)/28. */
export const REP_CURVE = 28;
const DEGREES_VARIANCE = 0.09;
const NOTHING: Observation = { y: 0, h: 0, v: 1, use: 'none' };

/** Returns a session as the engine measures it; `none` where it was planned lighter or no set of it tells anything. */
export function observe(kind: TrendKind, exposure: TrendExposure): Observation {
  if (exposure.deload) return NOTHING;
  if (kind === 'deg') {
    const told = 'value' in exposure && Math.abs(exposure.value) <= MOST.degrees;
    return told ? { y: exposure.value, h: 0, v: DEGREES_VARIANCE, use: 'measured' } : NOTHING;
  }
  // degrees tell nothing of a lift
  if (!('sets' in exposure)) return NOTHING;
  let [weights, sum, mostReps, isLower] = [0, 0, 0, true];
  for (const [before, set] of exposure.sets.entries()) {
    if (!tells(kind, set)) continue;
    const { y, v } = measured(kind, set, before);
    weights += 1 / v;
    sum += y / v;
    mostReps = Math.max(mostReps, set.reps);
    isLower &&= set.atLeast ?? set.rir >= UNCOUNTED;
  }
  if (weights === 0) return NOTHING;
  // the reps that were asked for, never what was told as left: a low reserve is had on bad days
  const asked = mostReps + 2;
  const h = kind === 'e1rm' ? (100 * (asked - 1)) / (REP_CURVE - 1 + asked) : 0;
  return { y: sum / weights, h, v: 1 / weights, use: isLower ? 'lower' : 'measured' };
}

/** What is beyond any body is a slip: it tells nothing, and no sum with it can overflow. */
const MOST = { kg: 1e5, reps: 1e4, degrees: 1e4 } as const;
const LEAST_KG = 1e-3;

const tells = (kind: TrendKind, { load, reps, rir }: TrendSet): boolean =>
  reps >= 0 &&
  reps <= MOST.reps &&
  Math.abs(rir) <= MOST.reps &&
  (kind === 'reps' || (load >= LEAST_KG && load <= MOST.kg && reps > 0));

function measured(kind: 'e1rm' | 'reps', set: TrendSet, before: number): { readonly y: number; readonly v: number } {
  // at the end of what could be done, half a rep more was there on average
  const half = !set.atLeast && (kind === 'reps' || set.rir === 0) ? 0.5 : 0;
  const n = Math.max(1, set.reps + set.rir + FATIGUE[kind] * before + half);
  const y = kind === 'e1rm' ? toUnits(kind, set.load * (1 + (n - 1) / REP_CURVE)) : toUnits(kind, n);
  // how much a rep more or less is worth here
  const gain = kind === 'e1rm' ? 100 / (REP_CURVE - 1 + n) : 100 / (REPS_AT_ONCE + n);
  return { y, v: gain ** 2 * (REPS_SD ** 2 + (set.unsure ?? 0) ** 2) };
}
