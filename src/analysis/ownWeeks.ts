import { type Day, daysBetween } from '../domain/day';
import type { SessionRecord } from '../domain/session';
import { median } from './stats/median';
import { type FirstDay, inOrder, weekOf } from './weeks';

/*
 * A sum of a week against the median of the own weeks before, where no study of ours tells how far usual weeks spread: a comparison, and no verdict.
 */

export type OwnWeek = {
  readonly week: Day;
  readonly value?: number;
  /** Sets that are counted, and those that are not. */
  readonly sets: number;
  readonly not: number;
};

/** The weeks that are looked at, and how many of them are needed; as a week's tonnage is told. */
const WEEKS = 6;
export const FEWEST_WEEKS = 4;
const LOOKS_BACK = 13;
const LEAST_KNOWN = 0.9;

/** Returns whether enough of a week's sets are counted for it to be set against others. */
export const isKnown = ({ value, sets, not }: OwnWeek): boolean =>
  value !== undefined && sets >= LEAST_KNOWN * (sets + not);

/** Returns the weeks that a week is set against, the oldest first: the latest six of the quarter year before it that are known and no cut ones. */
export const weeksBefore = <W extends OwnWeek>(
  weeks: readonly W[],
  week: Day,
  setApart: ReadonlySet<Day>,
): readonly W[] =>
  weeks
    .filter((one) => one.week < week && daysBetween(one.week, week) <= 7 * LOOKS_BACK)
    .filter((one) => !setApart.has(one.week) && isKnown(one))
    .sort((a, b) => (a.week < b.week ? -1 : 1))
    .slice(-WEEKS);

/** Returns the usual sum of weeks; undefined where fewer than four are there to tell it. */
export const usualSum = (weeks: readonly OwnWeek[]): number | undefined =>
  weeks.length < FEWEST_WEEKS ? undefined : median(weeks.flatMap(({ value }) => value ?? []));

/** Returns sessions by the week they lie in, the first day of each, in order; of those alone in which `exercise` stands, where it is named. */
export function sessionsByWeek(
  sessions: readonly SessionRecord[],
  firstDay: FirstDay,
  exercise?: string,
): readonly { readonly week: Day; readonly sessions: readonly SessionRecord[] }[] {
  const weeks = new Map<Day, SessionRecord[]>();
  for (const { session, day } of inOrder(sessions)) {
    if (exercise !== undefined && !session.sets.some((set) => set.exercise === exercise)) continue;
    const week = weekOf(day, firstDay);
    const own = weeks.get(week);
    if (own) own.push(session);
    else weeks.set(week, [session]);
  }
  return [...weeks].map(([week, own]) => ({ week, sessions: own }));
}
