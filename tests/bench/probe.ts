/** One tap as the page saw it; all in ms, from the moment the browser got the tap. */
export type Tap = {
  /** Until the first handler ran, and until the last one returned. */
  readonly handled: number;
  readonly ran: number;
  /** Until the act's transaction began, and until it told that it is complete. What a page does not do is 0. */
  readonly begun: number;
  readonly complete: number;
  /** Until the new line stood in the document, and until it stood there as saved. */
  readonly shown: number;
  readonly saved: number;
  /** Until the frame with the new line was handed on. */
  readonly painted: number;
};

/** What a probed page offers. */
export type Probe = {
  /** Makes ready for one tap. `taken` resolves when all of these are known of it. */
  readonly arm: (wanted: readonly (keyof Tap)[]) => void;
  readonly taken: () => Promise<Tap>;
  /** One strict put of one small row, in a database of its own: ms from the call to `complete`. */
  readonly bare: () => Promise<number>;
  /** What an act puts, with nothing around it: the newest session's row, an undo entry in and one out, a draft out. */
  readonly floor: () => Promise<number>;
  /** Frames of 50 ms and more since the last call. */
  readonly longFrames: () => readonly number[];
};

/** Runs in the page, before anything else does. Self-contained: it is sent as text. */
export function probe(): void {
  type Waiting = Partial<Record<keyof Tap, number>> & { tap?: number };
  let waiting:
    | { taken: Waiting; wanted: readonly (keyof Tap)[]; lines: number; resolve: (tap: Tap) => void }
    | undefined;
  let taking: Promise<Tap> | undefined;
  const frames: number[] = [];
  const lines = () => document.querySelectorAll('[data-set]');

  function note(what: keyof Tap): void {
    if (!waiting || waiting.taken.tap === undefined || waiting.taken[what] !== undefined) return;
    const { taken, wanted, resolve } = waiting;
    taken[what] = performance.now() - waiting.taken.tap;
    if (wanted.some((one) => taken[one] === undefined)) return;
    waiting = undefined;
    const { handled = 0, ran = 0, begun = 0, complete = 0, shown = 0, saved = 0, painted = 0 } = taken;
    resolve({ handled, ran, begun, complete, shown, saved, painted });
  }

  addEventListener(
    'click',
    (event) => {
      if (!waiting || waiting.taken.tap !== undefined) return;
      waiting.taken.tap = event.timeStamp;
      note('handled');
    },
    { capture: true },
  );
  addEventListener('click', () => note('ran'));

  new MutationObserver(() => {
    if (!waiting || waiting.taken.tap === undefined || lines().length <= waiting.lines) return;
    if (waiting.taken.shown === undefined) {
      note('shown');
      requestAnimationFrame(() => {
        // a message comes after the frame that this callback belongs to
        const channel = new MessageChannel();
        channel.port1.onmessage = () => note('painted');
        channel.port2.postMessage(null);
      });
    }
    if ([...lines()].every((line) => line.hasAttribute('data-saved'))) note('saved');
  }).observe(document, { subtree: true, childList: true, attributes: true });

  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) frames.push(duration);
  }).observe({ type: 'long-animation-frame', buffered: true });

  const { transaction } = IDBDatabase.prototype;
  IDBDatabase.prototype.transaction = function (this: IDBDatabase, ...how: Parameters<IDBDatabase['transaction']>) {
    const tx = transaction.apply(this, how);
    if (waiting && tx.mode === 'readwrite' && ['sessions', 'small'].some((one) => tx.objectStoreNames.contains(one))) {
      note('begun');
      tx.addEventListener('complete', () => note('complete'));
    }
    return tx;
  };

  const opened = <T>(request: IDBRequest<T>): Promise<T> =>
    new Promise((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  let own: Promise<IDBDatabase> | undefined;
  function ownDatabase(): Promise<IDBDatabase> {
    const opening = indexedDB.open('bench');
    opening.onupgradeneeded = () => {
      opening.result.createObjectStore('small', { keyPath: 'id' });
      opening.result.createObjectStore('session', { keyPath: ['stream', 'id'] });
      opening.result.createObjectStore('undo', { keyPath: 'n' });
      opening.result.createObjectStore('drafts');
    };
    return opened(opening);
  }
  let log: Promise<IDBDatabase> | undefined;
  let n = 0;

  async function timed(stores: string[], put: (tx: IDBTransaction) => void): Promise<number> {
    own ??= ownDatabase();
    const db = await own;
    return new Promise((resolve, reject) => {
      const start = performance.now();
      const tx = db.transaction(stores, 'readwrite', { durability: 'strict' });
      tx.oncomplete = () => resolve(performance.now() - start);
      tx.onabort = () => reject(tx.error);
      put(tx);
      tx.commit();
    });
  }

  const offered: Probe = {
    arm(wanted) {
      taking = new Promise((resolve) => {
        waiting = { taken: {}, wanted, lines: lines().length, resolve };
      });
    },
    taken: () =>
      new Promise((resolve, reject) => {
        void taking?.then(resolve);
        setTimeout(() => reject(new Error(`of the tap there is only ${JSON.stringify(waiting?.taken)}`)), 10_000);
      }),
    bare() {
      n += 1;
      return timed(['small'], (tx) =>
        tx.objectStore('small').put({ id: n, exercise: 'lib-front-squat', load: 57.5, reps: 5 }),
      );
    },
    async floor() {
      log ??= opened(indexedDB.open('cuewright'));
      const stored = transaction.call(await log, ['sessions', 'undo']);
      const [, id] = (document.querySelector('[data-session]')?.getAttribute('data-session') ?? '/').split('/');
      const sessions = await opened<{ id: string }[]>(stored.objectStore('sessions').getAll());
      const acts = await opened<{ n: number }[]>(stored.objectStore('undo').getAll());
      const row = sessions.find((one) => one.id === id);
      const act = acts.at(-1);
      n += 1;
      return timed(['session', 'undo', 'drafts'], (tx) => {
        tx.objectStore('session').put(row);
        tx.objectStore('undo').put({ ...act, n });
        tx.objectStore('undo').delete(n - 200);
        tx.objectStore('drafts').delete('pad');
      });
    },
    longFrames: () => frames.splice(0),
  };
  Object.assign(globalThis, { benchProbe: offered });
}
