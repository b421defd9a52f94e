import type { Field } from './entry';
import type { Holds } from './exercise';
import type { SetRecord } from './set';

/** Returns the field that a count over the session adds up, or undefined where what an exercise holds cannot be counted. */
export function countField(holds: Holds): Extract<Field, 'reps' | 'landings' | 'tries' | 'seconds'> | undefined {
  switch (holds) {
    case 'load':
    case 'body':
    case 'band':
    case 'pin':
      return 'reps';
    case 'landings':
      return 'landings';
    case 'tries':
      return 'tries';
    case 'time':
      return 'seconds';
    case 'carry':
    case 'degrees':
    case 'tick':
      return undefined;
  }
}

/** Returns how many of an exercise these sets add up to, parts included; warm-ups do not count. */
export function countedOf(
  sets: readonly SetRecord[],
  exercise: string,
  field: NonNullable<ReturnType<typeof countField>>,
): number {
  return sets
    .filter((set) => set.exercise === exercise && set.kind !== 'warm-up')
    .flatMap((set) => [set, ...set.parts])
    .reduce((sum, held) => sum + (held[field] ?? 0), 0);
}
