import { type Database, type OpenFault, openDatabase } from './open';

/** The one connection to the log's database, reopened when it is lost. */
export type Connection = {
  readonly database: () => Database | undefined;
  /** Opens, or opens anew. Returns whether there is a connection now. */
  readonly connect: () => Promise<boolean>;
  /** Runs a read; where the connection was lost, once more on a new one. Undefined where that cannot be read from either. */
  readonly read: <T>(fn: (db: Database) => Promise<T>) => Promise<T | undefined>;
};

export type ConnectionDeps = {
  readonly onOpen: () => void;
  readonly onFault: (fault: OpenFault) => void;
  /** A newer app's tab wants the database: this one lets go and says so. */
  readonly onYielded: () => void;
};

/** Returns a connection that is not open yet. */
export function createConnection(name: string, deps: ConnectionDeps): Connection {
  let db: Database | undefined;
  let connecting: Promise<boolean> | undefined;
  let yielded = false;

  async function open(): Promise<boolean> {
    db?.close();
    db = undefined;
    if (yielded) return false;
    const opened = await openDatabase(name, (why) => {
      db = undefined;
      if (why === 'yielded') {
        yielded = true;
        deps.onYielded();
      }
    });
    if (!opened.ok) {
      deps.onFault(opened.error);
      return false;
    }
    db = opened.value;
    deps.onOpen();
    return true;
  }

  const connect = (): Promise<boolean> => {
    connecting ??= open().finally(() => {
      connecting = undefined;
    });
    return connecting;
  };

  return {
    database: () => db,
    connect,
    async read(fn) {
      const used = db;
      const first = used && (await attempt(fn, used));
      if (first) return first.value;
      // unless someone else has opened it anew meanwhile: closing that one would fail their read
      if (db === used && !(await connect())) return undefined;
      return db && (await attempt(fn, db))?.value;
    },
  };
}

/** Runs a read; undefined where the connection is lost, closing or the transaction was aborted. */
async function attempt<T>(fn: (db: Database) => Promise<T>, db: Database): Promise<{ value: T } | undefined> {
  try {
    return { value: await fn(db) };
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    return undefined;
  }
}
