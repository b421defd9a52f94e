import { sameValue } from '../merge/canonical';
import { type Held, type Json, type Row, type RowName, registerAt } from '../merge/row';
import { beside } from '../merge/shown';
import { keyOf } from './keys';
import type { Log, Saving } from './log';
import type { UndoEntry } from './undo';

/* [M6] Values that were written without seeing each other. Pure readings of rows; `scanRows` has them all. */

/** A path where several values stand: the one shown, and those beside it, the highest stamp first, equal ones folded. */
export type Beside = {
  readonly name: RowName;
  readonly path: string;
  readonly shown: Held;
  readonly others: readonly Held[];
};

/** Returns every path of a row where values stand beside each other. Removals made apart are one removal, and no question [M5]. */
export function besideIn(row: Row): readonly Beside[] {
  const { stream, id, kind } = row;
  return Object.entries(row.body).flatMap(([path, [shown]]) => {
    const others = path === 'removed' || path.endsWith('/removed') ? [] : beside(row, path);
    return others.length > 0 ? [{ name: { stream, id, kind }, path, shown, others }] : [];
  });
}

/**
 * Settles what stands beside each other: the value chosen is written, by one who has seen them all. The act keeps those that were let go: undo alone
 * would bring back what was shown, not what stood beside it.
 */
export function settle(log: Log, { name, path, shown, others }: Beside, value: Json): Saving {
  if (!log.get(keyOf(name))) throw new Error(`row ${keyOf(name)} is not in memory`);
  return log.commit({
    act: { type: 'settle', stream: name.stream, path, kept: JSON.stringify([shown, ...others]) },
    rows: [{ name, changes: { [path]: value } }],
  });
}

/** Returns what was settled by acts that are still known, with the values that were let go: another of them can be chosen after all. */
export function settledIn(row: Row, undo: readonly UndoEntry[]): readonly Beside[] {
  const { stream, id, kind } = row;
  const byPath = new Map<string, Beside>();
  for (const { act, rows } of undo) {
    const { path, kept } = act;
    if (act.type !== 'settle' || typeof path !== 'string' || typeof kept !== 'string') continue;
    if (!rows.some(({ name }) => name.stream === stream && name.id === id)) continue;
    const shown = registerAt(row, path)?.[0];
    const others = (JSON.parse(kept) as readonly Held[]).filter((held) => shown && !sameValue(held.value, shown.value));
    if (shown && others.length > 0) byPath.set(path, { name: { stream, id, kind }, path, shown, others });
  }
  return [...byPath.values()];
}
