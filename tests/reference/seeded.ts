import * as fc from 'fast-check';
import type { Point } from '../../src/analysis/stats/pairs';

/** Returns `count` inputs that are the same at every run. */
export function sample<T>(inputs: fc.Arbitrary<T>, count: number, seed: number): T[] {
  return fc.sample(inputs, { numRuns: count, seed });
}

/** Returns numbers spread evenly between two (fast-check's own doubles crowd around 0 and the ends). */
export function between(min: number, max: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: 2 ** 31 - 1 }).map((part) => min + ((max - min) * part) / 2 ** 31);
}

/**
 * Returns series of `fewest` to `most` points on whole days below `days`, with a trend of any direction and scatter; values are rounded to `steps`
 * of them between 0 and 1 where that is not 0, so that some are equal.
 */
export function trending(
  fewest: number,
  most: number,
  { days, steps }: { readonly days: number; readonly steps: number },
): fc.Arbitrary<readonly Point[]> {
  const point = fc.record({ x: fc.integer({ min: 0, max: days - 1 }), scatter: between(-1, 1) });
  return fc
    .tuple(between(-2, 2), fc.array(point, { minLength: fewest, maxLength: most, size: 'max' }))
    .map(([slope, points]) =>
      points.map(({ x, scatter }): Point => {
        const y = (slope * x) / days + scatter;
        return { x, y: steps === 0 ? y : Math.round(y * steps) / steps };
      }),
    )
    .filter((points) => new Set(points.map(({ x }) => x)).size > 1 && new Set(points.map(({ y }) => y)).size > 1);
}
