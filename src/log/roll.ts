import { unwrap } from 'idb';
import type { Database } from './open';

/*
 * Chromium keeps IndexedDB behind a log file that it appends to, across starts too. A kill in the middle of a write can leave half a record
 * at its end. The next start reads up to there and appends behind the torn record; the start after that finds the file corrupt and throws
 * the whole database away (seen in about one of a hundred kills: `dataLoss` is "total", "checksum mismatch"). Once some 4 MB have been
 * written, the browser puts what it has in another file and drops the log file: so a start writes as much before anything else, and is rid of what
 * the last end may have torn.
 */

/** More than the 4 MB after which the file is dropped. A value of 64 kB and more would lie in a file of its own. */
const TEXTS = 96;
const LENGTH = 56_000;
const AT_ONCE = 8;

/** Returns whether this browser stores in the way that needs it: only Chromium tells of data that it threw away. */
export const needsRolling = (): boolean =>
  typeof IDBVersionChangeEvent !== 'undefined' && 'dataLoss' in IDBVersionChangeEvent.prototype;

/** Makes the browser begin a new log file. In small steps: a tap is drawn in between. Rejects where the browser will not write. */
export async function rollLogFile(db: Database): Promise<void> {
  const text = 'x'.repeat(LENGTH);
  for (let n = 0; n < TEXTS; n += AT_ONCE) {
    await write(db, (meta) => {
      for (let key = 0; key < AT_ONCE; key += 1) meta.put(text, `roll-${key}`);
    });
  }
  await write(db, (meta) => {
    for (let key = 0; key < AT_ONCE; key += 1) meta.delete(`roll-${key}`);
  });
}

function write(db: Database, put: (meta: IDBObjectStore) => void): Promise<void> {
  return new Promise((resolve, reject) => {
    const tx = unwrap(db).transaction('meta', 'readwrite', { durability: 'relaxed' });
    tx.oncomplete = () => resolve();
    tx.onabort = () => reject(tx.error ?? new DOMException('the transaction was aborted', 'AbortError'));
    put(tx.objectStore('meta'));
    tx.commit();
  });
}
