import 'fake-indexeddb/auto';
import type { Log } from '../../../src/log/log';
import { createDisk, type Disk, dieOnDisk, loseConnections } from './disk';
import { FileHandle, type Files, rootOf } from './files';
import { beginLife, type Life, own, within } from './life';
import { createNeighbours, type Neighbours } from './tabs';
import { createWorld, type TestWorld } from './world';

/** A phone: what outlives the app. */
export type Device = {
  readonly disk: Disk;
  readonly files: Files;
  readonly local: Map<string, string>;
  readonly tabs: Neighbours;
  readonly world: TestWorld;
  /** Things this phone's browser refuses or lacks. */
  readonly lacks: Set<'localStorage' | 'files' | 'locks'>;
  /** What the browser answers when it is asked to keep the storage. */
  persists: boolean;
};

/** One launch of the app, in a tab or window of its own. */
export type App = {
  readonly log: Log;
  /** Runs something inside the app. */
  readonly run: <T>(fn: () => T) => T;
  /** Ends it at once. `lands`: what it asked the disk to commit is stored, though nobody hears of it. */
  readonly kill: (lands?: boolean) => void;
  readonly freeze: () => void;
  readonly thaw: () => void;
  /** Ends its connections, without asking. */
  readonly loseConnections: () => void;
  readonly life: Life;
};

let here: Device | undefined;
/** Several devices may live at once: each launch finds its own. */
const deviceOf = new WeakMap<Life, Device>();

export function createDevice(seed: number): Device {
  const device: Device = {
    disk: createDisk(),
    files: new Map(),
    local: new Map(),
    tabs: createNeighbours(),
    world: createWorld(seed),
    lacks: new Set(),
    persists: true,
  };
  here = device;
  return device;
}

/** Launches the app on a device; `startLog` may be that of a copy with a fault in it. */
export function launch(device: Device, startLog: (name: string, world: TestWorld) => Log, name = 'log'): App {
  here = device;
  const life = beginLife();
  deviceOf.set(life, device);
  const run = <T>(fn: () => T): T => within(life, fn);
  const log = run(() => startLog(name, device.world));
  const inside = Object.entries(log).map(([verb, fn]: [string, unknown]) => [
    verb,
    typeof fn === 'function' ? (...args: unknown[]) => run(() => fn(...args)) : fn,
  ]);
  return {
    log: Object.fromEntries(inside) as Log,
    run,
    life,
    kill(lands = false) {
      life.state = 'dead';
      dieOnDisk(life, lands);
      for (const end of life.onDeath) end();
    },
    freeze() {
      life.state = 'frozen';
    },
    thaw() {
      // each thing that waited is a task of its own, as it would have been
      const next = (): void => {
        if (life.state !== 'frozen') return;
        const telling = life.late.shift();
        if (telling) {
          run(telling);
          setImmediate(next);
        } else life.state = 'runs';
      };
      next();
    },
    loseConnections: () => loseConnections(life),
  };
}

function there(): Device {
  const life = own();
  const device = (life && deviceOf.get(life)) ?? here;
  if (!device) throw new Error('no device');
  return device;
}

const navigator = {
  get locks() {
    return there().lacks.has('locks') ? undefined : there().tabs.locks;
  },
  storage: {
    persisted: async () => false,
    persist: async () => there().persists,
    async getDirectory() {
      if (there().lacks.has('files')) throw new DOMException('', 'SecurityError');
      return rootOf(there().files);
    },
  },
};

const localStorage = {
  getItem: (name: string) => there().local.get(name) ?? null,
  setItem(name: string, text: string) {
    if (own()?.state !== 'dead') there().local.set(name, text);
  },
};

const globals: Record<string, () => unknown> = {
  indexedDB: () => there().disk.factory,
  BroadcastChannel: () => there().tabs.Channel,
  FileSystemFileHandle: () => FileHandle,
  navigator: () => navigator,
  localStorage() {
    if (there().lacks.has('localStorage')) throw new DOMException('', 'SecurityError');
    return localStorage;
  },
};
for (const [name, get] of Object.entries(globals)) Object.defineProperty(globalThis, name, { configurable: true, get });
