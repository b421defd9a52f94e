import type { Row } from '../merge/row';
import type { Core } from './core';
import { type StoredRow, unpackRow } from './encode';
import { keyOf, type RowKey, streamRange } from './keys';

/** The stores that memory does not hold whole. */
const READ_WHEN_ASKED = ['sessions', 'results'] as const;

/**
 * Returns, for each of these rows, the row of its name that is here already: from memory, or read from the store without being taken into
 * memory; `unreadable` where what lies there is none that this version can read. A row that is not here has no entry. Undefined where the
 * store could not be read.
 *
 * The keys of a stream are read first: most rows of a first import are new, and need no read of their own.
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
  const streams = new Set([...missing.values()].map(({ stream }) => stream));
  const stored = await core.connection.read(async (db) => {
    const tx = db.transaction(READ_WHEN_ASKED);
    const found = READ_WHEN_ASKED.map(async (store): Promise<StoredRow[]> => {
      const objects = tx.objectStore(store);
      const keys = await Promise.all([...streams].map((stream) => objects.getAllKeys(streamRange(stream))));
      const wanted = keys.flat().filter(([stream, id]) => missing.has(keyOf({ stream, id })));
      const values = await Promise.all(wanted.map((key) => objects.get(key)));
      return values.flatMap((value) => value ?? []);
    });
    return (await Promise.all(found)).flat();
  });
  if (!stored) return undefined;
  for (const one of stored) {
    const row = unpackRow(one);
    held.set(keyOf(one), row.ok ? row.value : 'unreadable');
  }
  return held;
}
