import type { SessionRecord } from '../domain/session';
import { goodOf, SIDES, type Side } from '../domain/set';
import { meanOf, sumOf } from './stats/spread';
import { inOrder } from './weeks';

/*
 * How a skill is learned over sessions N: T = A + B·e^(−cN), the form that fits individuals best (Heathcote 2000: 7,910 series of 475 people); the power
 * law T = a·N^(−b) fits averages of people, and stands beside it for comparison alone. Fitted by least squares: for each rate c, A and B are a line.
 */

export type Attempt = { /** Session or trial, counted from 0 or 1. */ readonly n: number; readonly value: number };

export type LearningCurve =
  | {
      readonly type: 'curve';
      /** Where it goes to, how far it begins off that at N = 0, and the rate for each N; above 0. */
      readonly end: number;
      readonly begin: number;
      readonly rate: number;
      /** In how many N half of what is left is gained. */
      readonly halfLife: number;
      /** Root of the mean squared distance, in the unit of the values. */
      readonly off: number;
      /** The power law a·N^b of the same points, where all are above 0. */
      readonly power?: { readonly a: number; readonly b: number; readonly off: number };
    }
  | { readonly type: 'too-few'; readonly has: number; readonly needs: number }
  /** It does not get better, or no more than chance would have it. */
  | { readonly type: 'no-improvement' }
  /** It gets better along a line: where it ends cannot be told. */
  | { readonly type: 'no-bend' };

const FEWEST = 6;
/** Rates that are tried: half of what is left in 140 sessions to a fifth of one. */
const RATES = { least: 0.005, most: 3.5, steps: 160 } as const;

/** Returns the learning curve of attempts, whose values get better by falling (`less`: times, errors) or rising (`more`: shares of good ones). */
export function learningCurve(attempts: readonly Attempt[], better: 'less' | 'more'): LearningCurve {
  const points = attempts
    .filter(({ n, value }) => n >= 0 && n < 1e5 && Math.abs(value) < 1e12)
    .toSorted((a, b) => a.n - b.n || a.value - b.value);
  const has = new Set(points.map(({ n }) => n)).size;
  if (has < FEWEST) return { type: 'too-few', has, needs: FEWEST };
  const mean = meanOf(points.map(({ value }) => value)) ?? 0;
  const flat = sumOf(points.map(({ value }) => (value - mean) ** 2));
  const fit = bestFit(points);
  const falls = better === 'less' ? fit.begin : -fit.begin;
  if (!(falls > 0) || !isBetter(flat, fit.sum, points.length)) return { type: 'no-improvement' };
  if (fit.rate <= RATES.least * 1.05) return { type: 'no-bend' };
  const power = powerLaw(points);
  return {
    type: 'curve',
    end: fit.end,
    begin: fit.begin,
    rate: fit.rate,
    halfLife: Math.LN2 / fit.rate,
    off: Math.sqrt(fit.sum / points.length),
    ...(power ? { power } : {}),
  };
}

/** Whether two more parameters are worth it (Schwarz 1978). */
function isBetter(flat: number, curved: number, count: number): boolean {
  if (!(flat > 0)) return false;
  return curved <= flat * 1e-12 || count * Math.log(flat / curved) > 2 * Math.log(count);
}

type Fit = { readonly end: number; readonly begin: number; readonly rate: number; readonly sum: number };

function bestFit(points: readonly Attempt[]): Fit {
  const at = (log: number): Fit => lineAt(points, Math.exp(log));
  const [least, most] = [Math.log(RATES.least), Math.log(RATES.most)];
  const step = (most - least) / RATES.steps;
  let best = least;
  for (let n = 1; n <= RATES.steps; n++) if (at(least + n * step).sum < at(best).sum) best = least + n * step;
  // golden section between the neighbours
  let [low, high] = [Math.max(least, best - step), Math.min(most, best + step)];
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let n = 0; n < 60; n++) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    if (at(a).sum <= at(b).sum) high = b;
    else low = a;
  }
  return at((low + high) / 2);
}

/** The line through e^(−cN): its intercept is the end, its slope what is gained. */
function lineAt(points: readonly Attempt[], rate: number): Fit {
  const line = leastSquares(points.map(({ n, value }) => ({ x: Math.exp(-rate * n), y: value })));
  return { end: line.intercept, begin: line.slope, rate, sum: line.sum };
}

function leastSquares(points: readonly { readonly x: number; readonly y: number }[]): {
  readonly slope: number;
  readonly intercept: number;
  readonly sum: number;
} {
  const [meanX, meanY] = [meanOf(points.map(({ x }) => x)) ?? 0, meanOf(points.map(({ y }) => y)) ?? 0];
  const spread = sumOf(points.map(({ x }) => (x - meanX) ** 2));
  const slope = spread > 0 ? sumOf(points.map(({ x, y }) => (x - meanX) * (y - meanY))) / spread : 0;
  const intercept = meanY - slope * meanX;
  return { slope, intercept, sum: sumOf(points.map(({ x, y }) => (y - intercept - slope * x) ** 2)) };
}

/** Returns the power law a·N^b through points by a line through their logarithms; undefined unless all are above 0 and on two or more N. */
export function powerLaw(
  points: readonly Attempt[],
): { readonly a: number; readonly b: number; readonly off: number } | undefined {
  const told = points.filter(({ n, value }) => n > 0 && value > 0);
  if (told.length < points.length || new Set(told.map(({ n }) => n)).size < 2) return undefined;
  const { slope: b, intercept } = leastSquares(told.map(({ n, value }) => ({ x: Math.log(n), y: Math.log(value) })));
  const a = Math.exp(intercept);
  const off = Math.sqrt(sumOf(told.map(({ n, value }) => (value - a * n ** b) ** 2)) / told.length);
  return Number.isFinite(a) && Number.isFinite(b) && Number.isFinite(off) ? { a, b, off } : undefined;
}

export type SideLearning = {
  readonly side: Side;
  readonly attempts: readonly Attempt[];
  readonly curve: LearningCurve;
};

/**
 * Returns for each side of an exercise how the share of good tries or landings (0–1) grew over the sessions in which it was judged, counted from 1, and
 * which side is the weaker: the one with the lesser share in the last three of them; none where both are equal or one was not judged.
 */
export function sideLearning(
  sessions: readonly SessionRecord[],
  exercise: string,
): { readonly sides: readonly SideLearning[]; readonly weaker?: Side } {
  const sides = SIDES.flatMap((side): SideLearning[] => {
    const shares = inOrder(sessions).flatMap(({ session }) => {
      const own = session.sets.filter(
        (set) => set.exercise === exercise && set.side === side && set.kind !== 'warm-up' && set.unread.length === 0,
      );
      const judged = own.flatMap((set) => goodOf(set) ?? []);
      const of = judged.reduce((sum, one) => sum + one.of, 0);
      return of > 0 ? [judged.reduce((sum, one) => sum + one.good, 0) / of] : [];
    });
    const attempts = shares.map((value, n) => ({ n: n + 1, value }));
    return attempts.length === 0 ? [] : [{ side, attempts, curve: learningCurve(attempts, 'more') }];
  });
  const [left, right] = SIDES.map((side) => {
    const own = sides.find((one) => one.side === side);
    return own && meanOf(own.attempts.slice(-3).map(({ value }) => value));
  });
  if (left === undefined || right === undefined || left === right) return { sides };
  return { sides, weaker: left < right ? 'left' : 'right' };
}
