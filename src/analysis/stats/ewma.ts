import { fail, ok, type Result } from '../../domain/result';
import type { NotTold } from './pairs';

/**
 * Returns the weight of the newest value in an exponentially weighted mean that looks back about as far as a plain mean of `days` days; undefined
 * below one day.
 * @example weightOfDays(7) // 0.25
 */
export function weightOfDays(days: number): number | undefined {
  return days >= 1 ? 2 / (days + 1) : undefined;
}

/**
 * Returns the exponentially weighted mean after each value, the newest with `weight` (above 0, to 1). Without `start` the first value is its own
 * mean. Fails for no values, and for numbers that cannot be reckoned with.
 */
export function ewma(
  values: readonly number[],
  { weight, start }: { readonly weight: number; readonly start?: number },
): Result<readonly number[], NotTold> {
  const [first] = values;
  if (first === undefined) return fail({ type: 'too-few', needs: 1, has: 0 });
  if (!(weight > 0 && weight <= 1)) return fail({ type: 'out-of-range' });
  let mean = start ?? first;
  const means = values.map((value) => {
    mean = weight * value + (1 - weight) * mean;
    return mean;
  });
  return means.every(Number.isFinite) ? ok(means) : fail({ type: 'out-of-range' });
}

type Limits = { readonly low: number; readonly high: number };

export type EwmaPoint = {
  readonly mean: number;
  /** Narrower at the start, when less can have gathered. */
  readonly limits: Limits;
  readonly signal: 'none' | 'up' | 'down';
};

/**
 * Returns an EWMA chart with the limits of each point, and those they settle to (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4); a point
 * signals out of its own limits. `sd` is that of single values and `width` is counted in SDs of the mean. Fails as `ewma` does, and for an SD or
 * width that is not above 0.
 */
export function ewmaChart(
  values: readonly number[],
  { weight, target, sd, width = 3 }: { weight: number; target: number; sd: number; width?: number },
): Result<{ readonly points: readonly EwmaPoint[]; readonly settled: Limits }, NotTold> {
  const means = ewma(values, { weight, start: target });
  if (!means.ok) return means;
  const reach = width * sd * Math.sqrt(weight / (2 - weight));
  if (!(sd > 0 && width > 0)) return fail({ type: 'out-of-range' });
  const within = (share: number): Limits => ({ low: target - share * reach, high: target + share * reach });
  const settled = within(1);
  if (!Number.isFinite(settled.low) || !Number.isFinite(settled.high)) return fail({ type: 'out-of-range' });
  const points = means.value.map((mean, n): EwmaPoint => {
    const limits = within(Math.sqrt(1 - (1 - weight) ** (2 * (n + 1))));
    return { mean, limits, signal: mean > limits.high ? 'up' : mean < limits.low ? 'down' : 'none' };
  });
  return ok({ points, settled });
}
