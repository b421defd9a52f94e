/** A value on the day it was measured, or at whatever it goes with. */
export type Point = { readonly x: number; readonly y: number };

/** Why there is nothing to tell of a series. */
export type NotTold =
  /** Fewer points than it takes. */
  | { readonly type: 'too-few'; readonly needs: number; readonly has: number }
  /** All on one day, or all of one value. */
  | { readonly type: 'all-equal'; readonly of: 'x' | 'y' }
  /** A number that is none, or so huge or so close to another that what follows from it cannot be written down. */
  | { readonly type: 'out-of-range' };

/** Returns whether both numbers of every point are finite. */
export function allFinite(points: readonly Point[]): boolean {
  return points.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y));
}

/** Returns how many values there are of each that stands more than once. */
export function tiesOf(values: readonly number[]): readonly number[] {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts.values()].filter((count) => count > 1);
}

/**
 * Returns the variance of Kendall's S if x and y had nothing to do with each other, with ties in either (Kendall, Rank Correlation Methods); 0 where
 * all of x or all of y are equal.
 */
export function varianceOfS(points: readonly Point[]): number {
  const n = points.length;
  const tiesX = tiesOf(points.map(({ x }) => x));
  const tiesY = tiesOf(points.map(({ y }) => y));
  const within = (t: number): number => t * (t - 1) * (2 * t + 5);
  const twos = (t: number): number => t * (t - 1);
  const threes = (t: number): number => t * (t - 1) * (t - 2);
  const untied = (within(n) - sum(tiesX, within) - sum(tiesY, within)) / 18;
  const both = n > 1 ? (sum(tiesX, twos) * sum(tiesY, twos)) / (2 * twos(n)) : 0;
  const bothThrice = n > 2 ? (sum(tiesX, threes) * sum(tiesY, threes)) / (9 * threes(n)) : 0;
  return Math.max(0, untied + both + bothThrice);
}

function sum(ties: readonly number[], of: (t: number) => number): number {
  return ties.reduce((all, t) => all + of(t), 0);
}
