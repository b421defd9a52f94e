import { erasedStream } from '../merge/erased';
import { mergeRows } from '../merge/merge';
import { emptyRow, type Json, type Row, type RowName, type Stamp, type Writer } from '../merge/row';
import { nextStamp, seenOf } from '../merge/stamp';
import { writeRow } from '../merge/write';
import { keyOf, type RowKey } from './keys';

/** The rows this launch holds, with what it knows of each: what it wrote, and how much of that is in the store. */
export type Memory = {
  readonly get: (key: RowKey) => Row | undefined;
  readonly ofKind: (kind: string) => readonly Row[];
  readonly all: () => readonly Row[];
  /** Returns whether a row in memory says that a stream is erased [M10]. */
  readonly isErased: (stream: string) => boolean;
  /**
   * Takes in a row read from the store or handed over: merged with what is held, which may be newer. One that erases a client takes all rows of
   * that stream with it, and none of them is taken in again [M10].
   */
  readonly absorb: (row: Row) => void;
  /** Writes to a row (a new one if none is held) under a fresh stamp of this launch, and returns that stamp. */
  readonly write: (name: RowName, changes: Readonly<Record<string, Json>>, clock: number) => Stamp;
  /** Notes that this very row is in the store. */
  readonly markSaved: (row: Row) => void;
  /** Returns whether everything that this launch wrote under a path (`''`: anywhere in the row) is in the store. */
  readonly isSaved: (key: RowKey, thing: string) => boolean;
  /** Forgets rows that are in the store. What stamps they were given here is remembered [M3]. */
  readonly forget: (keys: Iterable<RowKey>) => void;
};

/** Returns an empty memory for the launch that writes as `writer`. `onChange` hears the key and kind of every row that changes. */
export function createMemory(writer: Writer, onChange: (row: Row) => void): Memory {
  const rows = new Map<RowKey, Row>();
  // one list a kind, made anew only when one of its rows changes: readings are kept by the list
  const kinds = new Map<string, readonly Row[]>();
  const unsaved = new WeakMap<Row, { readonly saved: number; readonly paths: readonly string[] }>();
  const savedL = new Map<RowKey, number>();
  const attempted = new Map<RowKey, number>();
  const erased = new Set<string>();

  const keep = (row: Row): void => {
    rows.set(keyOf(row), row);
    kinds.delete(row.kind);
    onChange(row);
    const gone = erasedStream(row);
    if (gone === undefined || erased.has(gone)) return;
    erased.add(gone);
    for (const held of rows.values()) {
      if (held.stream !== gone) continue;
      forget(keyOf(held));
      onChange(held);
    }
  };

  function forget(key: RowKey): void {
    const row = rows.get(key);
    if (row) kinds.delete(row.kind);
    rows.delete(key);
    savedL.delete(key);
  }

  /** The paths of a row that hold something this launch wrote and the store does not have; few, and none most of the time. */
  function unsavedPaths(row: Row): readonly string[] {
    const saved = savedL.get(keyOf(row)) ?? 0;
    if (seenOf(row.seen, writer) <= saved) return [];
    const known = unsaved.get(row);
    if (known?.saved === saved) return known.paths;
    const paths = Object.entries(row.body).flatMap(([path, register]) =>
      register.some(({ stamp }) => stamp.writer === writer && stamp.l > saved) ? [path] : [],
    );
    unsaved.set(row, { saved, paths });
    return paths;
  }

  return {
    get: (key) => rows.get(key),
    isErased: (stream) => erased.has(stream),
    all: () => [...rows.values()],
    ofKind(kind) {
      const known = kinds.get(kind);
      if (known) return known;
      const list = [...rows.values()].filter((row) => row.kind === kind);
      kinds.set(kind, list);
      return list;
    },
    absorb(row) {
      if (erased.has(row.stream)) return;
      const key = keyOf(row);
      const held = rows.get(key) ?? emptyRow(row);
      const merged = mergeRows(held, row);
      // a kind is fixed at birth: what differs was refused at the door, and here is a bug
      if (!merged.ok) throw new Error(`row ${key} is of kind ${held.kind}, not ${row.kind}`);
      keep(merged.value);
    },
    write(name, changes, clock) {
      const key = keyOf(name);
      const row = rows.get(key) ?? emptyRow(name);
      const stamp = nextStamp(row, writer, clock, attempted.get(key) ?? 0);
      attempted.set(key, stamp.l);
      keep(writeRow(row, changes, stamp));
      return stamp;
    },
    markSaved(row) {
      savedL.set(keyOf(row), Math.max(savedL.get(keyOf(row)) ?? 0, seenOf(row.seen, writer)));
    },
    isSaved(key, thing) {
      const row = rows.get(key);
      if (!row) return false;
      return !unsavedPaths(row).some((path) => thing === '' || path === thing || path.startsWith(`${thing}/`));
    },
    forget(keys) {
      for (const key of keys) forget(key);
    },
  };
}
