import { type Day, daysBetween } from '../domain/day';
import { mannKendall } from './stats/mannKendall';
import { theilSen } from './stats/theilSen';

/*
 * Whether something that the trend engine does not know (seconds, pins, shares of good ones) goes up or down: the median of the slopes between all
 * pairs (Theil 1950, Sen 1968), and whether that can be chance (Mann 1945, Kendall 1975). It knows no stalls and forecasts nothing: such lines cry
 * wolf too often for that (our own simulation study, STATS.md §2).
 */

/** `perWeek` and its 80 % interval are in the unit of the values, a week. */
export type PlainTrend =
  | { readonly type: 'not-enough'; readonly has: number; readonly needs: number }
  | {
      readonly type: 'rising' | 'falling' | 'unclear';
      readonly sessions: number;
      readonly perWeek: number;
      readonly low: number;
      readonly high: number;
    };

const FEWEST = 6;
/** Pairs grow with the square of the sessions. */
const MOST = 100;
/** Two-sided chance of such an order where nothing changes. */
const BY_CHANCE = 0.1;
const CONFIDENCE = 0.8;

/** Returns where values of days go, by the latest hundred; days need not be even, nor in order. */
export function plainTrend(points: readonly { readonly day: Day; readonly value: number }[]): PlainTrend {
  const told = points.filter(({ value }) => Number.isFinite(value)).sort((a, b) => (a.day < b.day ? -1 : 1));
  const latest = told.slice(-MOST);
  const [first] = latest;
  const few = { type: 'not-enough', has: latest.length, needs: FEWEST } as const;
  if (!first || latest.length < FEWEST) return few;
  const weeks = latest.map(({ day, value }) => ({ x: daysBetween(first.day, day) / 7, y: value }));
  const line = theilSen(weeks, { confidence: CONFIDENCE });
  // all on one day: nothing can be told of weeks
  if (!line.ok) return few;
  const order = mannKendall(weeks);
  const perWeek = line.value.slope;
  const { low, high } = line.value.interval ?? { low: perWeek, high: perWeek };
  const isSure = order.ok && order.value.p.either < BY_CHANCE && perWeek !== 0;
  return {
    type: isSure ? (perWeek > 0 ? 'rising' : 'falling') : 'unclear',
    sessions: latest.length,
    perWeek,
    low,
    high,
  };
}
