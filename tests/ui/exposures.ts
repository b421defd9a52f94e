import type { Exercise } from '../../src/domain/exercise';
import type { Exposure, Top } from '../../src/domain/exposure';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import type { Load } from '../../src/domain/units';

/** Returns a shipped exercise by its id, without the prefix all of them bear. */
export function shipped(id: string): Exercise {
  const found = SHIPPED_EXERCISES.find((one) => one.id === `lib-${id}`);
  if (!found) throw new Error(`no shipped exercise ${id}`);
  return found;
}

export const kg = (value: number): Load => ({ value, unit: 'kg' });
export const lb = (value: number): Load => ({ value, unit: 'lb' });

/** Returns an exposure of a day, at ten in the morning UTC; its session is named after the day. */
export const on = (day: string, tops: readonly Top[], more: Partial<Exposure> = {}): Exposure => ({
  session: day,
  at: Date.parse(`${day}T10:00Z`),
  day,
  sets: 3,
  tops,
  cues: [],
  clean: 0,
  noted: 0,
  ...more,
});
