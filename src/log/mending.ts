import type { Unread } from '../domain/set';
import type { Row, RowName } from '../merge/row';
import type { Log } from './log';
import { client, exercise, session, shownOf } from './views';

/**
 * [M9] What is valid on each of two devices may be at odds once it is merged. Such a row is kept, left out of what is counted, and listed here until
 * someone mends it by an ordinary edit.
 */
export type Mending = {
  readonly name: RowName;
  /** What is at odds in a session, by path. Of another row none: it tells of nothing that this version can show. */
  readonly faults: readonly Unread[];
};

/** Returns whether a row in memory needs mending, and what of it; undefined where it is well, removed, undone, or of a kind that is not read whole. */
export function needsMending(log: Pick<Log, 'get' | 'ofKind'>, row: Row): Mending | undefined {
  const { stream, id, kind } = row;
  const name = { stream, id, kind };
  // removed, or undone: nothing is noted any more
  if (Object.values(shownOf(row)).every((value) => value === null)) return undefined;
  if (kind === 'session') {
    const read = session(log, stream, id);
    return read && read.unread.length > 0 ? { name, faults: read.unread } : undefined;
  }
  const isRead = kind === 'client' ? client(log, stream) : kind === 'exercise' ? exercise(log, id) : ({} as const);
  return isRead ? undefined : { name, faults: [] };
}
