import { fail, ok, type Result } from '../../domain/result';

/*
 * The Kalman filter of a level that wanders, and of a level with a slope that wanders (Durbin & Koopman, Time Series Analysis by State Space
 * Methods, chapters 2 and 5). Nothing is assumed before the first observation: the level is known from the first one on, a slope from the second
 * on another day, exactly and without a large number standing for "unknown". Days without an observation are steps like others.
 */

/** A value with the variance of its error; `at` counts whole steps (days) from any origin. */
export type Observation = { readonly at: number; readonly value: number; readonly variance: number };

/** Variances that one step adds. */
export type Wander = { readonly level: number; readonly slope: number };

/** What is believed of an observation before it is seen; none of the first, nor of others while the slope they need is unknown. */
export type Expected = {
  readonly level: number;
  readonly levelVariance: number;
  /** What was observed less what was expected, and the variance of that. */
  readonly error: number;
  readonly errorVariance: number;
  /** The share of the error that the level takes on. */
  readonly gain: number;
};

/** What is known at an observation, itself included. */
export type Filtered = {
  readonly at: number;
  readonly level: number;
  readonly levelVariance: number;
  /** By step, its variance, and how it varies with the level; undefined before two observations with a step between. */
  readonly slope?: { readonly value: number; readonly variance: number; readonly covariance: number };
  readonly expected?: Expected;
};

export type Ahead = { readonly level: number; readonly variance: number };

export type NotFiltered =
  | { readonly type: 'too-few'; readonly needs: number; readonly has: number }
  | { readonly type: 'not-in-order' }
  /** A step that is not whole, a variance that is none, or numbers too huge to be reckoned with. */
  | { readonly type: 'out-of-range' };

/** Returns what is known at each observation of a level that wanders without a slope; fails for no observation, and those that cannot be used. */
export function localLevel(
  observations: readonly Observation[],
  wander: Pick<Wander, 'level'>,
): Result<readonly Filtered[], NotFiltered> {
  return filter(observations, { level: wander.level, slope: 0 }, KNOWN_FLAT);
}

/** Returns what is known at each observation of a level and its slope; fails for no observation, and those that cannot be used. */
export function localTrend(
  observations: readonly Observation[],
  wander: Wander,
): Result<readonly Filtered[], NotFiltered> {
  return filter(observations, wander, undefined);
}

/**
 * Returns the level so many whole steps after what is known, with its variance (that of an observation there has the variance of its error
 * besides); fails while the slope is unknown.
 */
export function levelAhead(known: Filtered, steps: number, wander: Wander): Result<Ahead, NotFiltered> {
  if (!known.slope) return fail({ type: 'too-few', needs: 2, has: 1 });
  if (!isStep(steps) || !isWander(wander)) return fail({ type: 'out-of-range' });
  const { level, p11 } = carried(stateOf(known, known.slope), steps, wander);
  return Number.isFinite(level) && Number.isFinite(p11) ? ok({ level, variance: p11 }) : fail({ type: 'out-of-range' });
}

type Slope = NonNullable<Filtered['slope']>;

const KNOWN_FLAT: Slope = { value: 0, variance: 0, covariance: 0 };

/** Level and slope, and the three variances of the two. */
type State = {
  readonly level: number;
  readonly slope: number;
  readonly p11: number;
  readonly p12: number;
  readonly p22: number;
};

function filter(
  observations: readonly Observation[],
  wander: Wander,
  firstSlope: Slope | undefined,
): Result<readonly Filtered[], NotFiltered> {
  const [first, ...later] = observations;
  if (!first) return fail({ type: 'too-few', needs: 1, has: 0 });
  if (!isWander(wander) || !observations.every(isUsable)) return fail({ type: 'out-of-range' });
  let known = rowOf(
    first.at,
    { level: first.value, slope: 0, p11: first.variance, p12: 0, p22: 0 },
    firstSlope !== undefined,
  );
  const rows = [known];
  for (const one of later) {
    const steps = one.at - known.at;
    if (steps < 0) return fail({ type: 'not-in-order' });
    if (!isStep(steps)) return fail({ type: 'out-of-range' });
    const before = carried(stateOf(known, known.slope ?? KNOWN_FLAT), steps, wander);
    known =
      known.slope || steps === 0 ? seen(before, one, known.slope !== undefined) : firstSlopeSeen(before, one, steps);
    rows.push(known);
  }
  return rows.every(isTold) ? ok(rows) : fail({ type: 'out-of-range' });
}

function stateOf(
  { level, levelVariance: p11 }: Filtered,
  { value: slope, variance: p22, covariance: p12 }: Slope,
): State {
  return { level, slope, p11, p12, p22 };
}

function rowOf(at: number, state: State, slopeKnown: boolean, expected?: Expected): Filtered {
  const slope = { value: state.slope, variance: state.p22, covariance: state.p12 };
  return {
    at,
    level: state.level,
    levelVariance: state.p11,
    ...(slopeKnown ? { slope } : {}),
    ...(expected ? { expected } : {}),
  };
}

/** The state some steps on. A slope that wanders at the first of d steps has moved the level d − 1 times by the last. */
function carried({ level, slope, p11, p12, p22 }: State, d: number, wander: Wander): State {
  const sum = (d * (d - 1)) / 2;
  const sumOfSquares = (sum * (2 * d - 1)) / 3;
  return {
    level: level + d * slope,
    slope,
    p11: p11 + d * (2 * p12 + d * p22) + d * wander.level + sumOfSquares * wander.slope,
    p12: p12 + d * p22 + sum * wander.slope,
    p22: p22 + d * wander.slope,
  };
}

function seen(before: State, { at, value, variance }: Observation, slopeKnown: boolean): Filtered {
  const { level, slope, p11, p12, p22 } = before;
  const error = value - level;
  const errorVariance = p11 + variance;
  const gain = p11 / errorVariance;
  const after = {
    level: level + gain * error,
    slope: slope + (p12 / errorVariance) * error,
    // not p11 less its share: of two huge numbers nothing but the rounding would be left
    p11: p11 * (variance / errorVariance),
    p12: p12 * (variance / errorVariance),
    p22: Math.max(0, p22 - p12 * (p12 / errorVariance)),
  };
  return rowOf(
    at,
    after,
    slopeKnown,
    slopeKnown ? { level, levelVariance: p11, error, errorVariance, gain } : undefined,
  );
}

/** Any slope was possible: the observation is the level, and the slope is what leads there from the level before. */
function firstSlopeSeen({ level, p11, p12, p22 }: State, { at, value, variance }: Observation, d: number): Filtered {
  return rowOf(
    at,
    {
      level: value,
      slope: (value - level) / d,
      p11: variance,
      p12: variance / d,
      p22: Math.max(0, p22 - (2 * p12) / d + (p11 + variance) / (d * d)),
    },
    true,
  );
}

const isVariance = (value: number): boolean => value >= 0 && value < Number.POSITIVE_INFINITY;
const isStep = (steps: number): boolean => Number.isSafeInteger(steps) && steps >= 0;
const isWander = ({ level, slope }: Wander): boolean => isVariance(level) && isVariance(slope);

function isUsable({ at, value, variance }: Observation): boolean {
  return Number.isSafeInteger(at) && Number.isFinite(value) && isVariance(variance) && variance > 0;
}

function isTold({ level, levelVariance, slope, expected }: Filtered): boolean {
  const numbers = [level, levelVariance, ...Object.values(slope ?? {}), ...Object.values(expected ?? {})];
  return numbers.every(Number.isFinite);
}
