import { fail, ok, type Result } from '../../domain/result';
import { normalCdf } from './normal';
import { allFinite, type NotTold, type Point, tiesOf, varianceOfS } from './pairs';

export type MannKendall = {
  /** Pairs that rise less pairs that fall; pairs of one day or one value count neither way. */
  readonly s: number;
  /** Of S, if there were no trend. */
  readonly variance: number;
  /** S in its own SDs, one pair nearer to nothing (the usual correction for continuity). */
  readonly z: number;
  /** Kendall's tau-b, −1 to 1. */
  readonly tau: number;
  /** How likely chance alone makes it rise as much, fall as much, or either, 0–1. */
  readonly p: { readonly rising: number; readonly falling: number; readonly either: number };
  /** Whether the three were counted out over all orders, and not taken from a normal distribution. */
  readonly exact: boolean;
};

/** Fewer can never be told from chance at one in twenty. */
const FEWEST = 5;
const MOST_COUNTED_OUT = 10;

/**
 * Returns the test of Mann and Kendall for a trend in either direction, whatever its shape. Exact up to ten points without ties. Fails for fewer
 * than five points, for points all of one x or one y, and for numbers that are none.
 */
export function mannKendall(points: readonly Point[]): Result<MannKendall, NotTold> {
  const n = points.length;
  if (n < FEWEST) return fail({ type: 'too-few', needs: FEWEST, has: n });
  if (!allFinite(points)) return fail({ type: 'out-of-range' });
  const tiesX = tiesOf(points.map(({ x }) => x));
  const tiesY = tiesOf(points.map(({ y }) => y));
  if (tiesX[0] === n) return fail({ type: 'all-equal', of: 'x' });
  if (tiesY[0] === n) return fail({ type: 'all-equal', of: 'y' });
  const s = sOf(points);
  const variance = varianceOfS(points);
  const sd = Math.sqrt(variance);
  const exact = n <= MOST_COUNTED_OUT && tiesX.length === 0 && tiesY.length === 0;
  const rising = exact ? shareOfOrders(n, s) : normalCdf((1 - s) / sd);
  const falling = exact ? shareOfOrders(n, -s) : normalCdf((1 + s) / sd);
  return ok({
    s,
    variance,
    z: (s - Math.sign(s)) / sd,
    tau: s / Math.sqrt(pairsLeft(n, tiesX) * pairsLeft(n, tiesY)),
    p: { rising, falling, either: Math.min(1, 2 * Math.min(rising, falling)) },
    exact,
  });
}

function sOf(points: readonly Point[]): number {
  let s = 0;
  for (const [n, one] of points.entries()) {
    for (const other of points.slice(n + 1)) s += order(one.x, other.x) * order(one.y, other.y);
  }
  return s;
}

const order = (a: number, b: number): number => Number(b > a) - Number(b < a);

/** Pairs that are not tied. */
function pairsLeft(n: number, ties: readonly number[]): number {
  return ties.reduce((left, t) => left - (t * (t - 1)) / 2, (n * (n - 1)) / 2);
}

/** The share of all orders of `n` different values whose S is at least `s`. */
function shareOfOrders(n: number, s: number): number {
  const mostFalling = ((n * (n - 1)) / 2 - s) / 2;
  const counts = ordersByFalling(n);
  const enough = counts.slice(0, mostFalling + 1).reduce((sum, count) => sum + count, 0);
  return enough / counts.reduce((sum, count) => sum + count, 0);
}

/** How many orders of `n` values have 0, 1, 2 … falling pairs: the n-th value can be put before any number of those there already. */
function ordersByFalling(n: number): readonly number[] {
  let counts = [1];
  for (let size = 2; size <= n; size += 1) {
    const next = new Array<number>(counts.length + size - 1).fill(0);
    for (const [falling, count] of counts.entries()) {
      for (let more = 0; more < size; more += 1) next[falling + more] = (next[falling + more] ?? 0) + count;
    }
    counts = next;
  }
  return counts;
}
