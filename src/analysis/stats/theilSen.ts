import { fail, ok, type Result } from '../../domain/result';
import { median, medianSorted } from './median';
import { normalQuantile } from './normal';
import { allFinite, type NotTold, type Point, varianceOfS } from './pairs';

export type Line = {
  /** In units of y for each of x. */
  readonly slope: number;
  /** Of the line through the medians, where x is 0. */
  readonly intercept: number;
  /** Holds the slope as surely as was asked; undefined where so few pairs cannot make it so sure. */
  readonly interval?: { readonly low: number; readonly high: number };
  /** How many pairs of points had different x. */
  readonly pairs: number;
};

/**
 * Returns the line of Theil and Sen: the median slope over all pairs of points with different x, which some wild values do not move. `confidence`
 * is that of the interval, between 0 and 1 (P. K. Sen, Journal of the American Statistical Association 63, 1968). Fails for fewer than two points,
 * for points that all have one x, and for numbers that cannot be reckoned with.
 */
export function theilSen(points: readonly Point[], { confidence = 0.95 } = {}): Result<Line, NotTold> {
  if (!(confidence > 0 && confidence < 1)) throw new Error(`no share between 0 and 1: ${confidence}`);
  if (points.length < 2) return fail({ type: 'too-few', needs: 2, has: points.length });
  if (!allFinite(points)) return fail({ type: 'out-of-range' });
  const slopes = slopesOf(points);
  const slope = medianSorted(slopes);
  const [x, y] = [median(points.map((one) => one.x)), median(points.map((one) => one.y))];
  if (slope === undefined || x === undefined || y === undefined) return fail({ type: 'all-equal', of: 'x' });
  const intercept = y - slope * x;
  if (!slopes.every(Number.isFinite) || !Number.isFinite(intercept)) return fail({ type: 'out-of-range' });
  const interval = intervalOf(slopes, Math.sqrt(varianceOfS(points)), confidence);
  return ok({ slope, intercept, ...(interval ? { interval } : {}), pairs: slopes.length });
}

/** The slopes of all pairs that have one, rising. */
function slopesOf(points: readonly Point[]): readonly number[] {
  const slopes = points.flatMap((one, n) =>
    points.slice(n + 1).flatMap((other) => (other.x === one.x ? [] : [(other.y - one.y) / (other.x - one.x)])),
  );
  return slopes.sort((a, b) => a - b);
}

/** By how many slopes would lie on either side of none at all, if chance alone had put the points in their order. */
function intervalOf(slopes: readonly number[], sd: number, confidence: number): Line['interval'] {
  const reach = -normalQuantile((1 - confidence) / 2) * sd;
  const low = slopes[Math.round((slopes.length - reach) / 2) - 1];
  const high = slopes[Math.round((slopes.length + reach) / 2)];
  return low === undefined || high === undefined ? undefined : { low, high };
}
