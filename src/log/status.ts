import type { Local } from './local';
import type { OpenFault } from './open';
import type { SaveFault } from './queue';
import type { Seat } from './tabs';

/** How the log is, truthfully: what the pill and the NOT SAVED bar are worded from. */
export type Status = {
  readonly phase: 'opening' | 'open' | 'cannot-open' | 'yielded';
  readonly openFault: OpenFault | null;
  /** Null until it is known: what is done by then waits, and is saved here or by the tab that writes. */
  readonly seat: Seat | null;
  /** Rows that are on the screen and not in the store (yet). */
  readonly unsaved: number;
  /** When the oldest of them began to wait, ms; null where none does. */
  readonly unsavedSince: number | null;
  /** Set while the last try to save failed. */
  readonly saveFault: SaveFault | null;
  /** The database held rows before and was found empty at this start. */
  readonly wiped: boolean;
  /** Rows that this start brought back from the second copy. */
  readonly broughtBack: number;
  /** Rows in the store that this version cannot read; they stay there, and exports carry them. */
  readonly unreadable: number;
  readonly persisted: 'kept' | 'may-be-cleared' | 'unknown';
  /** When a backup file was last made, ms; null for never. */
  readonly lastBackup: number | null;
};

export type StatusBoard = {
  readonly status: () => Status;
  readonly set: (change: Partial<Status>) => void;
  /** Notes how many rows wait to be saved, as of now. */
  readonly waiting: (rows: number, now: number) => void;
  readonly backedUp: (at: number) => void;
  readonly askToPersist: () => Promise<void>;
};

const BACKUP = 'last-backup';

/** Returns the board of a log that is being opened. `tell` is called after every change. */
export function createBoard(local: Local, tell: () => void): StatusBoard {
  const backup = Number(local.get(BACKUP) ?? Number.NaN);
  let status: Status = {
    phase: 'opening',
    openFault: null,
    seat: null,
    unsaved: 0,
    unsavedSince: null,
    saveFault: null,
    wiped: false,
    broughtBack: 0,
    unreadable: 0,
    persisted: 'unknown',
    lastBackup: Number.isFinite(backup) ? backup : null,
  };
  const set = (change: Partial<Status>): void => {
    status = { ...status, ...change };
    tell();
  };
  const ask = async (how: 'persist' | 'persisted'): Promise<void> => {
    try {
      set({ persisted: (await navigator.storage[how]()) ? 'kept' : 'may-be-cleared' });
    } catch {
      // not there in this browser: unknown stays the truth
    }
  };
  void ask('persisted');

  return {
    status: () => status,
    set,
    waiting(rows, now) {
      if (rows === status.unsaved) return;
      set({ unsaved: rows, unsavedSince: rows === 0 ? null : (status.unsavedSince ?? now) });
    },
    backedUp(at) {
      local.set(BACKUP, String(at));
      set({ lastBackup: at });
    },
    askToPersist: () => (status.persisted === 'kept' ? Promise.resolve() : ask('persist')),
  };
}
