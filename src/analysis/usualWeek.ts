import { addDays, type Day, daysBetween } from '../domain/day';
import type { SessionRecord } from '../domain/session';
import { median } from './stats/median';
import type { TonnageWeek } from './tonnage';
import { type FirstDay, inOrder, weekOf } from './weeks';

/*
 * A week's tonnage against the client's own usual weeks: on the log scale, the median of the six comparable weeks before, and their spread (MAD) shrunk
 * to what is usual. From our own simulation study (STATS.md §5): beyond 2.5 SD about one ordinary week in twenty is told of, half as much again in six
 * of ten. A change of 30 % is no more than habit. What comes out is a range to show the week against, and no warning.
 */

export type UsualWeek =
  | {
      readonly type: 'below' | 'usual' | 'above';
      readonly week: Day;
      /** Kg × repetitions: this week, and the usual week with the range that usual weeks lie in. */
      readonly kg: number;
      readonly usual: number;
      readonly low: number;
      readonly high: number;
      /** How many SDs off the usual on the log scale. */
      readonly z: number;
      /** The weeks it is set against, the oldest first. */
      readonly weeks: readonly Day[];
    }
  | { readonly type: 'too-few'; readonly has: number; readonly needs: number }
  /** The week is not over, is known to be a lighter or partial one, or too much of what is usually counted is not known. */
  | { readonly type: 'running' | 'set-apart' | 'not-covered' | 'no-tonnage' };

const WEEKS = 6;
const FEWEST = 4;
/** What is usual: an SD of 0.18 on the log scale, as much as six weeks weigh (the study). */
const PRIOR = { sd: 0.18, weight: 6 } as const;
const BEYOND = 2.5;
/** From median absolute deviation to SD, for a normal distribution. */
const MAD_TO_SD = 1.4826;
/** Weeks further back than this tell nothing of what is usual now, and weeks of which less is known nothing at all (our own choice). */
const LOOKS_BACK = 13;
const LEAST_KNOWN = 0.9;

/**
 * Returns how a week stands against the usual ones of the same exercise, given the tonnage of weeks (or totals) in any order. `setApart` names weeks
 * known to be lighter by plan or cut short, by their first days (the plan of lighter weeks is not in the records yet; `partialWeeks` finds those cut
 * short). `today` tells whether the week is over.
 */
export function usualWeek(
  weeks: readonly Pick<TonnageWeek, 'week' | 'kg' | 'comparable'>[],
  {
    week,
    today,
    setApart = new Set(),
  }: { readonly week: Day; readonly today: Day; readonly setApart?: ReadonlySet<Day> },
): UsualWeek {
  const own = weeks.find((one) => one.week === week);
  if (today < addDays(week, 7)) return { type: 'running' };
  if (setApart.has(week)) return { type: 'set-apart' };
  if (own && own.comparable < LEAST_KNOWN) return { type: 'not-covered' };
  if (!own?.kg || !(own.kg > 0)) return { type: 'no-tonnage' };
  const before = weeks
    .filter((one) => one.week < week && daysBetween(one.week, week) <= 7 * LOOKS_BACK && !setApart.has(one.week))
    .filter((one) => one.comparable >= LEAST_KNOWN && one.kg !== undefined && one.kg > 0)
    .sort((a, b) => (a.week < b.week ? -1 : 1))
    .slice(-WEEKS);
  const logs = before.map(({ kg }) => Math.log(kg ?? 1));
  const middle = median(logs);
  const mad = middle === undefined ? undefined : median(logs.map((one) => Math.abs(one - middle)));
  if (middle === undefined || mad === undefined || before.length < FEWEST)
    return { type: 'too-few', has: before.length, needs: FEWEST };
  const n = before.length;
  const sd = Math.sqrt((n * (MAD_TO_SD * mad) ** 2 + PRIOR.weight * PRIOR.sd ** 2) / (n + PRIOR.weight));
  const z = (Math.log(own.kg) - middle) / sd;
  return {
    type: z > BEYOND ? 'above' : z < -BEYOND ? 'below' : 'usual',
    week,
    kg: own.kg,
    usual: Math.exp(middle),
    low: Math.exp(middle - BEYOND * sd),
    high: Math.exp(middle + BEYOND * sd),
    z,
    weeks: before.map((one) => one.week),
  };
}

/** Returns the first days of the weeks in which a session was cut short, cancelled or missed: they are no usual weeks. */
export function partialWeeks(sessions: readonly SessionRecord[], firstDay: FirstDay): ReadonlySet<Day> {
  const cut = inOrder(sessions).filter(
    ({ session }) => session.attendance !== undefined && session.attendance !== 'done',
  );
  return new Set(cut.map(({ day }) => weekOf(day, firstDay)));
}
