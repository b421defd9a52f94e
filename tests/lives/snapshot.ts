import type { StoredRow } from '../../src/log/encode';
import { unpackRow } from '../../src/log/encode';
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
      const row = unpackRow(value as StoredRow);
      if (row.ok) rows.set(`${row.value.stream}/${row.value.id}`, row.value);
    }
  }
  return rows;
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
