import { fail, ok, type Result } from '../../domain/result';
import type { NotTold } from './pairs';

export type CusumChart = {
  /** What is expected while nothing has changed. */
  readonly target: number;
  /** What each value may be off without counting, in units of the values: usually half an SD. */
  readonly slack: number;
  /** From where a sum tells of a change: usually four to five SDs. */
  readonly limit: number;
};

export type CusumPoint = {
  /** What has gathered above the target, and below it; both 0 or more. */
  readonly high: number;
  readonly low: number;
  readonly signal: 'none' | 'up' | 'down' | 'both';
};

/**
 * Returns the two sums of a tabular CUSUM after each value (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3); they go on after a signal.
 * Fails for no values, a slack or limit below 0, and numbers that cannot be reckoned with.
 */
export function cusum(
  values: readonly number[],
  { target, slack, limit }: CusumChart,
): Result<readonly CusumPoint[], NotTold> {
  if (values.length === 0) return fail({ type: 'too-few', needs: 1, has: 0 });
  if (!(slack >= 0 && limit >= 0)) return fail({ type: 'out-of-range' });
  const points: CusumPoint[] = [];
  let [high, low] = [0, 0];
  for (const value of values) {
    high = Math.max(0, high + (value - target - slack));
    low = Math.max(0, low + (target - slack - value));
    if (!Number.isFinite(high) || !Number.isFinite(low)) return fail({ type: 'out-of-range' });
    points.push({ high, low, signal: signalOf(high > limit, low > limit) });
  }
  return ok(points);
}

function signalOf(up: boolean, down: boolean): CusumPoint['signal'] {
  if (up) return down ? 'both' : 'up';
  return down ? 'down' : 'none';
}
