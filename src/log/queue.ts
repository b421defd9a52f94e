import { unwrap } from 'idb';
import { fail, ok, type Result } from '../domain/result';
import { erasedStream } from '../merge/erased';
import type { Json, Row } from '../merge/row';
import { packRow } from './encode';
import { asideRange, ROW_STORES, type RowKey, storeOf, streamRange } from './keys';
import type { Database } from './open';
import type { SeriesRow } from './series';
import type { UndoEntry } from './undo';

/** Why an act is on the screen but not in the store. It stays in memory, and the next write that completes saves it too. */
export type SaveFault =
  | { readonly type: 'storage-full' }
  | { readonly type: 'connection-lost' }
  | { readonly type: 'write-failed'; readonly name: string }
  | { readonly type: 'not-the-writer' }
  /** The client was erased [M10]: an act that would change anything of theirs changes nothing at all. */
  | { readonly type: 'erased' };

/** What waits to be written: names of rows (their newest state is taken when the write begins), and other puts or deletions. */
export type Work = {
  readonly rows: ReadonlySet<RowKey>;
  /** `null` deletes, here and in drafts. */
  readonly undo: ReadonlyMap<number, UndoEntry | null>;
  readonly drafts: ReadonlyMap<string, Json>;
  readonly series: ReadonlyMap<string, SeriesRow>;
  readonly meta: ReadonlyMap<string, Json>;
  /** True where all of it is bulk that can be had again: it is written `relaxed`, until the work that ends it, and kept no second time. */
  readonly bulk: boolean;
};

export type QueueDeps = {
  readonly row: (key: RowKey) => Row | undefined;
  readonly database: () => Database | undefined;
  /** Opens anew, reads again what is waiting and merges it into memory; false where that failed too. */
  readonly reopen: (waiting: ReadonlySet<RowKey>) => Promise<boolean>;
  /** Called once a transaction is complete, with the very rows it put. */
  readonly onSaved: (rows: readonly Row[], bulk: boolean) => void;
  /** Called after every try, with why it failed or null. */
  readonly onSettled: (fault: SaveFault | null) => void;
  /** Called when work was added. */
  readonly onPushed: () => void;
};

export type Queue = {
  /** Adds work. Resolves when it is in the store, or could not be put there (and waits for the next try). */
  readonly push: (work: Partial<Work>) => Promise<Result<void, SaveFault>>;
  /** Resolves when nothing is being written. */
  readonly idle: () => Promise<void>;
  /** Stops before the next transaction, or goes on. While stopped, pushes wait. */
  readonly hold: (held: boolean) => void;
  /** Everything that is not known to be in the store: what is read from there is older. */
  readonly waiting: () => Work;
  /** How many rows are not known to be in the store. */
  readonly unsaved: () => number;
  /**
   * Stops for good, until `hold` is called: another tab writes now. Rows go on waiting, as the other may never get them; the rest is dropped, since
   * it would overwrite what the other has put there since.
   */
  readonly letGo: () => void;
  /** Takes rows off the list that are found to be in the store after all. */
  readonly strike: (isSaved: (key: RowKey) => boolean) => void;
};

/**
 * The one write queue: nothing else puts a row. At most one transaction at a time, holding everything that waits: what an act
 * changed is added in one step, so an act is in one transaction whole, or not at all.
 *
 * A failed transaction loses nothing: its work goes back in front and memory keeps values and stamps [M3].
 */
export function createQueue(deps: QueueDeps): Queue {
  let waiting = emptyWork();
  let waiters: ((result: Result<void, SaveFault>) => void)[] = [];
  let writing: Promise<void> = Promise.resolve();
  let running = false;
  let writingNow = emptyWork();
  /** Who waits for what is being written. */
  let hearing: typeof waiters = [];
  let held = false;
  let letGo = false;

  const push: Queue['push'] = (work) => {
    waiting = joined(waiting, letGo ? rowsOf(work) : work);
    if (letGo) {
      deps.onPushed();
      return Promise.resolve(fail({ type: 'not-the-writer' }));
    }
    if (isEmpty(waiting) && !running) return Promise.resolve(ok(undefined));
    const result = new Promise<Result<void, SaveFault>>((resolve) => {
      waiters.push(resolve);
    });
    deps.onPushed();
    start();
    return result;
  };

  function start(): void {
    if (held || running || isEmpty(waiting)) return;
    running = true;
    writing = drain();
  }

  async function drain(): Promise<void> {
    while (!held && !isEmpty(waiting)) {
      const result = await writeWithRetry();
      const work = writingNow;
      const resolvers = hearing;
      writingNow = emptyWork();
      hearing = [];
      if (!result.ok) waiting = joined(letGo ? rowsOf(work) : work, waiting);
      deps.onSettled(result.ok ? null : result.error);
      for (const resolve of resolvers) resolve(result);
      if (!result.ok) {
        // what came in meanwhile waits behind it
        tellWaiters(result);
        break;
      }
    }
    // in the same step as the last look at what waits: a push in between would wait for ever
    running = false;
    // a push that added nothing to what was being written
    if (isEmpty(waiting)) tellWaiters(ok(undefined));
  }

  function tellWaiters(result: Result<void, SaveFault>): void {
    const resolvers = waiters;
    waiters = [];
    for (const resolve of resolvers) resolve(result);
  }

  /** Takes all that waits to be written now. A row is written as it is then, so the other rows of the act that made it so must go with it. */
  function take(): Work {
    writingNow = joined(writingNow, waiting);
    hearing = [...hearing, ...waiters];
    waiting = emptyWork();
    waiters = [];
    return writingNow;
  }

  /** One reopen and one retry where the connection was lost: its outcome is unknown, so the rows are read and merged first. */
  async function writeWithRetry(): Promise<Result<void, SaveFault>> {
    const first = await write(take());
    if (first.ok || first.error.type !== 'connection-lost') return first;
    try {
      return (await deps.reopen(writingNow.rows)) && !letGo ? await write(take()) : first;
    } catch {
      // what cannot be read again cannot be written over either: the work waits
      return first;
    }
  }

  async function write(work: Work): Promise<Result<void, SaveFault>> {
    const db = deps.database();
    if (!db) return fail({ type: 'connection-lost' });
    const rows = [...work.rows].flatMap((key) => deps.row(key) ?? []);
    try {
      await transact(db, rows, work);
    } catch (error) {
      return fail(faultOf(error));
    }
    deps.onSaved(rows, work.bulk);
    return ok(undefined);
  }

  return {
    push,
    idle: () => writing,
    hold: (now) => {
      held = now;
      letGo = false;
      start();
    },
    waiting: () => joined(writingNow, waiting),
    unsaved: () => (writingNow.rows.size === 0 ? waiting.rows.size : joined(writingNow, waiting).rows.size),
    letGo() {
      held = true;
      letGo = true;
      waiting = rowsOf(waiting);
      tellWaiters(fail({ type: 'not-the-writer' }));
    },
    strike(isSaved) {
      waiting = { ...waiting, rows: new Set([...waiting.rows].filter((key) => !isSaved(key))) };
    },
  };
}

/**
 * Puts everything in one transaction without a read, and with a row that erases a client takes out all that the stores hold of that stream [M10],
 * and resolves on `complete` alone: a quota error can show as an abort with no failed request. Strict: a relaxed commit can lose the last second on
 * a dead battery. Drafts and bulk may.
 *
 * On the bare database: a wrapped request costs as much as its put, and what becomes of each is told by the transaction.
 */
function transact(db: Database, rows: readonly Row[], work: Work): Promise<void> {
  const erased = rows.flatMap((row) => erasedStream(row) ?? []);
  const stores: string[] = [
    ...ROW_STORES.filter((store) => erased.length > 0 || rows.some((row) => storeOf(row.kind) === store)),
    ...(['undo', 'drafts'] as const).filter((store) => work[store].size > 0),
    ...(['series', 'meta'] as const).filter((store) => erased.length > 0 || work[store].size > 0),
  ];
  if (stores.length === 0) return Promise.resolve();
  const draftsOnly = stores.length === 1 && stores[0] === 'drafts';
  const relaxed = draftsOnly || (work.bulk && work.undo.size === 0 && erased.length === 0);
  return new Promise((resolve, reject) => {
    const tx = unwrap(db).transaction(stores, 'readwrite', { durability: relaxed ? 'relaxed' : 'strict' });
    tx.oncomplete = () => resolve();
    tx.onabort = () => reject(tx.error ?? new DOMException('the transaction was aborted', 'AbortError'));
    try {
      for (const row of rows) tx.objectStore(storeOf(row.kind)).put(packRow(row));
      for (const [n, entry] of work.undo) putOrDelete(tx.objectStore('undo'), entry, n);
      for (const [key, value] of work.drafts) putOrDelete(tx.objectStore('drafts'), value, key, key);
      for (const row of work.series.values()) tx.objectStore('series').put(row);
      for (const [key, value] of work.meta) tx.objectStore('meta').put(value, key);
      for (const stream of erased) {
        for (const store of [...ROW_STORES, 'series']) tx.objectStore(store).delete(streamRange(stream));
        tx.objectStore('meta').delete(asideRange(stream));
      }
      tx.commit();
    } catch (error) {
      // nothing of an act without all of it
      abort(tx);
      reject(error);
    }
  });
}

/** Puts one thing that is no row, by a transaction of its own: it is stored when this resolves, or never. */
export async function putMeta(db: Database, name: string, value: Json): Promise<Result<void, SaveFault>> {
  try {
    await transact(db, [], { ...emptyWork(), meta: new Map([[name, value]]), bulk: false });
    return ok(undefined);
  } catch (error) {
    return fail(faultOf(error));
  }
}

function putOrDelete(store: IDBObjectStore, value: unknown, key: IDBValidKey, outOfLine?: IDBValidKey): void {
  if (value === null) store.delete(key);
  else store.put(value, outOfLine);
}

function abort(tx: IDBTransaction): void {
  try {
    tx.abort();
  } catch {
    // it had ended by itself
  }
}

function faultOf(error: unknown): SaveFault {
  const name = error instanceof Error ? error.name : 'unknown';
  if (name === 'QuotaExceededError') return { type: 'storage-full' };
  // a connection that is closed, closing or lost shows under each of these names, by browser
  if (name === 'InvalidStateError' || name === 'UnknownError' || name === 'AbortError')
    return { type: 'connection-lost' };
  return { type: 'write-failed', name };
}

function emptyWork(): Work {
  return { rows: new Set(), undo: new Map(), drafts: new Map(), series: new Map(), meta: new Map(), bulk: true };
}

/** Returns both works as one; where both put the same thing, the later state counts. */
function joined(earlier: Work, later: Partial<Work>): Work {
  return {
    rows: new Set([...earlier.rows, ...(later.rows ?? [])]),
    undo: new Map([...earlier.undo, ...(later.undo ?? [])]),
    drafts: new Map([...earlier.drafts, ...(later.drafts ?? [])]),
    series: new Map([...earlier.series, ...(later.series ?? [])]),
    meta: new Map([...earlier.meta, ...(later.meta ?? [])]),
    bulk: (isEmpty(earlier) || earlier.bulk) && (later.bulk ?? false),
  };
}

const rowsOf = (work: Partial<Work>): Work => ({ ...emptyWork(), rows: work.rows ?? new Set(), bulk: false });

function isEmpty(work: Work): boolean {
  return work.rows.size + work.undo.size + work.drafts.size + work.series.size + work.meta.size === 0;
}
