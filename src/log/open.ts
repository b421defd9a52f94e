import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { fail, ok, type Result } from '../domain/result';
import type { Json } from '../merge/row';
import type { StoredRow } from './encode';
import type { SeriesRow } from './series';
import type { UndoEntry } from './undo';

/** The stores of a log, and what lies in them. */
export interface Schema extends DBSchema {
  rows: { key: [string, string]; value: StoredRow };
  sessions: { key: [string, string]; value: StoredRow };
  results: { key: [string, string]; value: StoredRow };
  undo: { key: number; value: UndoEntry };
  drafts: { key: string; value: Json };
  series: { key: [string, string]; value: SeriesRow };
  meta: { key: string; value: Json };
}
export type Database = IDBPDatabase<Schema>;

/** Why the log's database is not open. `blocked`: another tab holds an older one open. `newer`: it was written by a newer app. */
export type OpenFault =
  | { readonly type: 'no-storage' }
  | { readonly type: 'open-timeout' }
  | { readonly type: 'blocked' }
  | { readonly type: 'newer' }
  | { readonly type: 'open-failed'; readonly name: string };

const VERSION = 1;
/** An open can hang for ever (WebKit 226547): it is raced, tried once more, and then the trainer is told. */
const OPEN_MS = 3000;

/**
 * Opens the log's database, racing each of two tries with a timeout. `onLost` is called once if the connection ends later: `closed` by the
 * browser, or `yielded` to a newer app's tab (the connection is closed at once, as others would hang behind it).
 */
export async function openDatabase(
  name: string,
  onLost: (why: 'closed' | 'yielded') => void,
): Promise<Result<Database, OpenFault>> {
  const first = await tryOpen(name, onLost);
  return first.ok || first.error.type !== 'open-timeout' ? first : tryOpen(name, onLost);
}

async function tryOpen(
  name: string,
  onLost: (why: 'closed' | 'yielded') => void,
): Promise<Result<Database, OpenFault>> {
  if (typeof indexedDB === 'undefined') return fail({ type: 'no-storage' });
  let blocked = false;
  const timeout = new Promise<'timeout'>((resolve) => setTimeout(() => resolve('timeout'), OPEN_MS));
  try {
    // where storage is forbidden this throws at once
    const opening = openDB<Schema>(name, VERSION, {
      upgrade(db, from) {
        if (from < 1) createStores(db);
      },
      blocked() {
        blocked = true;
      },
      blocking(_current, _wanted, event) {
        (event.target as IDBDatabase).close();
        onLost('yielded');
      },
      terminated: () => onLost('closed'),
    });
    const opened = await Promise.race([opening, timeout]);
    if (opened !== 'timeout') return ok(opened);
    // a try that succeeds after all must not hold the database against the next one
    opening.then((late) => late.close(), ignore);
    return fail({ type: blocked ? 'blocked' : 'open-timeout' });
  } catch (error) {
    const name = error instanceof Error ? error.name : 'unknown';
    if (name === 'VersionError') return fail({ type: 'newer' });
    return fail(
      name === 'SecurityError' || name === 'InvalidStateError' ? { type: 'no-storage' } : { type: 'open-failed', name },
    );
  }
}

function createStores(db: Database): void {
  db.createObjectStore('rows', { keyPath: ['stream', 'id'] });
  db.createObjectStore('sessions', { keyPath: ['stream', 'id'] });
  db.createObjectStore('results', { keyPath: ['stream', 'id'] });
  db.createObjectStore('undo', { keyPath: 'n' });
  db.createObjectStore('drafts');
  db.createObjectStore('series', { keyPath: ['stream', 'exercise'] });
  db.createObjectStore('meta');
}

/** The timeout has already told; a late refusal says nothing new. */
const ignore = (): void => undefined;
