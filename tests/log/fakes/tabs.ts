import { caller, forEver, type Life, tell } from './life';

/** What the tabs of one device share to find each other. */
export type Neighbours = {
  readonly locks: { readonly request: (name: string, options: LockOptions, held: Held) => Promise<unknown> };
  readonly Channel: typeof BroadcastChannel;
  /** How many turns of the event loop a message takes. */
  delay: number;
  /** How many turns more a tab needs to hear that its lock was stolen. */
  lossDelay: number;
};
type Held = (lock: Lock | null) => unknown;
type Holder = { readonly life: Life; readonly lost: (error: DOMException) => void; readonly free: () => void };
type Waiting = { readonly life: Life; readonly grant: () => void };

/** Returns Web Locks (exclusive ones alone) and broadcast channels of a device without tabs. */
export function createNeighbours(): Neighbours {
  const holders = new Map<string, Holder>();
  const waiting = new Map<string, Waiting[]>();

  function next(name: string): void {
    if (holders.has(name)) return;
    const queue = waiting.get(name) ?? [];
    const first = queue.shift();
    if (first) tell(first.life, first.grant);
    if (first?.life.state === 'dead') next(name);
  }

  function hold(name: string, life: Life, held: Held): Promise<unknown> {
    return new Promise((resolve, reject) => {
      const holder: Holder = {
        life,
        lost: (error) => tell(life, () => after(neighbours.lossDelay, () => reject(error))),
        free() {
          if (holders.get(name) !== holder) return;
          holders.delete(name);
          setImmediate(() => next(name));
        },
      };
      holders.set(name, holder);
      life.onDeath.push(holder.free);
      Promise.resolve(held({ name, mode: 'exclusive' })).then(
        (value) => {
          holder.free();
          resolve(value);
        },
        (error) => {
          holder.free();
          reject(error);
        },
      );
    });
  }

  const neighbours: Neighbours = {
    delay: 1,
    lossDelay: 0,
    locks: {
      async request(name, options, held) {
        const life = caller();
        if (life.state === 'dead') return forEver();
        await new Promise((resolve) => setImmediate(resolve));
        const holder = holders.get(name);
        if (!holder) return hold(name, life, held);
        if (options.ifAvailable) return held(null);
        if (options.steal) {
          holders.delete(name);
          holder.lost(new DOMException('', 'AbortError'));
          return hold(name, life, held);
        }
        return new Promise((resolve, reject) => {
          const place: Waiting = { life, grant: () => hold(name, life, held).then(resolve, reject) };
          waiting.set(name, [...(waiting.get(name) ?? []), place]);
          options.signal?.addEventListener('abort', () => {
            const queue = waiting.get(name) ?? [];
            if (!queue.includes(place)) return;
            queue.splice(queue.indexOf(place), 1);
            reject(new DOMException('', 'AbortError'));
          });
        });
      },
    },
    Channel: createChannels(() => neighbours.delay) as unknown as typeof BroadcastChannel,
  };
  return neighbours;
}

type Listener = (event: { readonly data: unknown }) => void;

function createChannels(delay: () => number): new (name: string) => object {
  const open = new Set<Channel>();

  class Channel {
    readonly life = caller();
    readonly listeners: Listener[] = [];

    constructor(readonly name: string) {
      open.add(this);
      this.life.onDeath.push(() => open.delete(this));
    }
    addEventListener(_type: 'message', listener: Listener): void {
      this.listeners.push(listener);
    }
    postMessage(message: unknown): void {
      if (this.life.state === 'dead') return;
      const data: unknown = structuredClone(message);
      for (const other of open) {
        if (other !== this && other.name === this.name) after(delay(), () => other.hear(data));
      }
    }
    close(): void {
      open.delete(this);
    }
    hear(data: unknown): void {
      for (const listener of this.listeners) tell(this.life, () => listener({ data }));
    }
  }
  return Channel;
}

function after(turns: number, fn: () => void): void {
  if (turns === 0) fn();
  else setImmediate(() => after(turns - 1, fn));
}
