import type { CDPSession, Page } from 'playwright-core';
import { readSession, type SessionRecord } from '../../src/domain/session';
import { type StoredRow, unpackRow } from '../../src/log/encode';
import { keyOf } from '../../src/log/keys';
import { sessionIdOf } from '../../src/log/openSessions';
import { canonicalRow } from '../../src/merge/canonical';
import { mergeRows } from '../../src/merge/merge';
import type { Row } from '../../src/merge/row';
import { shown } from '../../src/merge/shown';

/** What lies on the disk of a killed browser, read past the app. */
export type Disk = {
  readonly rows: readonly Row[];
  /** Rows that this version cannot read: torn. */
  readonly unreadable: readonly string[];
  readonly drafts: ReadonlyMap<string, unknown>;
  /** What can be read of the second copy. */
  readonly second: readonly Row[];
};

type Raw = { rows: StoredRow[]; drafts: [string, unknown][]; second: string[] };

/**
 * Opens an empty page of the app's origin, in which the app does not run, and reads the stores from there; undefined where the browser has no
 * database any more.
 */
export async function readDisk(page: Page, cdp: CDPSession, url: string, log: string): Promise<Disk | undefined> {
  const blank = `${url}/no-app`;
  // past the service worker, which would answer with the app
  await cdp.send('Network.enable');
  await cdp.send('Network.setBypassServiceWorker', { bypass: true });
  await page.route(blank, (route) => route.fulfill({ contentType: 'text/html', body: '<!doctype html>' }));
  await page.goto(blank);
  const disk = await readHere(page, log);
  await page.unroute(blank);
  await cdp.send('Network.setBypassServiceWorker', { bypass: false });
  return disk;
}

/** Reads the stores from the page as it is, the app running or not; undefined where the browser has no database. */
export async function readHere(page: Page, log: string): Promise<Disk | undefined> {
  const raw = await page.evaluate(readRaw, log);
  if (!raw) return undefined;
  const read = raw.rows.map((row) => ({ name: `${row.stream}/${row.id}`, row: unpackRow(row) }));
  return {
    rows: read.flatMap(({ row }) => (row.ok ? [row.value] : [])),
    unreadable: read.flatMap(({ name, row }) => (row.ok ? [] : [`${name}: ${row.error.type}`])),
    drafts: new Map(raw.drafts),
    second: raw.second.flatMap(rowsIn),
  };
}

/** Returns the rows of a file of the second copy, a line each; none of a file that is torn or was swapped meanwhile. */
function rowsIn(text: string): readonly Row[] {
  try {
    const rows = text.split('\n').map((line) => unpackRow(JSON.parse(line) as StoredRow));
    return rows.flatMap((row) => (row.ok ? [row.value] : []));
  } catch {
    return [];
  }
}

/** Returns whether the store holds all that the second copy does: then the app has brought back what there was. */
export function holdsSecond(disk: Disk): boolean {
  const rows = new Map(disk.rows.map((row) => [keyOf(row), row]));
  return disk.second.every((copy) => {
    const row = rows.get(keyOf(copy));
    const merged = row && mergeRows(row, copy);
    return row && merged?.ok && canonicalRow(merged.value) === canonicalRow(row);
  });
}

/** A session as it lies on the disk, with the rows it is made of. */
export type DiskSession = { readonly rows: readonly Row[]; readonly session: SessionRecord | undefined };

/** Returns the sessions by `stream/id`. */
export function sessionsOf(disk: Disk): ReadonlyMap<string, DiskSession> {
  const rows = new Map<string, Row[]>();
  for (const row of disk.rows.filter((one) => one.kind === 'session')) {
    const key = `${row.stream}/${sessionIdOf(row)}`;
    rows.set(key, [...(rows.get(key) ?? []), row]);
  }
  return new Map(
    [...rows].map(([key, own]) => {
      const id = key.slice(key.indexOf('/') + 1);
      return [
        key,
        {
          rows: own,
          session: readSession(
            id,
            own.map((row) => ({ id: row.id, values: shown(row) })),
          ),
        },
      ];
    }),
  );
}

/** Runs in the page. */
async function readRaw(log: string): Promise<Raw | undefined> {
  const settled = <T>(request: IDBRequest<T>): Promise<T> =>
    new Promise((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  const opening = indexedDB.open(log);
  // an empty database in the place of a lost one would hide the loss
  opening.onupgradeneeded = () => opening.transaction?.abort();
  let db: IDBDatabase;
  try {
    db = await settled(opening);
  } catch {
    return undefined;
  }
  const tx = db.transaction(['rows', 'sessions', 'results', 'drafts']);
  const all = await Promise.all(
    ['rows', 'sessions', 'results'].map((store) => settled<StoredRow[]>(tx.objectStore(store).getAll())),
  );
  const keys = await settled(tx.objectStore('drafts').getAllKeys());
  const values = await settled<unknown[]>(tx.objectStore('drafts').getAll());
  db.close();
  const second = async (): Promise<string[]> => {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle(`${log}-second`).catch(() => undefined);
    const texts: string[] = [];
    if (!folder) return texts;
    for await (const handle of folder.values()) {
      if (handle.kind === 'file') texts.push(await (await (handle as FileSystemFileHandle).getFile()).text());
    }
    return texts;
  };
  // a file that is swapped in meanwhile is gone under its old name
  const texts = await second().catch(second).catch(second);
  return { rows: all.flat(), drafts: keys.map((key, index) => [String(key), values[index]]), second: texts };
}
