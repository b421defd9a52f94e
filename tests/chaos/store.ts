import type { CDPSession, Page } from 'playwright-core';
import { readSession, type SessionRecord } from '../../src/domain/session';
import { type StoredRow, unpackRow } from '../../src/log/encode';
import { sessionIdOf } from '../../src/log/openSessions';
import type { Row } from '../../src/merge/row';
import { shown } from '../../src/merge/shown';

/** What lies on the disk of a killed browser, read past the app. */
export type Disk = {
  readonly rows: readonly Row[];
  /** Rows that this version cannot read: torn. */
  readonly unreadable: readonly string[];
  readonly drafts: ReadonlyMap<string, unknown>;
  /** Names of the files of the second copy. */
  readonly second: readonly string[];
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
  const raw = await page.evaluate(readRaw, log);
  await page.unroute(blank);
  await cdp.send('Network.setBypassServiceWorker', { bypass: false });
  if (!raw) return undefined;
  const read = raw.rows.map((row) => ({ name: `${row.stream}/${row.id}`, row: unpackRow(row) }));
  return {
    rows: read.flatMap(({ row }) => (row.ok ? [row.value] : [])),
    unreadable: read.flatMap(({ name, row }) => (row.ok ? [] : [`${name}: ${row.error.type}`])),
    drafts: new Map(raw.drafts),
    second: raw.second,
  };
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
  const second: string[] = [];
  try {
    const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle(`${log}-second`);
    for await (const name of folder.keys()) second.push(name);
  } catch {
    // there is none yet
  }
  return { rows: all.flat(), drafts: keys.map((key, index) => [String(key), values[index]]), second };
}
