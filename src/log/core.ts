import type { World } from '../domain/world';
import type { Connection } from './connection';
import type { Drafts } from './drafts';
import type { RowKey } from './keys';
import type { Local } from './local';
import type { Memory } from './memory';
import type { OpenSessions } from './openSessions';
import type { Queue } from './queue';
import type { SecondCopy } from './second';
import type { SeriesRow } from './series';
import type { StatusBoard } from './status';
import type { Tabs } from './tabs';
import type { UndoEntry } from './undo';
import type { Watchers } from './watch';

/** The parts of one open log, as `startLog` puts them together. */
export type Core = {
  readonly name: string;
  readonly world: World;
  readonly local: Local;
  readonly memory: Memory;
  readonly queue: Queue;
  readonly drafts: Drafts;
  readonly watchers: Watchers;
  readonly board: StatusBoard;
  readonly connection: Connection;
  readonly open: OpenSessions;
  /** Acts that can be taken back, the oldest first. */
  readonly undo: UndoEntry[];
  /** Series rows read so far, by `stream/exercise`. */
  readonly series: Map<string, SeriesRow>;
  /** Clients whose series rows were all read. */
  readonly wholeSeries: Set<string>;
  /** Clients whose series rows are behind their sessions until they are made anew. */
  readonly stale: Set<string>;
  /** Sessions and results that are in memory for an import alone; who asks for one takes it off the list. */
  readonly passing: Set<RowKey>;
  /** True while an import is written: meanwhile no session is let go of, which it may be merging. */
  importing: boolean;
  /** Imports, one after the other. */
  absorbing: Promise<unknown>;
  /** Series being read or made now, so that none is read twice at once. */
  readonly reading: Set<string>;
  /** Clients whose ends are being worked out. */
  readonly reckoning: Set<string>;
  reckoned: Promise<void>;
  /** Rows in the store that this version cannot read, as `stream/id`. */
  readonly unreadable: Set<string>;
  /** Folding, one session after the other: each starts from the series the last one left. */
  folding: Promise<void>;
  /** Lets what waits be written at once, if it waits for solid ground alone: the page may be gone next. */
  hurry: () => void;
  readonly second: Promise<SecondCopy | undefined>;
  /** Joined once the log is open. */
  tabs?: Tabs;
};
