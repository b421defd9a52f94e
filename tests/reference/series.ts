import type { Point } from '../../src/analysis/stats/pairs';

/** Eight loads on uneven days, made up for these checks. */
export const UNEVEN: readonly Point[] = [
  { x: 0, y: 60 },
  { x: 3, y: 62.5 },
  { x: 7, y: 61 },
  { x: 10, y: 65 },
  { x: 14, y: 64 },
  { x: 17, y: 67.5 },
  { x: 21, y: 70 },
  { x: 24, y: 69 },
];

/** Returns values as points at 1, 2, 3 … */
export function againstIndex(values: readonly number[]): readonly Point[] {
  return values.map((y, n) => ({ x: n + 1, y }));
}
