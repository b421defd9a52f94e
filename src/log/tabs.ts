import { admitRow } from '../merge/door';
import type { Row } from '../merge/row';
import type { RowKey } from './keys';

/** Whether this tab may write. One tab does; the others show what it wrote and offer to take over. */
export type Seat = 'writer' | 'follower';

export type TabsDeps = {
  /** Called when this tab becomes the writer: what it holds may be old, so it reads again before anything is written. */
  readonly onSeated: () => Promise<void>;
  /** Called when another tab asks; resolves when the last write is complete. */
  readonly onAsked: () => Promise<void>;
  /** Called when the seat is gone, given up or stolen; returns rows that may not be in the store, for the new writer. */
  readonly onUnseated: () => readonly Row[];
  /** Another tab saved these rows. */
  readonly onChanged: (keys: readonly RowKey[]) => void;
  /** A tab that lost its seat hands over rows it may not have saved. */
  readonly onHandedOver: (rows: readonly Row[]) => void;
};

export type Tabs = {
  readonly seat: () => Seat;
  /** Takes the seat: free, handed over, or after a second stolen from a tab that does not answer. */
  readonly take: () => Promise<void>;
  readonly tellChanged: (keys: readonly RowKey[]) => void;
};

type Message =
  | { readonly type: 'ask' }
  | { readonly type: 'changed'; readonly keys: readonly RowKey[] }
  | { readonly type: 'hand-over'; readonly rows: readonly unknown[] };

/** A tab that is frozen in the background cannot answer. */
const ANSWER_MS = 1000;
/** A page that was just closed or reloaded holds its lock a moment longer: the next one is no second tab. */
const LEAVING_MS = 700;

/** Returns the seat of this tab among those of one log. Where the browser has no Web Locks there is no telling, and the tab is the writer. */
export async function joinTabs(log: string, deps: TabsDeps): Promise<Tabs> {
  const locks = typeof navigator === 'undefined' ? undefined : navigator.locks;
  const channel = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel(log);
  let seat: Seat = 'follower';
  let taking = false;
  let release: (() => void) | undefined;
  const post = (message: Message): void => channel?.postMessage(message);

  /** Resolves true once seated, false where the lock was not to be had this way. */
  function seatBy(options: LockOptions): Promise<boolean> {
    return new Promise((resolve) => {
      if (!locks) return resolve(true);
      let granted = false;
      locks
        .request(log, options, (lock) => {
          if (!lock) return resolve(false);
          granted = true;
          const held = new Promise<void>((done) => {
            release = done;
          });
          resolve(true);
          return held;
        })
        // rejected: the wait was cut short, or the lock was stolen later
        .catch(() => (granted ? unseat() : resolve(false)));
    });
  }

  async function seatWithin(ms: number): Promise<boolean> {
    const wait = new AbortController();
    const timer = setTimeout(() => wait.abort(), ms);
    const given = await seatBy({ signal: wait.signal });
    clearTimeout(timer);
    return given;
  }

  function unseat(): void {
    seat = 'follower';
    release = undefined;
    const rows = deps.onUnseated();
    if (rows.length > 0) post({ type: 'hand-over', rows });
  }

  async function beSeated(): Promise<void> {
    seat = 'writer';
    await deps.onSeated();
  }

  channel?.addEventListener('message', async ({ data }: MessageEvent<Message>) => {
    if (data.type === 'changed') deps.onChanged(data.keys);
    // what is handed over can come before the seat does
    if (data.type === 'hand-over' && (taking || seat === 'writer'))
      deps.onHandedOver(data.rows.flatMap((raw) => admitted(raw)));
    if (data.type === 'ask' && seat === 'writer') {
      const letGo = release;
      await deps.onAsked();
      // stolen meanwhile: what this tab has now it got since
      if (release !== letGo) return;
      unseat();
      letGo?.();
    }
  });

  if (await seatWithin(LEAVING_MS)) await beSeated();
  // what was done here while the log was opening is the writer's to save
  else unseat();

  return {
    seat: () => seat,
    async take() {
      if (seat === 'writer') return;
      taking = true;
      post({ type: 'ask' });
      const seated = (await seatWithin(ANSWER_MS)) || (await seatBy({ steal: true }));
      taking = false;
      if (seated) await beSeated();
    },
    tellChanged: (keys) => post({ type: 'changed', keys }),
  };
}

function admitted(raw: unknown): Row[] {
  const row = admitRow(raw);
  return row.ok ? [row.value] : [];
}
