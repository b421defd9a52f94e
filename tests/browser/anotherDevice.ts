import type { Page } from 'playwright-core';
import type { StoredRow } from '../../src/log/encode';
import type { Json } from '../../src/merge/row';

/* What another device wrote, put into the store of this one as a merge would have left it. */

type Store = 'rows' | 'sessions' | 'results';
/** What the other device wrote at a path: beside what stands there, or as the only value. */
export type Written = { readonly value: Json; readonly beside?: boolean };

const WRITER = 'laptop01-writer01';

/** Puts what another device wrote into the rows of a store that `path` tells: those that hold a path that begins so. Close the page afterwards. */
export async function writeFromAnother(
  page: Page,
  store: Store,
  path: string,
  write: (row: StoredRow) => Readonly<Record<string, Written>>,
): Promise<void> {
  const texts = await page.evaluate(
    async ([name, begin]) => {
      const opening = indexedDB.open('cuewright');
      const db = await new Promise<IDBDatabase>((resolve) => {
        opening.onsuccess = () => resolve(opening.result);
      });
      const all = db.transaction(name).objectStore(name).getAll();
      const rows = await new Promise<{ body: object }[]>((resolve) => {
        all.onsuccess = () => resolve(all.result);
      });
      db.close();
      return rows
        .filter(({ body }) => Object.keys(body).some((one) => one.startsWith(begin)))
        .map((row) => JSON.stringify(row));
    },
    [store, path] as const,
  );
  if (texts.length === 0) throw new Error(`no row in ${store} holds ${path}`);
  const changed = texts.map((text) => {
    const row = JSON.parse(text) as StoredRow;
    return JSON.stringify(written(row, write(row)));
  });
  await page.evaluate(
    async ([name, rows]) => {
      const opening = indexedDB.open('cuewright');
      const db = await new Promise<IDBDatabase>((resolve) => {
        opening.onsuccess = () => resolve(opening.result);
      });
      const tx = db.transaction(name, 'readwrite', { durability: 'strict' });
      for (const row of rows) tx.objectStore(name).put(JSON.parse(row));
      await new Promise<void>((resolve) => {
        tx.oncomplete = () => resolve();
      });
      db.close();
      // an import would be the last act now, and what was gathered before it no longer holds
      localStorage.removeItem('cuewright.records-waiting');
    },
    [store, changed] as const,
  );
}

function written(row: StoredRow, by: Readonly<Record<string, Written>>): StoredRow {
  const l = 1 + Math.max(...row.seen.map(([, highest]) => highest));
  const writer = row.seen.length;
  const body: Record<string, readonly unknown[]> = { ...row.body };
  for (const [path, { value, beside }] of Object.entries(by)) {
    body[path] = [l, writer, value, ...(beside ? (body[path] ?? []) : [])];
  }
  return { ...row, seen: [...row.seen, [WRITER, l]], body } as StoredRow;
}
