import { type Json, type Row, type RowName, type Stamp, valueAt } from '../merge/row';
import { compareStamps } from '../merge/stamp';

/** What an act was, for the line that offers to undo it: a name with facts, worded in ui. */
export type ActName = { readonly type: string; readonly [fact: string]: string | number };

export type UndoRow = {
  readonly name: RowName;
  readonly stamp: Stamp;
  /** Per path the value shown before the act; `null` where nothing was noted. */
  readonly before: Readonly<Record<string, Json>>;
};

/** One act as it can be taken back. `n` rises from act to act; the highest is the last. */
export type UndoEntry = {
  readonly n: number;
  readonly at: number;
  readonly act: ActName;
  readonly rows: readonly UndoRow[];
};

/** How many acts can be taken back. */
export const UNDO_KEPT = 200;

/** Returns what an act is about to overwrite in a row. */
export function beforeOf(row: Row, changes: Readonly<Record<string, Json>>): Record<string, Json> {
  return Object.fromEntries(Object.keys(changes).map((path) => [path, valueAt(row, path) ?? null]));
}

/**
 * Returns the changes that take an act back in one row: `before`, for every path where the act's stamp still shows. Undo is a new
 * write, never a rewind: a path that was written since keeps what it has, and is named in `changedSince`.
 */
export function undoing(
  row: Row,
  undo: UndoRow,
): { readonly changes: Record<string, Json>; readonly changedSince: readonly string[] } {
  const changes: Record<string, Json> = {};
  const changedSince: string[] = [];
  for (const [path, before] of Object.entries(undo.before)) {
    const winner = row.body[path]?.[0];
    if (winner && compareStamps(winner.stamp, undo.stamp) === 0) changes[path] = before;
    else changedSince.push(path);
  }
  return { changes, changedSince };
}
