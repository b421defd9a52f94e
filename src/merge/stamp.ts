import type { Row, Seen, Stamp, Writer } from './row';

/** Above this a stamp is malformed: a row bearing one is refused at the door, so no clock can use the numbers up. */
export const HIGHEST_L = 2 ** 52;

/** Returns a number below, at or above 0: by `l`, then by writer in the order of code units. */
export function compareStamps(a: Stamp, b: Stamp): number {
  if (a.l !== b.l) return a.l - b.l;
  return a.writer < b.writer ? -1 : a.writer > b.writer ? 1 : 0;
}

/** Returns whether `seen` includes the write that bears this stamp. */
export function covers(seen: Seen, stamp: Stamp): boolean {
  return seenOf(seen, stamp.writer) >= stamp.l;
}

/** Returns, for each writer, the higher of the two. */
export function mergeSeen(a: Seen, b: Seen): Seen {
  const merged: Record<Writer, number> = { ...a };
  for (const [writer, l] of Object.entries(b)) merged[writer] = Math.max(seenOf(merged, writer), l);
  return merged;
}

/** Returns the highest `l` of a writer's that is included, or 0. By own names only: a writer may be called `constructor`. */
export function seenOf(seen: Seen, writer: Writer): number {
  return Object.hasOwn(seen, writer) ? (seen[writer] ?? 0) : 0;
}

/**
 * [M3] Returns the stamp of the next write to a row: above everything its author could have been looking at, whatever the clocks say.
 *
 * L = max(clock, 1 + the highest of every held stamp, every `seen` entry and `attempted`), where `attempted` is the highest L that
 * this launch gave out for this row: one that a failed transaction burnt must never come to name a second value.
 * [M4] The clock may be wrong by years; it only raises L, and one that would leave the allowed range is not listened to.
 */
export function nextStamp(row: Row, writer: Writer, clock: number, attempted: number): Stamp {
  let highest = attempted;
  for (const l of Object.values(row.seen)) highest = Math.max(highest, l);
  for (const register of Object.values(row.body)) {
    for (const { stamp } of register) highest = Math.max(highest, stamp.l);
  }
  const now = Math.floor(clock);
  const believed = Number.isFinite(now) && now <= HIGHEST_L / 2 ? now : 0;
  return { l: Math.max(believed, 1 + highest), writer };
}
