/*
 * What a test hands the page in place of the machine's own: the clock, and storage that fails as browsers have been seen to fail. All
 * of it is told through localStorage under `test.`, so it holds over reloads and in every tab, and can be changed while the app runs.
 */

/** `now`: ms, a clock that stands; `ahead`: ms, a clock that runs that much ahead; `open`:
 *  `held` keeps the database's answer back until this is taken back, `throws` refuses; `full`: no put fits; `wipe`: the database of this
 *  name is deleted before the next start; `asked-to-persist`: told by the rig, how often the app asked. */
export type RigName = 'now' | 'ahead' | 'open' | 'full' | 'wipe' | 'asked-to-persist';

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
    const request = open.apply(this, args);
    const listen = request.addEventListener.bind(request);
    // the browser's answer is kept back: whoever waits for it hears it late, or not at all
    const late = (fn: (event: Event) => void) => (event: Event) => {
      const look = setInterval(() => {
        if (told('open') !== null) return;
        clearInterval(look);
        fn.call(request, event);
      }, 20);
    };
    request.addEventListener = (type: string, fn: unknown, ...more: unknown[]) => {
      const heard = fn as (event: Event) => void;
      listen(type, type === 'success' ? late(heard) : heard, ...(more as [AddEventListenerOptions]));
    };
    Object.defineProperty(request, 'onsuccess', {
      set: (fn: (event: Event) => void) => listen('success', late(fn)),
    });
    return request;
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
