import { canonicalRow } from '../merge/canonical';
import { erasedStream } from '../merge/erased';
import { EXPORT_FORMAT } from '../merge/exportLines';
import { mergeRows } from '../merge/merge';
import type { Row } from '../merge/row';
import { unpackRow } from './encode';
import { keyOf, ROW_STORES, type RowKey } from './keys';
import { openSecondCopy } from './second';

/*
 * Everything as JSON Lines (the format is in DEVELOPERS.md). It reads the database by itself, whatever its version, so it works when the
 * log does not open fully; and it takes along what only memory or the second copy holds.
 */

export type Export = {
  readonly blob: Blob;
  /** What the file holds, by `stream/id`: with it in safe hands, these need no second copy. */
  readonly held: ReadonlyMap<RowKey, Row>;
  readonly rows: number;
  readonly unreadable: number;
  readonly databaseRead: boolean;
};

/** How long a database that does not answer is waited for. */
const PATIENCE_MS = 4000;
const BATCH = 500;

/**
 * Returns the export of a log, made at `at` (ms): a first line that says what it is, then a row a line, then lines `{"unreadable": …}`
 * with whatever lies in the store and is no row. `inMemory` are rows that may not be saved; where the same row is found twice, both are
 * written, since merging them on import is what rows are for.
 */
export async function exportLog(log: string, inMemory: readonly Row[], at: number): Promise<Export> {
  const lines: { readonly stream: string; readonly text: string }[] = [];
  const written = new Map<RowKey, Row>();
  let unreadable = 0;
  const add = (row: Row): void => {
    const known = written.get(keyOf(row));
    const merged = known ? mergeRows(known, row) : undefined;
    if (known && merged?.ok && canonicalRow(merged.value) === canonicalRow(known)) return;
    written.set(keyOf(row), merged?.ok ? merged.value : row);
    lines.push({ stream: row.stream, text: `${JSON.stringify(row)}\n` });
  };
  const databaseRead = await readDatabase(log, (stored) => {
    const row = unpackRow(stored);
    if (row.ok) return add(row.value);
    unreadable += 1;
    lines.push({ stream: '', text: `${JSON.stringify({ unreadable: stored })}\n` });
  });
  for (const row of inMemory) add(row);
  const second = await openSecondCopy(log);
  for (const row of (await second?.all()) ?? []) add(row);
  // [M10] a second copy may still lie there of a client that a killed app had just erased
  const erased = new Set([...written.values()].flatMap((row) => erasedStream(row) ?? []));
  const kept = lines.filter(({ stream }) => !erased.has(stream));
  for (const [key, row] of written) if (erased.has(row.stream)) written.delete(key);
  const rows = kept.length - unreadable;
  const head = `${JSON.stringify({ format: EXPORT_FORMAT, log, at, rows, databaseRead })}\n`;
  return {
    blob: new Blob([head, ...kept.map(({ text }) => text)], { type: 'application/jsonl' }),
    held: written,
    rows,
    unreadable,
    databaseRead,
  };
}

/** Calls `take` with everything in the row stores; returns false where the database could not be read to its end. */
async function readDatabase(name: string, take: (stored: unknown) => void): Promise<boolean> {
  const db = await openRaw(name);
  if (!db) return false;
  try {
    for (const store of ROW_STORES) {
      if (db.objectStoreNames.contains(store)) await readStore(db, store, take);
    }
    return true;
  } catch {
    return false;
  } finally {
    db.close();
  }
}

/** Opens whatever version is there, without making or upgrading anything. */
function openRaw(name: string): Promise<IDBDatabase | undefined> {
  return new Promise((resolve) => {
    let late = false;
    const timer = setTimeout(() => {
      late = true;
      resolve(undefined);
    }, PATIENCE_MS);
    const done = (db: IDBDatabase | undefined): void => {
      clearTimeout(timer);
      // nobody is waiting any more, and an open connection would block an upgrade
      if (late) db?.close();
      resolve(db);
    };
    try {
      const opening = indexedDB.open(name);
      opening.onupgradeneeded = () => opening.transaction?.abort();
      opening.onsuccess = () => done(opening.result);
      opening.onerror = () => done(undefined);
    } catch {
      done(undefined);
    }
  });
}

async function readStore(db: IDBDatabase, store: string, take: (stored: unknown) => void): Promise<void> {
  let from: IDBKeyRange | undefined;
  for (;;) {
    const objects = db.transaction(store, 'readonly').objectStore(store);
    const [values, keys] = await Promise.all([
      requested(objects.getAll(from, BATCH)),
      requested(objects.getAllKeys(from, BATCH)),
    ]);
    for (const value of values) take(value);
    const last = keys.at(-1);
    if (last === undefined || keys.length < BATCH) return;
    from = IDBKeyRange.lowerBound(last, true);
  }
}

function requested<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('read failed'));
  });
}
