import type { Json, Row } from '../merge/row';
import { valueAt } from '../merge/row';
import type { RowKey } from './keys';

/*
 * The sessions that a start must read: running ones, and ended ones whose series are not folded yet. A short list of keys in the store,
 * so that a start reads a handful of sessions and not all of them.
 */

export type OpenSessions = {
  readonly keys: () => readonly RowKey[];
  readonly load: (stored: Json | undefined) => void;
  /** Adds the sessions these rows belong to; returns whether that changed the list. */
  readonly add: (sessions: readonly RowKey[]) => boolean;
  readonly remove: (session: RowKey) => void;
  /** The list as it is put in the store. */
  readonly stored: () => Map<string, Json>;
};

export const OPEN = 'open-sessions';
/** The clients whose series must be made anew: rows came in from outside, and a kill may have come before the folding. */
export const STALE = 'stale-series';

/** Returns an empty list. */
export function createOpenSessions(): OpenSessions {
  const keys = new Set<RowKey>();
  return {
    keys: () => [...keys],
    load(stored) {
      for (const key of Array.isArray(stored) ? stored : []) if (typeof key === 'string') keys.add(key);
    },
    add(sessions) {
      const before = keys.size;
      for (const key of sessions) keys.add(key);
      return keys.size > before;
    },
    remove: (session) => void keys.delete(session),
    stored: () => new Map<string, Json>([[OPEN, [...keys]]]),
  };
}

/** Returns the id of the session a row belongs to: its own, or its parent's where it is a continuation. */
export function sessionIdOf(row: Row): string {
  const parent = valueAt(row, 'of');
  return typeof parent === 'string' ? parent : row.id;
}
