import type { End } from '../analysis/ends';
import type { Band } from '../analysis/trendForecast';
import type { Exercise } from '../domain/exercise';
import { isLoad, type Target } from '../domain/target';
import { fromKg, type LoadUnit } from '../domain/units';
import { countOf, number } from './format';

/*
 * Numbers on the bar, and chances, in words.
 */

/** How numbers are told: loads in which unit, of one of a pair or not. */
export type Told = { readonly unit: LoadUnit; readonly perHand: boolean };

/** Returns how the numbers of an end are told. */
export const toldOf = ({ perHand }: Pick<Exercise, 'perHand'>, { unit }: Pick<End, 'unit'>): Told => ({
  unit,
  perHand,
});

/** Returns a number on the bar as it is told: in its unit, rounded to what can be loaded or counted (halves of kg and reps, whole pounds and degrees). */
export function roundedOnBar(value: number, way: End['way'], { unit }: Pick<Told, 'unit'>): number {
  if (way === 'degrees') return whole(value);
  if (way === 'reps' || unit === 'kg') return whole(value * 2) / 2;
  return whole(fromKg(value, unit));
}

// never −0, which would be told with its sign
const whole = (value: number): number => Math.round(value) + 0;

/** Returns a number on the bar in its unit: `57.5 kg`, `+10 kg`, `8.5 reps`, `41°`. */
export const barText = (value: number, way: End['way'], told: Told): string =>
  amountWithUnit(roundedOnBar(value, way, told), way, told);

/** Returns a number that is rounded already, with its unit. */
export function amountWithUnit(amount: number, way: End['way'], told: Told): string {
  return `${amountText(amount, way)}${unitText(amount, way, told)}`;
}

/** Loads that are added to the body bear their sign. */
function amountText(amount: number, way: End['way']): string {
  if (way !== 'system') return amount < 0 ? `−${number(-amount)}` : number(amount);
  return amount < 0 ? `−${number(-amount)}` : `+${number(amount)}`;
}

function unitText(amount: number, way: End['way'], { unit, perHand }: Told): string {
  if (way === 'reps') return amount === 1 ? ' rep' : ' reps';
  if (way === 'degrees') return '°';
  return `\u00a0${unit}${perHand && way === 'held' ? ' in each hand' : ''}`;
}

/** Returns a range: `54.5 to 61`. */
export const fromTo = (band: Pick<Band, 'lo80' | 'hi80'>, way: End['way'], told: Told): string =>
  `${amountText(roundedOnBar(band.lo80, way, told), way)} to ${amountText(roundedOnBar(band.hi80, way, told), way)}`;

/** Returns a band as its middle and range: `58 kg (55 to 61)`. */
export const rangeText = (band: Pick<Band, 'mean' | 'lo80' | 'hi80'>, way: End['way'], told: Told): string =>
  `${barText(band.mean, way, told)} (${fromTo(band, way, told)})`;

/** Returns `× 5`, for loads; nothing for what is counted otherwise. */
export const timesText = (way: End['way'], reps: number): string =>
  way === 'reps' || way === 'degrees' ? '' : reps === 1 ? ' once' : `\u00a0×\u00a0${reps}`;

/** Returns what a target asks for: `65 kg × 5`, `9 reps`, `45°`. */
export function goalText({ goal, reps = 1 }: Pick<Target, 'goal' | 'reps'>, perHand = false): string {
  if (goal.unit === 'degrees') return `${number(goal.value)}°`;
  if (!isLoad(goal.unit)) return countOf(goal.value, 'rep');
  return `${number(goal.value)}\u00a0${goal.unit}${perHand ? ' in each hand' : ''}${timesText('held', reps)}`;
}

/** Returns how likely something is, in words: `about 7 in 10`; never surer than 29 in 30, either way. */
export function chanceText(chance: number): string {
  if (!(chance >= 0.05)) return 'about 1 in 30';
  if (chance > 0.95) return 'about 29 in 30';
  return `about ${Math.min(9, Math.max(1, Math.round(chance * 10)))} in 10`;
}
