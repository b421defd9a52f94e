import type { Row } from '../merge/row';
import type { Core } from './core';
import { unpackRow } from './encode';
import { keyOf, ROW_STORES, type RowKey, type RowStore, streamRange } from './keys';
import type { Log } from './log';

const BATCH = 500;

/**
 * Calls `take` with the rows of the log (of one stream, where that is named), a few hundred at a time: each as memory holds it, or else as it is stored; none
 * twice. For what looks at everything and keeps little: recently removed, values beside each other. Returns false where the store
 * could not be read.
 */
export async function scanRows(
  log: Log,
  take: (rows: readonly Row[]) => void | Promise<void>,
  stream?: string,
): Promise<boolean> {
  const batches = batchesOf(log, stream);
  for (;;) {
    const next = await batches.next();
    if (next.done) return next.value;
    await take(next.value);
  }
}

/** Yields what `scanRows` tells, as it is asked for and at most so many at a time: for what is written as it is read. */
export async function* batchesOf(
  log: Log,
  stream?: string,
  most: number = BATCH,
): AsyncGenerator<readonly Row[], boolean, undefined> {
  const isOf = (row: Row): boolean => stream === undefined || row.stream === stream;
  const held = log.inside(({ memory }) => memory.all().filter((row) => isOf(row) && !memory.isErased(row.stream)));
  const told = new Set<RowKey>(held.map(keyOf));
  for (let n = 0; n < held.length; n += most) yield held.slice(n, n + most);
  for (const store of ROW_STORES) {
    let from: [string, string] | undefined;
    for (;;) {
      const found = await log.inside((core) => readSome(core, store, stream, from, most));
      if (!found) return false;
      const fresh = found.rows.filter((row) => isOf(row) && !told.has(keyOf(row)));
      if (fresh.length > 0) yield fresh;
      from = found.last;
      if (!from) break;
    }
  }
  return true;
}

/** Returns every stream that the log holds anything of, `main` left out; undefined where the store could not be read. */
export function streamsOf(log: Log): Promise<readonly string[] | undefined> {
  return log.inside(async (core) => {
    const streams = new Set(core.memory.all().map((row) => row.stream));
    const read = await core.connection.read(async (db) => {
      const tx = db.transaction(ROW_STORES);
      for (const store of ROW_STORES) {
        const keys = tx.objectStore(store);
        // from one stream's first key to the next stream's
        let [key] = await keys.getAllKeys(null, 1);
        while (key) {
          streams.add(key[0]);
          [key] = await keys.getAllKeys(IDBKeyRange.lowerBound([key[0], []], true), 1);
        }
      }
      return true;
    });
    streams.delete('main');
    return read ? [...streams].filter((stream) => !core.memory.isErased(stream)) : undefined;
  });
}

async function readSome(
  core: Core,
  store: RowStore,
  stream: string | undefined,
  from: [string, string] | undefined,
  most: number,
) {
  const read = await core.connection.read(async (db) => {
    const objects = db.transaction(store).objectStore(store);
    const range = rangeOf(stream, from);
    const [values, keys] = await Promise.all([objects.getAll(range, most), objects.getAllKeys(range, most)]);
    return { values, last: keys.length < most ? undefined : keys.at(-1) };
  });
  const rows = read?.values.flatMap((value) => {
    const row = unpackRow(value);
    if (!row.ok || core.memory.isErased(row.value.stream)) return [];
    // what was taken into memory meanwhile is newer there
    return [core.memory.get(keyOf(row.value)) ?? row.value];
  });
  return read && rows ? { rows, last: read.last } : undefined;
}

function rangeOf(stream: string | undefined, from: [string, string] | undefined): IDBKeyRange | undefined {
  if (stream === undefined) return from && IDBKeyRange.lowerBound(from, true);
  return from ? IDBKeyRange.bound(from, [stream, []], true) : streamRange(stream);
}
