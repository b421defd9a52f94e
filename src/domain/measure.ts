import type { Exercise } from './exercise';
import type { Exposure, Top } from './exposure';
import { type Load, valueIn } from './units';

/** What one number of an exposure is: what is charted of an exercise. */
export type Measure = 'load' | 'added' | 'reps' | 'seconds' | 'degrees' | 'pin' | 'good';

/** Returns what an exercise is charted by, given its exposures: load where one was held, else what it counts. */
export function measureOf(exercise: Exercise, exposures: readonly Exposure[]): Measure {
  const tops = exposures.flatMap((one) => one.tops);
  switch (exercise.holds) {
    case 'load':
      return tops.some((top) => top.load) || tops.every((top) => top.reps === undefined) ? 'load' : 'reps';
    case 'carry':
      return 'load';
    case 'body':
      return tops.some((top) => top.added || top.assist) ? 'added' : 'reps';
    case 'pin':
      return tops.length > 0 && tops.every((top) => pinNumber(top) !== undefined) ? 'pin' : 'reps';
    case 'band':
      return 'reps';
    case 'time':
      return 'seconds';
    case 'degrees':
      return 'degrees';
    case 'landings':
    case 'tries':
      return 'good';
    case 'tick':
      return 'reps';
  }
}

/**
 * Returns the number that a top is charted at, in the unit named for loads (`kg` or `lb`; the share of good ones in per cent), or undefined
 * where it was not noted.
 */
export function charted(top: Top, measure: Measure, unit: Load['unit']): number | undefined {
  switch (measure) {
    case 'load':
      return top.load && valueIn(top.load, unit);
    case 'added':
      if (top.added) return valueIn(top.added, unit);
      if (top.assist) return 0 - valueIn(top.assist, unit);
      // what a band takes off is no number
      return top.band === undefined ? 0 : undefined;
    case 'good':
      return top.good === undefined || !top.of ? undefined : (top.good / top.of) * 100;
    case 'pin':
      return pinNumber(top);
    default:
      return top[measure];
  }
}

/** Pins are told as they are labelled; only those that bear a number can be charted. */
function pinNumber({ pin }: Top): number | undefined {
  const value = pin === undefined || pin.trim() === '' ? Number.NaN : Number(pin);
  return Number.isFinite(value) ? value : undefined;
}
