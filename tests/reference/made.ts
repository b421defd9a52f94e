import type { Fault, Result } from '../../src/domain/result';

/** Returns what a result holds; throws for a failure. */
export function made<T>(result: Result<T, Fault>): T {
  if (!result.ok) throw new Error(`no value: ${JSON.stringify(result.error)}`);
  return result.value;
}
