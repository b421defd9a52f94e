import { normalCdf, normalDensity } from './stats/normal';
import type { TrendState } from './trendFilter';
import { fromUnits, MODEL, type TrendModel, toUnits } from './trendModel';

/*
 * What is known of a capacity now or some weeks ahead, as a mixture of normal distributions (our own simulation study, STATS.md §8). Regimes may
 * change on the way: gains wear off, stalls begin and end.
 */

/** One part of the mixture: its weight, and its mean and SD in units u. */
type Part = { readonly weight: number; readonly mean: number; readonly sd: number };

/** A capacity with bands that hold it four times in five, and nineteen in twenty: kg, reps or degrees. */
export type Band = {
  readonly mean: number;
  readonly lo80: number;
  readonly hi80: number;
  readonly lo95: number;
  readonly hi95: number;
};

/** Returns the capacity as it is `weeks` from the last session: the mean of what is known in units u, as kg, reps or degrees, with its bands. */
export function bandAhead(state: TrendState, weeks: number, model: TrendModel = MODEL): Band {
  const parts = partsAhead(state, weeks, model);
  const at = (share: number): number => fromUnits(state.kind, quantile(parts, share));
  const mean = parts.reduce((sum, part) => sum + part.weight * part.mean, 0);
  return { mean: fromUnits(state.kind, mean), lo80: at(0.1), hi80: at(0.9), lo95: at(0.025), hi95: at(0.975) };
}

/** Returns the chance (0–1) that the capacity is at least `value` (kg, reps or degrees) in `weeks` from the last session. */
export function chanceAhead(state: TrendState, value: number, weeks: number, model: TrendModel = MODEL): number {
  const wanted = toUnits(state.kind, value);
  let below = 0;
  for (const { weight, mean, sd } of partsAhead(state, weeks, model)) below += weight * normalCdf((wanted - mean) / sd);
  return Math.min(1, Math.max(0, 1 - below));
}

function partsAhead(state: TrendState, weeks: number, model: TrendModel): readonly Part[] {
  const ahead = Math.min(MOST_WEEKS, Math.max(0, weeks));
  const { eu, eu2 } = carriedFor(ahead, model);
  const { ru, ru2 } = resumedFor(ahead, model);
  const again = model.resumedSlope;
  return state.levels.flat().map((one) => {
    if (one.regime === 'progress') {
      const more = eu2 * one.ss + one.slope ** 2 * (eu2 - eu * eu) + (model.slopeDrift * eu * eu * ahead) / 3;
      const variance = one.ll + 2 * eu * one.ls + more + model.levelDrift * ahead;
      return { weight: one.weight, mean: one.level + one.slope * eu, sd: Math.sqrt(variance) };
    }
    const more = (again.mean ** 2 + again.sd ** 2) * ru2 - (again.mean * ru) ** 2;
    const variance = one.ll + ahead * (2 * one.ls + ahead * one.ss) + more + model.levelDrift * ahead;
    return { weight: one.weight, mean: one.level + one.slope * ahead + again.mean * ru, sd: Math.sqrt(variance) };
  });
}

/** How many weeks' worth of today's slope is gained while it wears off and may end: its mean, and the mean of its square. */
function carriedFor(weeks: number, { toStall, tau }: TrendModel): { readonly eu: number; readonly eu2: number } {
  const a = toStall + 1 / tau;
  const b = toStall + 2 / tau;
  const eu = (1 - Math.exp(-a * weeks)) / a;
  return { eu, eu2: 2 * tau * (eu - (1 - Math.exp(-b * weeks)) / b) };
}

/** The same from the end of a stall on, over when that may be. */
function resumedFor(weeks: number, model: TrendModel): { readonly ru: number; readonly ru2: number } {
  let [ru, ru2] = [0, 0];
  const step = weeks / MIDPOINTS;
  for (let n = 0; n < MIDPOINTS; n += 1) {
    const after = (n + 0.5) * step;
    const share = model.toProgress * Math.exp(-model.toProgress * after) * step;
    const { eu, eu2 } = carriedFor(weeks - after, model);
    ru += share * eu;
    ru2 += share * eu2;
  }
  return { ru, ru2 };
}

const MIDPOINTS = 16;
/** Ten years: further out nobody asks, and a slope that went on for ever would have no end. */
const MOST_WEEKS = 520;

/** Returns the value (u) below which a share of the mixture lies: by Newton's steps, held within where it must be. */
function quantile(parts: readonly Part[], share: number): number {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  let at = 0;
  for (const { weight, mean, sd } of parts) {
    low = Math.min(low, mean - FAR * sd);
    high = Math.max(high, mean + FAR * sd);
    at += weight * mean;
  }
  for (let step = 0; step < MOST_STEPS && high - low > EXACT; step += 1) {
    let [below, density] = [0, 0];
    for (const { weight, mean, sd } of parts) {
      const z = (at - mean) / sd;
      below += weight * normalCdf(z);
      density += (weight * normalDensity(z)) / sd;
    }
    if (below < share) low = at;
    else high = at;
    const next = at + (share - below) / density;
    if (Math.abs(next - at) < EXACT) return next;
    at = next > low && next < high ? next : (low + high) / 2;
  }
  return at;
}

/** No share that is asked for lies further out, SD. */
const FAR = 10;
const MOST_STEPS = 100;
/** A hundred-millionth of one per cent. */
const EXACT = 1e-8;
