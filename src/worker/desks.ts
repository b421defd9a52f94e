import { type Desk, workerDesk } from './desk';

/* The one desk in use: opened when there is work, and ended when there was none for a minute. */

const IDLE_MS = 60_000;

export type Desks = {
  /** Returns the desk in use: one in a worker, unless there is none or it was lost lately. */
  readonly open: () => Promise<Desk>;
  /** The worker was lost: until there is no more work it is done in the page. */
  readonly stay: () => Promise<Desk>;
  /** Nothing is to be done for now. */
  readonly rest: () => void;
  /** Ends it at once, with what it is working on. */
  readonly close: () => void;
};

/** Returns no desk yet, and the ways to have one. */
export function createDesks(): Desks {
  let desk: Desk | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;

  function close(): void {
    clearTimeout(timer);
    desk?.end();
    desk = undefined;
  }

  return {
    async open() {
      clearTimeout(timer);
      desk ??= workerDesk() ?? (await pageDesk());
      return desk;
    },
    async stay() {
      close();
      desk = await pageDesk();
      return desk;
    },
    rest() {
      clearTimeout(timer);
      timer = setTimeout(close, IDLE_MS);
    },
    close,
  };
}

/** Loaded where it is needed, which is nearly nowhere. */
async function pageDesk(): Promise<Desk> {
  try {
    return (await import('./pageDesk')).pageDesk();
  } catch {
    // gone from the server after an update
    return NO_DESK;
  }
}

const NO_DESK: Desk = { hand: () => undefined, ask: async () => ({ type: 'failed' }), end: () => undefined };
