import {
  IDBDatabase as FakeDatabase,
  IDBFactory as FakeFactory,
  IDBObjectStore as FakeObjectStore,
  IDBOpenDBRequest as FakeOpenRequest,
  IDBTransaction as FakeTransaction,
  forceCloseDatabase,
} from 'fake-indexeddb';
import { caller, type Life, tell } from './life';

/*
 * The device's database: fake-indexeddb, with a gate at every event and every transaction. Through the gate a test sees what the app
 * asks for, decides the fate of a transaction, and kills or freezes the app at any moment.
 */

/** What becomes of a transaction that writes, decided when it begins. */
export type Fate =
  /** It ends as the browser's abort with this error (null: an abort that gives no reason). Nothing is stored. */
  | { readonly type: 'aborts'; readonly error: string | null }
  /** It is stored, but the app hears of an abort: the connection was lost at the wrong moment. */
  | { readonly type: 'stored-but-lost'; readonly error: string }
  /** It cannot begin. */
  | { readonly type: 'refused'; readonly error: string }
  /** It is stored, and the app hears of it when `until` resolves. */
  | { readonly type: 'told-late'; readonly until: Promise<void> };

/** A transaction as the app asked for it. */
export type Asked = {
  readonly life: Life;
  readonly stores: readonly string[];
  readonly mode: IDBTransactionMode;
  readonly durability: string;
  /** Each call on its stores, in order: `put sessions`, `getAll rows`. */
  readonly calls: string[];
  readonly puts: { readonly store: string; readonly value: unknown }[];
  committed: boolean;
};

export type Disk = {
  readonly factory: IDBFactory;
  /** The same databases without the gate, for a test to look into. */
  readonly real: IDBFactory;
  readonly asked: Asked[];
  /** Decides the fate of the transactions that write; undefined lets one be. */
  fate: ((asked: Asked) => Fate | undefined) | undefined;
  /** What opening does: the browser opens, hangs for ever, or throws an error of this name. */
  opening: 'works' | 'hangs' | { readonly throws: string };
  /** Done while the app waits for an opening: it hears of it afterwards. */
  whileOpening: (() => Promise<void>) | undefined;
  /** How often the app has asked to open it. */
  opened: number;
  /** True while every read fails. */
  readsFail: boolean;
  /** False where nobody looks at `asked`: a long life would keep all that it ever wrote. */
  records: boolean;
};

type Inner = IDBTransaction & {
  _state: 'active' | 'inactive' | 'committing' | 'finished';
  _abort: (name: string | null) => void;
  error: DOMException | null;
};
type InnerDatabase = { readonly _rawDatabase: { readonly processTransactions: () => void } };
type Target = EventTarget & {
  readonly transaction?: Inner | null;
  readonly source?: unknown;
  readonly db?: IDBDatabase;
};

const lifeOfDatabase = new WeakMap<object, Life>();
const diskOfDatabase = new WeakMap<object, Disk>();
const openingWaits = new WeakMap<object, Promise<void>>();
const lifeOfOpening = new WeakMap<object, Life>();
const askedOf = new WeakMap<object, Asked>();
const fateOf = new WeakMap<object, Fate>();
const told = new WeakSet<object>();
const committed = new WeakSet<object>();
const runningOf = new WeakMap<Life, Set<Inner>>();
const openOf = new WeakMap<Life, Set<IDBDatabase>>();

/** Returns an empty disk. */
export function createDisk(): Disk {
  const real = new FakeFactory();
  const disk: Disk = {
    factory: real,
    real,
    asked: [],
    fate: undefined,
    opening: 'works',
    whileOpening: undefined,
    opened: 0,
    readsFail: false,
    records: true,
  };
  const open = (name: string, version?: number): IDBOpenDBRequest => {
    const life = caller();
    disk.opened += 1;
    if (life.state === 'dead' || disk.opening === 'hangs') return new FakeOpenRequest();
    if (disk.opening !== 'works') throw new DOMException('', disk.opening.throws);
    const request = version === undefined ? real.open(name) : real.open(name, version);
    lifeOfOpening.set(request, life);
    if (disk.whileOpening) openingWaits.set(request, disk.whileOpening());
    const label = (): void => {
      const database = request.result;
      lifeOfDatabase.set(database, life);
      diskOfDatabase.set(database, disk);
      openOf.set(life, (openOf.get(life) ?? new Set()).add(database));
    };
    request.addEventListener('upgradeneeded', label);
    request.addEventListener('success', label);
    return request;
  };
  return Object.assign(disk, {
    factory: new Proxy(real, { get: (at, name) => (name === 'open' ? open : Reflect.get(at, name)) }),
  });
}

/**
 * Ends what a launch has to do with the disk. A transaction whose commit was asked for may have reached the disk (`lands`) though nobody
 * is left to hear of it; any other is rolled back.
 */
export function dieOnDisk(life: Life, lands: boolean): void {
  for (const tx of runningOf.get(life) ?? []) {
    const reaches = lands && (tx._state === 'committing' || committed.has(tx));
    if (tx.mode === 'readwrite' && tx._state !== 'finished' && !reaches) tx._abort(null);
  }
  for (const database of openOf.get(life) ?? []) database.close();
}

/** Ends every connection of a launch as a browser does that lost its storage process: without asking. */
export function loseConnections(life: Life): void {
  for (const database of openOf.get(life) ?? []) (forceCloseDatabase as unknown as (db: IDBDatabase) => void)(database);
}

/** Returns everything in a store, past the gate. */
export function lookInto(disk: Disk, name: string, store: string): Promise<unknown[]> {
  return past(disk, name, store, 'readonly', (objects) => objects.getAll());
}

/** Puts something into a store, past the gate: as another tab, another version or bad luck would have left it. */
export async function putInto(
  disk: Disk,
  name: string,
  store: string,
  value: unknown,
  key?: IDBValidKey,
): Promise<void> {
  await past(disk, name, store, 'readwrite', (objects) => objects.put(value, key));
}

/** Takes something out of a store, past the gate. */
export async function takeFrom(disk: Disk, name: string, store: string, key: IDBValidKey): Promise<void> {
  await past(disk, name, store, 'readwrite', (objects) => objects.delete(key));
}

function past<T>(
  disk: Disk,
  name: string,
  store: string,
  mode: IDBTransactionMode,
  fn: (objects: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  return new Promise((resolve, reject) => {
    const opening = disk.real.open(name);
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      const tx = opening.result.transaction(store, mode);
      const request = fn(tx.objectStore(store));
      tx.onabort = () => reject(tx.error);
      tx.oncomplete = () => {
        opening.result.close();
        resolve(request.result);
      };
    };
  });
}

const dispatch = Object.getPrototypeOf(FakeTransaction.prototype).dispatchEvent as EventTarget['dispatchEvent'];

Object.getPrototypeOf(FakeTransaction.prototype).dispatchEvent = function (this: Target, event: Event): boolean {
  const life = lifeOf(this);
  // an upgrade that has begun ends by itself, whoever is left to see it
  if (!life || event.type === 'upgradeneeded' || this.transaction?.mode === 'versionchange')
    return dispatch.call(this, event);
  if (this instanceof FakeTransaction && (event.type === 'complete' || event.type === 'abort')) {
    runningOf.get(life)?.delete(this as Inner);
    if ((this as Inner).mode === 'versionchange') return dispatch.call(this, event);
    // the next transaction waits for this one's end, not for the app to hear of it
    ((this as Inner).db as unknown as InnerDatabase)._rawDatabase.processTransactions();
    return endsAs(this as Inner, event, life);
  }
  const waits = openingWaits.get(this);
  if (waits) void waits.then(() => tell(life, () => void dispatch.call(this, event)));
  else tell(life, () => void dispatch.call(this, event));
  return true;
};

function endsAs(tx: Inner, event: Event, life: Life): boolean {
  if (told.has(tx)) return true;
  told.add(tx);
  const fate = fateOf.get(tx);
  if (event.type === 'complete' && fate?.type === 'stored-but-lost') {
    tx.error = new DOMException('', fate.error);
    Object.assign(event, { type: 'abort' });
  }
  if (fate?.type === 'told-late') void fate.until.then(() => tell(life, () => void dispatch.call(tx, event)));
  else tell(life, () => void dispatch.call(tx, event));
  return true;
}

const begin = FakeDatabase.prototype.transaction;

FakeDatabase.prototype.transaction = function (this: IDBDatabase, stores, mode, options) {
  const life = lifeOfDatabase.get(this);
  const disk = diskOfDatabase.get(this);
  if (!life || !disk || (mode as string) === 'versionchange') return begin.call(this, stores, mode, options);
  const asked: Asked = {
    life,
    stores: [...(typeof stores === 'string' ? [stores] : stores)].sort(),
    mode: mode ?? 'readonly',
    durability: options?.durability ?? 'default',
    calls: [],
    puts: [],
    committed: false,
  };
  if (disk.records) disk.asked.push(asked);
  const unreadable = disk.readsFail ? ({ type: 'refused', error: 'UnknownError' } as const) : undefined;
  const fate = mode === 'readwrite' ? disk.fate?.(asked) : unreadable;
  if (fate?.type === 'refused') throw new DOMException('', fate.error);
  const tx = begin.call(this, stores, mode, options) as Inner;
  if (disk.records) askedOf.set(tx, asked);
  if (fate) fateOf.set(tx, fate);
  runningOf.set(life, (runningOf.get(life) ?? new Set()).add(tx));
  const commit = tx.commit.bind(tx);
  tx.commit = () => {
    asked.committed = true;
    committed.add(tx);
    if (fate?.type === 'aborts') tx._abort(fate.error);
    else commit();
  };
  return tx;
};

for (const call of [
  'put',
  'add',
  'delete',
  'clear',
  'get',
  'getKey',
  'getAll',
  'getAllKeys',
  'count',
  'openCursor',
] as const) {
  const prototype = FakeObjectStore.prototype as unknown as Record<string, (...args: unknown[]) => unknown>;
  const real = prototype[call]!;
  prototype[call] = function (this: IDBObjectStore, ...args: unknown[]) {
    const asked = askedOf.get(this.transaction);
    asked?.calls.push(`${call} ${this.name}`);
    if (call === 'put') asked?.puts.push({ store: this.name, value: structuredClone(args[0]) });
    return real.apply(this, args);
  };
}

function lifeOf(target: Target): Life | undefined {
  const opening = lifeOfOpening.get(target);
  if (opening) return opening;
  const database = target instanceof FakeDatabase ? target : (target.db ?? target.transaction?.db);
  return database && lifeOfDatabase.get(database);
}
