import { ARRIVAL_ITEMS, type Arrival, type ArrivalItem } from '../domain/arrival';
import { addDays, type Day, dayOfWeek, daysBetween } from '../domain/day';
import type { SessionRecord } from '../domain/session';
import { meanOf, sampleSd } from './stats/spread';
import { inOrder } from './weeks';

/*
 * How a client came in against their own normal: the sum of five answers of 1–5 (5–25, 25 best). The last three days against the 28 before today (or as
 * many as hold fourteen answers), with half of the weekday's rhythm taken out and the spread shrunk to what is usual. From our own simulation study (STATS.md §4): one false word in a client
 * month at the most, two of three drops of 1.5 SD for three days are told of, a drop of 1 SD mostly is not. Single items are shown and not judged: five
 * verdicts would make five times the false ones. "The usual" has no numbers and moves nothing. It is a thing to talk about, and vetoes no session.
 */

/** An item against its own mean of the days looked back on, both 1–5; what is missing was not answered. */
export type ItemStanding = {
  readonly item: ArrivalItem;
  readonly today?: number;
  readonly usual?: number;
  readonly away?: number;
};

/** A day as it was told; without a sum where not all five were answered. */
export type CameDay = {
  readonly day: Day;
  readonly items: Arrival['items'];
  readonly sum?: number;
  readonly usual: boolean;
};

export type CameIn = {
  /** The day's answers; absent where nobody was asked that day. */
  readonly today?: CameDay;
  /** The days with answers among those looked back on, the oldest first. */
  readonly before: readonly CameDay[];
  readonly items: readonly ItemStanding[];
  readonly verdict:
    | {
        readonly type: 'below' | 'usual';
        /** The mean sum of the days before, 5–25. */
        readonly normal: number;
        /** The last days against it, in SDs of a mean of so many days. */
        readonly z: number;
        /** Days of the last three, today among them, that stand in it. */
        readonly days: number;
      }
    /** A plain picture: too few sums in the twelve weeks before, or the first of all less than 21 days ago. */
    | {
        readonly type: 'not-enough';
        readonly sums: number;
        readonly needs: number;
        readonly span: number;
        readonly needsSpan: number;
      }
    /** Nobody was asked today, or not all five were answered, or it was told to be as usual. */
    | { readonly type: 'no-sum' };
};

const BACK = 28;
const MOST_BACK = 84;
const LAST = 3;
const FEWEST = 14;
const SPAN = 21;
/** From the study: an SD of 1.7 points weighs as much as 6 days against 20 of one's own; never below 0.8. */
const SPREAD = { prior: 1.7, weight: 6, own: 20, least: 0.8 } as const;
/** Days in a row are alike, so that a mean of three of them spreads more than of three apart (the study). */
const ALIKE = 1.3;
const BELOW = -1.35;

/**
 * Returns how a client came in on a day against their own days before, given their sessions in any order: those of 28 days as in the study, whose clients
 * were asked every day. One who trains three times a week has no fourteen sums in them: then as many days as hold fourteen, twelve weeks at most.
 */
export const cameIn = (sessions: readonly SessionRecord[], day: Day): CameIn => cameInOf(daysOf(sessions), day);

/** Returns the same, given the days as `daysOf` returns them: for many days in turn. */
export function cameInOf(days: readonly CameDay[], day: Day): CameIn {
  const from = firstOf(days, day);
  const today = days.find((one) => one.day === day);
  const before = days.filter((one) => one.day < day && one.day >= from);
  return {
    ...(today ? { today } : {}),
    before,
    items: itemsOf(today, before),
    verdict: verdictOf(days, before, day),
  };
}

/** The first day that is looked back on. */
function firstOf(days: readonly CameDay[], day: Day): Day {
  const usual = addDays(day, -BACK);
  const most = addDays(day, -MOST_BACK);
  const fewest = days.filter((one) => one.sum !== undefined && one.day < day && one.day >= most).at(-FEWEST);
  if (!fewest) return most;
  return [fewest.day, usual].sort()[0] ?? usual;
}

/** Returns the days on which a client came in clearly below their own normal: what counts as a bad day where cues are judged. */
export function daysBelow(sessions: readonly SessionRecord[]): ReadonlySet<Day> {
  const days = daysOf(sessions);
  return new Set(days.flatMap(({ day }) => (cameInOf(days, day).verdict.type === 'below' ? [day] : [])));
}

/** Returns the days on which anything was told of how a client came in; of several sessions a day the first that has all five, else the first. */
export function daysOf(sessions: readonly SessionRecord[]): readonly CameDay[] {
  const days = new Map<Day, CameDay>();
  for (const { session, day } of inOrder(sessions)) {
    const { items, usual } = session.arrival;
    if (!usual && Object.keys(items).length === 0) continue;
    const sum = sumOfItems(items);
    const known = days.get(day);
    if (known && (known.sum !== undefined || sum === undefined)) continue;
    days.set(day, { day, items, usual, ...(sum === undefined ? {} : { sum }) });
  }
  return [...days.values()];
}

/** Returns the sum of the five items, 5–25; undefined where one is missing (what is missing is not made up of the others). */
export function sumOfItems(items: Arrival['items']): number | undefined {
  const told = ARRIVAL_ITEMS.flatMap((item) => items[item] ?? []);
  return told.length === ARRIVAL_ITEMS.length ? told.reduce((sum, one) => sum + one, 0) : undefined;
}

function itemsOf(today: CameDay | undefined, before: readonly CameDay[]): readonly ItemStanding[] {
  return ARRIVAL_ITEMS.map((item) => {
    const now = today?.items[item];
    const usual = meanOf(before.flatMap(({ items }) => items[item] ?? []));
    return {
      item,
      ...(now === undefined ? {} : { today: now }),
      ...(usual === undefined ? {} : { usual }),
      ...(now === undefined || usual === undefined ? {} : { away: now - usual }),
    };
  });
}

type Summed = { readonly day: Day; readonly weekday: number; readonly sum: number };

function verdictOf(all: readonly CameDay[], before: readonly CameDay[], day: Day): CameIn['verdict'] {
  const sums = summed(before);
  const first = all.find(({ sum }) => sum !== undefined);
  const span = first && first.day < day ? daysBetween(first.day, day) : 0;
  if (!all.some((one) => one.day === day && one.sum !== undefined)) return { type: 'no-sum' };
  const normal = meanOf(sums.map(({ sum }) => sum));
  const own = sampleSd(sums.map(({ sum }) => sum));
  if (normal === undefined || own === undefined || sums.length < FEWEST || span < SPAN)
    return { type: 'not-enough', sums: sums.length, needs: FEWEST, span, needsSpan: SPAN };
  const shrunk = (SPREAD.own * own ** 2 + SPREAD.weight * SPREAD.prior ** 2) / (SPREAD.own + SPREAD.weight);
  const sd = Math.max(SPREAD.least, Math.sqrt(shrunk));
  const from = addDays(day, 1 - LAST);
  const last = summed(all.filter((one) => one.day <= day && one.day >= from));
  const away = meanOf(last.map((one) => one.sum - normal - rhythm(one.weekday, sums, normal) / 2)) ?? 0;
  const z = (away * Math.sqrt(last.length)) / (sd * ALIKE);
  return { type: z <= BELOW ? 'below' : 'usual', normal, z, days: last.length };
}

const summed = (days: readonly CameDay[]): readonly Summed[] =>
  days.flatMap(({ day, sum }) => (sum === undefined ? [] : [{ day, weekday: dayOfWeek(day), sum }]));

/** How far a weekday usually lies off the mean. */
function rhythm(weekday: number, sums: readonly Summed[], normal: number): number {
  const same = sums.filter((one) => one.weekday === weekday);
  return (meanOf(same.map(({ sum }) => sum)) ?? normal) - normal;
}
