import type { StoredRow } from '../../src/log/encode';
import { unpackRow } from '../../src/log/encode';
import { canonicalRow } from '../../src/merge/canonical';
import type { Row } from '../../src/merge/row';
import type { Device } from '../log/fakes/device';
import { createDisk, type Disk } from '../log/fakes/disk';
import { turns } from './timers';

/* The disk of a device, looked at and copied past everything: a copy of a phone takes all of it along. */

type Record = { readonly key: unknown; readonly value: unknown };
type RawStore = {
  readonly name: string;
  readonly keyPath: unknown;
  readonly records: { readonly values: () => Iterable<Record>; readonly put: (record: Record) => void };
};
type RawDatabase = {
  readonly name: string;
  readonly version: number;
  readonly rawObjectStores: Map<string, RawStore>;
  readonly transactions: readonly { readonly _state: string }[];
};
type Raw = { readonly _databases: Map<string, RawDatabase> };

export const LOG = 'log';

const databaseOf = (disk: Disk): RawDatabase | undefined => (disk.real as unknown as Raw)._databases.get(LOG);

/** Waits until no transaction is under way: one whose app is dead may still be reaching the disk. */
export async function quiet(disk: Disk): Promise<void> {
  for (let turn = 0; turn < 2000; turn += 1) {
    if (databaseOf(disk)?.transactions.every(({ _state }) => _state === 'finished') ?? true) return;
    await turns(1);
  }
  throw new Error('a transaction never ends');
}

/** Returns what lies in a store, keys and values. */
export function recordsIn(disk: Disk, store: string): readonly Record[] {
  return [...(databaseOf(disk)?.rawObjectStores.get(store)?.records.values() ?? [])];
}

/** Returns every row on a disk, by `stream/id`. */
export function rowsOn(disk: Disk): Map<string, Row> {
  const rows = new Map<string, Row>();
  for (const store of ['rows', 'sessions', 'results']) {
    for (const { value } of recordsIn(disk, store)) {
      const row = unpacked(value as StoredRow);
      if (row) rows.set(`${row.stream}/${row.id}`, row);
    }
  }
  return rows;
}

// neither what lies in a store nor a row ever changes in place: each is read once
const rowOf = new WeakMap<StoredRow, Row>();
const textOf = new WeakMap<Row, string>();

function unpacked(stored: StoredRow): Row | undefined {
  const known = rowOf.get(stored);
  if (known) return known;
  const row = unpackRow(stored);
  if (row.ok) rowOf.set(stored, row.value);
  return row.ok ? row.value : undefined;
}

/** Returns the one text of a row. */
export function textIn(row: Row): string {
  const known = textOf.get(row) ?? canonicalRow(row);
  textOf.set(row, known);
  return known;
}

/** Returns everything that a device keeps, as one text. */
export function everythingOn({ disk, files, local }: Device): string {
  const stores = [...(databaseOf(disk)?.rawObjectStores.keys() ?? [])];
  const kept = stores.map((store) => [store, recordsIn(disk, store).map(({ key, value }) => [key, value])]);
  const folders = [...files].map(([name, folder]) => [name, [...folder]]);
  return JSON.stringify([kept, folders, [...local]]);
}

/** Returns a disk that holds what another holds now. */
export function copyOf(disk: Disk): Disk {
  const copy = createDisk();
  copy.records = false;
  const from = databaseOf(disk);
  if (!from) return copy;
  const Database = from.constructor as new (name: string, version: number) => RawDatabase;
  const to = new Database(from.name, from.version);
  for (const store of from.rawObjectStores.values()) {
    const Store = store.constructor as new (...of: unknown[]) => RawStore;
    const made = new Store(to, store.name, store.keyPath, false);
    // what lies in a store is never changed in place
    for (const { key, value } of store.records.values()) made.records.put({ key, value });
    to.rawObjectStores.set(store.name, made);
  }
  (copy.real as unknown as Raw)._databases.set(LOG, to);
  return copy;
}
