import type { IDBPObjectStore } from 'idb';
import type { Row } from '../merge/row';
import type { Core } from './core';
import { type StoredRow, unpackRow } from './encode';
import { keyOf, type RowKey, streamRange } from './keys';
import type { Schema } from './open';

/** The stores that memory does not hold whole. */
const READ_WHEN_ASKED = ['sessions', 'results'] as const;

/**
 * Returns, for each of these rows, the row of its name that is here already: from memory, or read from the store without being taken into
 * memory; `unreadable` where what lies there is none that this version can read. A row that is not here has no entry. Undefined where the
 * store could not be read.
 */
export async function heldRows(
  core: Core,
  rows: readonly Row[],
): Promise<ReadonlyMap<RowKey, Row | 'unreadable'> | undefined> {
  const held = new Map<RowKey, Row | 'unreadable'>();
  const missing = new Map<RowKey, Row>();
  for (const row of rows) {
    const key = keyOf(row);
    const inMemory = core.memory.get(key);
    if (inMemory) held.set(key, inMemory);
    else if (core.unreadable.has(key)) held.set(key, 'unreadable');
    else missing.set(key, row);
  }
  if (missing.size === 0) return held;
  const stored = await core.connection.read(async (db) => {
    const tx = db.transaction(READ_WHEN_ASKED);
    return (await Promise.all(READ_WHEN_ASKED.map((store) => foundIn(tx.objectStore(store), missing)))).flat();
  });
  if (!stored) return undefined;
  for (const one of stored) {
    const row = unpackRow(one);
    held.set(keyOf(one), row.ok ? row.value : 'unreadable');
  }
  return held;
}

type Objects = IDBPObjectStore<Schema, typeof READ_WHEN_ASKED, (typeof READ_WHEN_ASKED)[number], 'readonly'>;

/** As many keys of streams are read, for each row that is looked for, before each row is asked for by itself. */
const KEYS_A_ROW = 4;

/**
 * Returns what a store holds of these rows. The keys of their streams are read first: most rows of a first import are new, and need no read of their
 * own. Where a stream holds far more than is looked for, that would cost more than asking.
 */
async function foundIn(objects: Objects, missing: ReadonlyMap<RowKey, Row>): Promise<StoredRow[]> {
  const byStream = new Map<string, Row[]>();
  for (const row of missing.values()) {
    const rows = byStream.get(row.stream);
    if (rows) rows.push(row);
    else byStream.set(row.stream, [row]);
  }
  const wanted: [string, string][] = [];
  let left = KEYS_A_ROW * missing.size;
  for (const [stream, rows] of byStream) {
    const keys = left > 0 ? await objects.getAllKeys(streamRange(stream), left) : [];
    const isWhole = keys.length < left;
    left -= keys.length;
    if (isWhole) wanted.push(...keys.filter(([, id]) => missing.has(keyOf({ stream, id }))));
    else wanted.push(...rows.map(({ id }): [string, string] => [stream, id]));
  }
  const values = await Promise.all(wanted.map((key) => objects.get(key)));
  return values.flatMap((value) => value ?? []);
}
