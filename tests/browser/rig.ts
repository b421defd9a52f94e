/*
 * What a test hands the page in place of the machine's own: the clock, and storage that fails as browsers have been seen to fail. All
 * of it is told through localStorage under `test.`, so it holds over reloads and in every tab, and can be changed while the app runs.
 */

/** `now`: ms, a clock that stands; `ahead`: ms, a clock that runs that much ahead. */
export type RigName = 'now' | 'ahead' | 'open' | 'full' | 'wipe' | 'asked-to-persist';

/** How the database answers an open: not before `held` is taken back, never, with an error thrown. */
export type Opening = 'held' | 'never' | 'throws';

/** Runs in the page before the app does. Handed to the browser as text: it may use nothing from outside of itself. */
export function rig(now: number | null): void {
  if (location.protocol !== 'http:') return;
  const told = (name: string): string | null => localStorage.getItem(`test.${name}`);
  if (told('rigged') === null && now !== null) localStorage.setItem('test.now', String(now));
  localStorage.setItem('test.rigged', 'yes');
  const clock = Date.now.bind(Date);
  Date.now = () => Number(told('now') ?? clock() + Number(told('ahead') ?? 0));

  const open = IDBFactory.prototype.open;
  IDBFactory.prototype.open = function (this: IDBFactory, ...args: Parameters<IDBFactory['open']>) {
    const how = told('open');
    if (how === null) return open.apply(this, args);
    if (how === 'throws') throw new DOMException('the test refuses', 'UnknownError');
    // an open request that nothing answers yet: handlers put on it are moved to the real one when that begins
    const stand = new EventTarget() as IDBOpenDBRequest;
    if (how === 'never') return stand;
    const look = setInterval(() => {
      if (told('open') !== null) return;
      clearInterval(look);
      const real = open.apply(this, args);
      for (const type of ['upgradeneeded', 'success', 'error', 'blocked'] as const) {
        real.addEventListener(type, (event) => {
          for (const name of ['result', 'transaction'] as const) {
            Object.defineProperty(stand, name, { configurable: true, get: () => real[name] });
          }
          Object.defineProperty(stand, 'error', { configurable: true, get: () => real.error });
          const version = event instanceof IDBVersionChangeEvent ? event : undefined;
          const told = version
            ? new IDBVersionChangeEvent(type, { oldVersion: version.oldVersion, newVersion: version.newVersion })
            : new Event(type);
          stand.dispatchEvent(told);
          const handler = stand[`on${type}`] as ((event: Event) => void) | null | undefined;
          handler?.call(stand, told);
        });
      }
    }, 20);
    return stand;
  };

  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...args: Parameters<IDBObjectStore['put']>) {
    if (told('full') !== null) throw new DOMException('the test has no room', 'QuotaExceededError');
    return put.apply(this, args);
  };

  const persist = StorageManager.prototype.persist;
  StorageManager.prototype.persist = function (this: StorageManager) {
    localStorage.setItem('test.asked-to-persist', String(Number(told('asked-to-persist') ?? 0) + 1));
    return persist.apply(this);
  };

  const wiped = told('wipe');
  if (wiped !== null) {
    localStorage.removeItem('test.wipe');
    indexedDB.deleteDatabase(wiped);
  }
}
