import type { Result } from '../domain/result';
import { lastUnseenBy, removalPath, removedIn, restoring, standing } from '../merge/removal';
import { type Row, type RowName, registerAt, type Stamp } from '../merge/row';
import { keyOf } from './keys';
import type { Log } from './log';
import type { SaveFault } from './queue';
import { readRows } from './read';

/* [M5] What was removed: values stay, and whatever is listed here can be brought back. Pure readings of rows; `scanRows` has them all. */

/** Something that was removed. `thing` is its path in the row; `''`: the row itself. */
export type Removed = {
  readonly name: RowName;
  readonly thing: string;
  /** Who removed it, and about when: an `l` follows the clock of its device, which may be wrong. */
  readonly by: Stamp;
};

/** Something that was removed by one and written to by another who had not seen that: it is there, and the screen says both. */
export type RemovedAndWritten = Removed & { readonly written: Stamp };

const THIRTY_DAYS = 30 * 86_400_000;

/**
 * Returns what of a row was removed in the thirty days before `now`, the latest first. A time that lies ahead is a clock set wrong, and is listed: better
 * too long than not at all. Things inside a removed row or thing are not listed beside it.
 */
export function recentlyRemoved(row: Row, now: number): readonly Removed[] {
  const gone = removedIn(row).filter((thing) => standing(row, thing) === 'removed');
  const outer = gone.filter((thing) => !gone.some((other) => other !== thing && isInside(thing, other)));
  return outer
    .flatMap((thing) => removal(row, thing))
    .filter(({ by }) => by.l > now - THIRTY_DAYS)
    .sort((a, b) => b.by.l - a.by.l);
}

/** Returns what of a row was removed on one device and written to on another. */
export function removedAndWritten(row: Row): readonly RemovedAndWritten[] {
  return removedIn(row).flatMap((thing) => {
    const written = lastUnseenBy(row, thing);
    return written ? removal(row, thing).map((one) => ({ ...one, written })) : [];
  });
}

/** Brings back what was removed: an ordinary write, that can be undone. Reads the row first where it is not in memory. */
export async function bringBack(log: Log, { name, thing }: Removed): Promise<Result<void, SaveFault>> {
  if (!log.get(keyOf(name))) await log.inside((core) => readRows(core, [name]));
  return log.commit({ act: { type: 'bring-back', stream: name.stream }, rows: [{ name, changes: restoring(thing) }] });
}

function removal(row: Row, thing: string): Removed[] {
  const { stream, id, kind } = row;
  const winner = registerAt(row, removalPath(thing))?.[0];
  return winner ? [{ name: { stream, id, kind }, thing, by: winner.stamp }] : [];
}

const isInside = (thing: string, other: string): boolean => other === '' || thing.startsWith(`${other}/`);
