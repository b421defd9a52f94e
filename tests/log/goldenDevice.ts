import type { Log } from '../../src/log/log';
import { createDevice, type Device } from './fakes/device';
import { turns } from './fakes/life';
import { EVENING } from './fakes/world';

/*
 * All that a device keeps, as a golden file holds it: its database with the stores as they were made, the files of the second copy, and
 * the texts beside them. It is put into a device with nothing of the app's own code, so that the file alone says what the shape was.
 */

type Store = {
  /** What its keys are read from; null: each record has its key beside it, as `[key, value]`. */
  readonly keyPath: string | readonly string[] | null;
  readonly records: readonly unknown[];
};

export type Kept = {
  /** When the device was put away (ms). */
  readonly at: number;
  readonly database: string;
  readonly version: number;
  readonly stores: Readonly<Record<string, Store>>;
  /** Texts by folder and name. */
  readonly files: Readonly<Record<string, Readonly<Record<string, string>>>>;
  readonly localStorage: Readonly<Record<string, string>>;
};

const asked = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

/** Returns all that a device keeps of a log; the app must not run any more. */
export async function keptOn(device: Device, database: string): Promise<Kept> {
  const db = await asked(device.disk.real.open(database));
  const stores: Record<string, Store> = {};
  for (const name of db.objectStoreNames) {
    const objects = db.transaction(name).objectStore(name);
    const keys = await asked(objects.getAllKeys());
    const values = (await asked(objects.getAll())) as unknown[];
    const keyPath = objects.keyPath as Store['keyPath'];
    stores[name] = { keyPath, records: keyPath === null ? values.map((value, n) => [keys[n], value]) : values };
  }
  const { version } = db;
  db.close();
  return {
    at: device.world.now(),
    database,
    version,
    stores,
    files: Object.fromEntries([...device.files].map(([folder, files]) => [folder, Object.fromEntries(files)])),
    localStorage: Object.fromEntries(device.local),
  };
}

/** Returns a device that keeps this and nothing else, an hour after it was put away. */
export async function deviceWith(kept: Kept, seed: number): Promise<Device> {
  const device = createDevice(seed);
  device.world.pass(kept.at - EVENING + 3_600_000);
  const opening = device.disk.real.open(kept.database, kept.version);
  opening.onupgradeneeded = () => {
    for (const [name, { keyPath }] of Object.entries(kept.stores))
      opening.result.createObjectStore(name, keyPath === null ? {} : { keyPath: keyPath as string | string[] });
  };
  const db = await asked(opening);
  for (const [name, { keyPath, records }] of Object.entries(kept.stores)) {
    const objects = db.transaction(name, 'readwrite').objectStore(name);
    for (const record of records) {
      const [value, key] = keyPath === null ? [...(record as [IDBValidKey, unknown])].reverse() : [record];
      await asked(objects.put(value, key as IDBValidKey | undefined));
    }
  }
  db.close();
  for (const [folder, files] of Object.entries(kept.files)) device.files.set(folder, new Map(Object.entries(files)));
  for (const [name, text] of Object.entries(kept.localStorage)) device.local.set(name, text);
  return device;
}

/** Waits until a log has nothing left to do: what a start does behind the screen, what waits to be written, what is folded. */
export async function atRest(log: Log): Promise<void> {
  await log.ready;
  for (let round = 0; round < 3; round += 1) {
    await turns(30);
    log.flush();
    await log.retry();
    await log.inside((core) => core.folding);
    await log.inside(async (core) => (await core.second)?.settled());
  }
}

/** Returns what is kept as a text: JSON, a record a line. */
export function textOf({ stores, files, ...kept }: Kept): string {
  const lines = (all: readonly string[]): string => all.map((one) => `\n${one}`).join(',');
  const each = Object.entries(stores).map(
    ([name, { keyPath, records }]) =>
      `${JSON.stringify(name)}: {"keyPath": ${JSON.stringify(keyPath)}, "records": [${lines(records.map((one) => JSON.stringify(one)))}]}`,
  );
  const folders = Object.entries(files).map(([folder, own]) => {
    const texts = Object.entries(own).map((file) => file.map((text) => JSON.stringify(text)).join(': '));
    return `${JSON.stringify(folder)}: {${lines(texts)}}`;
  });
  const { localStorage, ...head } = kept;
  const texts = Object.entries(localStorage).map((one) => one.map((text) => JSON.stringify(text)).join(': '));
  const fields = Object.entries(head).map(([name, value]) => `${JSON.stringify(name)}: ${JSON.stringify(value)}`);
  return `{${lines([
    ...fields,
    `"localStorage": {${lines(texts)}}`,
    `"stores": {${lines(each)}}`,
    `"files": {${lines(folders)}}`,
  ])}\n}\n`;
}
