import { createContext } from 'preact';
import { useContext, useEffect, useLayoutEffect, useReducer } from 'preact/hooks';
import type { World } from '../domain/world';
import type * as blocks from '../log/blockActs';
import type { bodyMasses } from '../log/bodyMasses';
import type * as care from '../log/careActs';
import type * as devices from '../log/deviceNames';
import type { eraseClient } from '../log/eraseActs';
import type { exportLog } from '../log/export';
import type * as library from '../log/libraryActs';
import type { Log } from '../log/log';
import type { logSet, padDraft } from '../log/logSet';
import type * as plans from '../log/planActs';
import type * as records from '../log/recordActs';
import type * as rounds from '../log/roundActs';
import type * as sessions from '../log/sessionActs';
import type * as sets from '../log/setActs';
import type { choose } from '../log/settingsActs';
import type * as stubs from '../log/stubActs';
import type * as targets from '../log/targetActs';
import type * as templates from '../log/templateActs';
import type * as views from '../log/views';
import type { Topic } from '../log/watch';
import type * as work from '../log/workActs';
import type { Analysing } from './analysing';
import type { Sealing } from './sealing';

/** `ready`: a newer version waits. `old`: one has taken over, and this page still works with what it had loaded. */
export type UpdateState = 'current' | 'ready' | 'old';

/** The version of the app itself. */
export type Update = {
  /** What this build is called. */
  readonly build: string;
  /** What the build on the server is called, as of the last look; undefined where it could not be asked. */
  readonly serverBuild: () => string | undefined;
  readonly state: () => UpdateState;
  /** Goes over to the newer version, once everything is saved. Offered where no session runs. */
  readonly use: () => void;
  /** A part of this version could not be loaded: it may be gone from the server. */
  readonly lost: () => Promise<void>;
  readonly watch: (fn: () => void) => () => void;
};

/** The invented studio: a second log of the same code, which never mixes with the trainer's own. */
export type Demo = {
  /** Whether it is what this page shows. */
  readonly shown: boolean;
  /** Writes it and goes to it; or tells why not: a session runs, something is not saved, the browser does not keep it. */
  readonly load: () => Promise<'going' | 'running' | 'unsaved' | 'failed'>;
  /** Goes back to the trainer's own log; the demo is deleted. */
  readonly remove: () => void;
};

/** `covered`: out of sight. `locked`: a PIN is asked for. In both nothing of the app can be seen or reached. */
export type LockState = 'open' | 'covered' | 'locked';
/** Minutes out of sight before a PIN is asked for; 0: at once. */
export type LockAfter = 0 | 1 | 5 | 15;
/** Too many wrong ones in a row: none is tried for so many seconds. */
export type Wait = { readonly wait: number };

/** The screen lock of this device. */
export type Lock = {
  readonly isOn: () => boolean;
  readonly state: () => LockState;
  readonly watch: (fn: () => void) => () => void;
  /** The rest of it, loaded behind the first screen; rejects where it could not be. */
  readonly acts: () => Promise<LockActs>;
};

/** What can be asked of the lock and done with it. */
export type LockActs = {
  readonly after: () => LockAfter;
  /** Seconds until a PIN is tried again; 0 where one is. */
  readonly waiting: () => number;
  /** Whether it went off because what it had kept could not be read. */
  readonly wasLost: () => boolean;
  /** Whether there is a recovery code or a passphrase, for a PIN that is forgotten. */
  readonly hasWayBack: () => Promise<boolean>;
  readonly turnOn: (
    pin: string,
    after: LockAfter,
  ) => Promise<'on' | 'on-already' | 'no-way-back' | 'not-a-pin' | 'not-kept'>;
  readonly turnOff: (pin: string) => Promise<'off' | 'wrong' | 'not-kept' | Wait>;
  readonly change: (
    pin: string,
    to: { readonly pin?: string; readonly after?: LockAfter },
  ) => Promise<'changed' | 'wrong' | 'not-a-pin' | 'not-kept' | Wait>;
  readonly unlock: (pin: string) => Promise<'open' | 'wrong' | Wait>;
  /** By the recovery code or the passphrase: opens, and turns the lock off. `none-made`: there is neither. */
  readonly unlockAsOwner: (text: string) => Promise<'open' | 'wrong' | 'none-made' | Wait>;
};

/** Everything a tap can change. */
export type Acts = typeof library &
  typeof sessions &
  typeof sets &
  typeof plans &
  typeof blocks &
  typeof rounds &
  typeof templates &
  typeof care &
  typeof work &
  typeof devices &
  typeof records &
  typeof stubs &
  typeof targets & {
    readonly eraseClient: typeof eraseClient;
    readonly logSet: typeof logSet;
    readonly padDraft: typeof padDraft;
    readonly choose: typeof choose;
    readonly exportLog: typeof exportLog;
    readonly bodyMasses: typeof bodyMasses;
  };

/** Everything the screens work on, handed in by main: ui knows the log by its types alone. */
export type App = {
  readonly log: Log;
  readonly world: World;
  /** The log's name, for an export that reads the store by itself. */
  readonly name: string;
  readonly views: typeof views;
  /** Empty until `loadActs` is done; every part that is loaded behind the first screen has waited for it. */
  readonly acts: Acts;
  readonly loadActs: () => Promise<void>;
  /** Today as it was last painted, kept outside the database. */
  readonly snapshot: { readonly read: () => string | undefined; readonly write: (text: string) => void };
  /** Small things this device keeps of the log that is shown: gone with it. */
  readonly kept: {
    readonly get: (name: string) => string | undefined;
    readonly set: (name: string, text: string) => void;
  };
  readonly demo: Demo;
  /** Loaded when it is first asked for. */
  readonly sealing: () => Promise<Sealing>;
  /** Loaded when it is first asked for. */
  readonly analysing: () => Promise<Analysing>;
  readonly update: Update;
  readonly lock: Lock;
  /** Small things this device remembers outside the log. */
  readonly notes: {
    readonly get: (name: string) => string | undefined;
    readonly set: (name: string, text: string) => void;
  };
};

const Context = createContext<App | null>(null);
export const AppProvider = Context.Provider;

/** Returns the app; throws outside of its provider. */
export function useApp(): App {
  const app = useContext(Context);
  if (!app) throw new Error('a screen outside of the app');
  return app;
}

/** Draws the component again after a change to any of the topics. */
export function useWatch(topics: readonly Topic[]): void {
  const { log } = useApp();
  const redraw = useRedraw();
  const key = topics.join('\n');
  useLayoutEffect(() => log.watch(key.split('\n'), redraw), [log, key, redraw]);
}

/** Returns a function that draws the component again. */
export function useRedraw(): () => void {
  const [, redraw] = useReducer<number, void>((n) => n + 1, 0);
  return redraw as () => void;
}

/** Returns where the version stands, and draws the component again when that changes. */
export function useUpdate(): UpdateState {
  const { update } = useApp();
  const redraw = useRedraw();
  useEffect(() => update.watch(redraw), [update, redraw]);
  return update.state();
}
