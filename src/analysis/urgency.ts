import type { Day } from '../domain/day';
import { daysBetween } from '../domain/day';

/* How pressing a finding is: by what it is, how sure it is, and how near the targets of its exercise are. One rule for all findings. */

/** From this rank on a finding is one that asks for something to be done. */
export const HEADS_UP = 4;
/** What goes well, or needs nothing. */
export const GOES_ON = 1;

/** What has no chance to tell counts as neither sure nor unsure. */
const UNTOLD = 0.5;
/** A target further off than half a year makes nothing more pressing. */
const FAR_DAYS = 182;

/** Returns a number that is higher the more pressing it is: the rank decides, but for what is more sure or nearer to its day. */
export const urgencyOf = (rank: number, certainty: number | undefined, nearness: number): number =>
  rank * 10 + (certainty ?? UNTOLD) * 5 + nearness * 4;

/** Returns 1 for a day of `days` that is today, 0 where none lies within half a year ahead. */
export function nearnessOf(days: readonly Day[], today: Day): number {
  const ahead = days.map((day) => daysBetween(today, day)).filter((left) => left >= 0);
  return ahead.length === 0 ? 0 : Math.max(0, 1 - Math.min(...ahead) / FAR_DAYS);
}
