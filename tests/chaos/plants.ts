/*
 * Planted bugs: each is a patch that runs in the page before the app does, and that the lab must find. Self-contained: they are sent as text.
 */

/** Tells that a write of a session is complete 30 ms before it is put. */
export function completeTooEarly(): void {
  const { put } = IDBObjectStore.prototype;
  const { commit } = IDBTransaction.prototype;
  IDBObjectStore.prototype.put = function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
    if (this.name !== 'sessions') return key === undefined ? put.call(this, value) : put.call(this, value, key);
    const end = performance.now() + 30;
    // reads keep the transaction alive until it is time
    const wait = (): IDBRequest => {
      const reading = this.count();
      reading.onsuccess = () => void (performance.now() < end ? wait() : put.call(this, value));
      return reading;
    };
    return wait();
  };
  IDBTransaction.prototype.commit = function (this: IDBTransaction) {
    if (!this.objectStoreNames.contains('sessions')) commit.call(this);
    else setTimeout(() => this.dispatchEvent(new Event('complete')));
  };
}

/** Aborts every second write of a session and tells that it is complete. */
export function abortUnsaid(): void {
  let n = 0;
  const { commit } = IDBTransaction.prototype;
  IDBTransaction.prototype.commit = function (this: IDBTransaction) {
    if (!this.objectStoreNames.contains('sessions') || ++n % 2 === 1) return commit.call(this);
    this.abort();
    setTimeout(() => this.dispatchEvent(new Event('complete')));
  };
  const { transaction } = IDBDatabase.prototype;
  IDBDatabase.prototype.transaction = function (this: IDBDatabase, ...how: Parameters<IDBDatabase['transaction']>) {
    const tx = transaction.apply(this, how);
    // heard here first, and nowhere else
    for (const type of ['abort', 'error']) tx.addEventListener(type, (event) => event.stopImmediatePropagation());
    return tx;
  };
}

/** Puts the two sessions of a move in two transactions, the second 0.9 s later. */
export function moveInTwo(): void {
  const put = IDBObjectStore.prototype.put;
  const last = new WeakMap<IDBTransaction, IDBRequest<IDBValidKey>>();
  IDBObjectStore.prototype.put = function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
    const { transaction } = this;
    const first = this.name === 'sessions' ? last.get(transaction) : undefined;
    if (first) {
      const { db } = transaction;
      setTimeout(() => put.call(db.transaction('sessions', 'readwrite').objectStore('sessions'), value), 900);
      return first;
    }
    const request = key === undefined ? put.call(this, value) : put.call(this, value, key);
    if (this.name === 'sessions') last.set(transaction, request);
    return request;
  };
}

/** Puts one set in four without its instant. */
export function tornSet(): void {
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
    let kept = value;
    if (this.name === 'sessions') {
      const { body, ...row } = value as { body: Record<string, unknown> };
      const paths = Object.entries(body).filter(([path]) => !/^sets\/[0-7].*\/at$/.test(path));
      kept = { ...row, body: Object.fromEntries(paths) };
    }
    return key === undefined ? put.call(this, kept) : put.call(this, kept, key);
  };
}

/** Does not put drafts. */
export function draftsUnkept(): void {
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
    const kept = this.name === 'drafts' ? { exercise: 'lib-front-squat' } : value;
    return key === undefined ? put.call(this, kept) : put.call(this, kept, key);
  };
}
