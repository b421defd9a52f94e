import type { Row } from '../merge/row';
import type { Core } from './core';
import { unpackRow } from './encode';
import { keyOf, ROW_STORES, type RowKey, type RowStore, streamRange } from './keys';
import type { Log } from './log';

const BATCH = 500;

/**
 * Calls `take` with the rows of the log (of one stream, where that is named), a few hundred at a time: each as memory holds it, or else as it is stored; none
 * twice. For what looks at everything and keeps little: a bundle, recently removed, values beside each other. Returns false where the store
 * could not be read.
 */
export function scanRows(
  log: Log,
  take: (rows: readonly Row[]) => void | Promise<void>,
  stream?: string,
): Promise<boolean> {
  return log.inside(async (core) => {
    const isOf = (row: Row): boolean => (stream === undefined || row.stream === stream) && !isGone(core, row);
    const told = new Set<RowKey>();
    const batch = core.memory.all().filter(isOf);
    for (const row of batch) told.add(keyOf(row));
    if (batch.length > 0) await take(batch);
    for (const store of ROW_STORES) {
      let from: [string, string] | undefined;
      for (;;) {
        const found = await readSome(core, store, stream, from);
        if (!found) return false;
        // what was taken into memory meanwhile is newer there
        const rows = found.rows.map((row) => core.memory.get(keyOf(row)) ?? row);
        const fresh = rows.filter((row) => isOf(row) && !told.has(keyOf(row)));
        if (fresh.length > 0) await take(fresh);
        from = found.last;
        if (!from) break;
      }
    }
    return true;
  });
}

const isGone = (core: Core, row: Row): boolean => core.memory.isErased(row.stream);

async function readSome(core: Core, store: RowStore, stream: string | undefined, from: [string, string] | undefined) {
  return core.connection.read(async (db) => {
    const objects = db.transaction(store).objectStore(store);
    const range = rangeOf(stream, from);
    const [values, keys] = await Promise.all([objects.getAll(range, BATCH), objects.getAllKeys(range, BATCH)]);
    const rows = values.flatMap((value) => {
      const row = unpackRow(value);
      return row.ok ? [row.value] : [];
    });
    return { rows, last: keys.length < BATCH ? undefined : keys.at(-1) };
  });
}

function rangeOf(stream: string | undefined, from: [string, string] | undefined): IDBKeyRange | undefined {
  if (stream === undefined) return from && IDBKeyRange.lowerBound(from, true);
  return from ? IDBKeyRange.bound(from, [stream, []], true) : streamRange(stream);
}
