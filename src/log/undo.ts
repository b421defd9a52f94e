import { removalPath } from '../merge/removal';
import { type Json, type Row, type RowName, registerAt, type Seen, type Stamp } from '../merge/row';
import { compareStamps } from '../merge/stamp';

/** What an act was, for the line that offers to undo it: a name with facts, worded in ui. */
export type ActName = { readonly type: string; readonly [fact: string]: string | number };

export type UndoRow = {
  readonly name: RowName;
  readonly stamp: Stamp;
  /** Per path the value shown before the act; `null` where nothing was noted. */
  readonly before: Readonly<Record<string, Json>>;
  /** Per path the stamp that `before` showed under, where something was noted. */
  readonly over: Readonly<Record<string, Stamp>>;
  /** Per path the stamp under which what this act wrote shows again, since the act that wrote over it was undone. */
  readonly again?: Readonly<Record<string, Stamp>>;
  /** Of a row that came in from outside, and was not here: what it included then. Taking the act back removes it [M5]. */
  readonly added?: Seen;
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
export function beforeOf(row: Row, changes: Readonly<Record<string, Json>>): Pick<UndoRow, 'before' | 'over'> {
  const before: Record<string, Json> = {};
  const over: Record<string, Stamp> = {};
  for (const path of Object.keys(changes)) {
    const winner = registerAt(row, path)?.[0];
    before[path] = winner?.value ?? null;
    if (winner) over[path] = winner.stamp;
  }
  return { before, over };
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
  const gone = removalPath('');
  if (undo.added) {
    // what was written since was not seen by the import, and keeps the row alive
    if (registerAt(row, gone)) changedSince.push(gone);
    else changes[gone] = { removed: true, seen: undo.added };
  }
  for (const [path, before] of Object.entries(undo.before)) {
    const winner = registerAt(row, path)?.[0];
    if (winner && compareStamps(winner.stamp, stampOf(undo, path)) === 0) changes[path] = before;
    else changedSince.push(path);
  }
  return { changes, changedSince };
}

/**
 * Returns the older acts whose values an undo has just written again, with the stamp they show under now: they can be taken back in their
 * turn, as nothing was written since but by undoing.
 */
export function shownAgain(
  older: readonly UndoEntry[],
  undone: UndoRow,
  written: { readonly paths: readonly string[]; readonly stamp: Stamp },
): readonly UndoEntry[] {
  const paths = written.paths.filter((path) => undone.over[path]);
  if (paths.length === 0) return [];
  return older.flatMap((entry) => {
    const rows = entry.rows.map((row) => {
      const own = isOf(row, undone) ? paths.filter((path) => isShownUnder(row, path, undone.over[path])) : [];
      if (own.length === 0) return row;
      return { ...row, again: { ...row.again, ...Object.fromEntries(own.map((path) => [path, written.stamp])) } };
    });
    return rows.some((row, index) => row !== entry.rows[index]) ? [{ ...entry, rows }] : [];
  });
}

const stampOf = (undo: UndoRow, path: string): Stamp => undo.again?.[path] ?? undo.stamp;

const isOf = (a: UndoRow, b: UndoRow): boolean => a.name.stream === b.name.stream && a.name.id === b.name.id;

const isShownUnder = (row: UndoRow, path: string, stamp: Stamp | undefined): boolean =>
  stamp !== undefined && Object.hasOwn(row.before, path) && compareStamps(stampOf(row, path), stamp) === 0;
