import { scaleLinear } from 'd3-scale';
import { addDays, type Day, daysBetween } from '../../domain/day';
import type { Measure } from '../../domain/measure';

/** From where to where an axis goes, and what is labelled on it. */
export type ValueAxis = { readonly from: number; readonly to: number; readonly ticks: readonly number[] };

/** A labelled day, and how it is told: `24 Nov`, `Nov`, `2026`. */
export type DayTick = { readonly day: Day; readonly as: 'day' | 'month' | 'year' };

/** What is counted whole has no ticks between. */
const WHOLE: readonly Measure[] = ['reps', 'pin', 'seconds'];
/** A change smaller than this share of the values is not blown up to the height of the chart. */
const LEAST_SHARE = 0.08;

/** Returns the axis for values: round numbers around them, never below 0 where none is; shares go from 0 to 100. */
export function valueAxis(values: readonly number[], measure: Measure): ValueAxis {
  if (measure === 'good') return { from: 0, to: 100, ticks: [0, 25, 50, 75, 100] };
  const low = values.length > 0 ? Math.min(...values) : 0;
  const high = values.length > 0 ? Math.max(...values) : 0;
  const least = Math.max(2, LEAST_SHARE * Math.max(Math.abs(low), Math.abs(high)));
  const spare = Math.max(0, least - (high - low)) / 2;
  const up = low >= 0 && low < spare ? spare - low : 0;
  const scale = scaleLinear([low - spare + up, high + spare + up], [0, 1]).nice(4);
  const [from = 0, to = 1] = scale.domain();
  const ticks = scale.ticks(4);
  return { from, to, ticks: WHOLE.includes(measure) ? ticks.filter(Number.isInteger) : ticks };
}

const DAYS_A_MONTH = 30.44;
const STEPS: readonly { readonly unit: 'days' | 'months'; readonly count: number }[] = [
  ...[1, 2, 7, 14].map((count) => ({ unit: 'days' as const, count })),
  ...[1, 2, 3, 6].map((count) => ({ unit: 'months' as const, count })),
  ...[1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000].map((years) => ({
    unit: 'months' as const,
    count: years * 12,
  })),
];

/** Returns days to label between two days, both included, `most` (2 or more) at most: days (no nearer than `least`), first days of months, or of years. */
export function dayTicks(from: Day, to: Day, most: number, least = 1): readonly DayTick[] {
  const span = daysBetween(from, to);
  if (span <= 0) return [{ day: from, as: 'day' }];
  for (const { unit, count } of STEPS) {
    const every = unit === 'days' ? count : count * DAYS_A_MONTH;
    if (every < least || Math.floor(span / every) + 1 > most) continue;
    const ticks = unit === 'days' ? daySteps(from, span, count) : monthSteps(from, to, count);
    if (ticks.length >= 2 && ticks.length <= most) return ticks;
  }
  return [from, to].map((day) => ({ day, as: 'day' }));
}

const daySteps = (from: Day, span: number, count: number): readonly DayTick[] =>
  Array.from({ length: Math.floor(span / count) + 1 }, (_, index) => ({
    day: addDays(from, index * count),
    as: 'day',
  }));

/** The first days of every `count`-th month of the calendar. */
function monthSteps(from: Day, to: Day, count: number): readonly DayTick[] {
  const [year = 0, month = 1, date = 1] = from.split('-').map(Number);
  const ticks: DayTick[] = [];
  const next = year * 12 + month - 1 + (date > 1 ? 1 : 0);
  for (let n = Math.ceil(next / count) * count; ; n += count) {
    const day = `${String(Math.floor(n / 12)).padStart(4, '0')}-${String((n % 12) + 1).padStart(2, '0')}-01`;
    if (day > to || n >= 120_000) return ticks;
    ticks.push({ day, as: count % 12 === 0 ? 'year' : 'month' });
  }
}
