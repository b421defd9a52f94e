import type { Row } from '../merge/row';
import { seenOf } from '../merge/stamp';
import { packRow, unpackRow } from './encode';
import { keyOf, nameOf, type RowKey } from './keys';

/*
 * The second copy: rows that are not safe elsewhere yet lie once more in the origin's private file system, a file a row, written within a
 * second after the transaction is complete and compared at start. A browser that loses its database (seen) need not lose these.
 */

export type SecondCopy = {
  /** Keeps rows soon; of one row only the newest state is written. */
  readonly keep: (rows: readonly Row[]) => void;
  /** Returns every row that can be read back. */
  readonly all: () => Promise<readonly Row[]>;
  /** Drops every file that holds no more than `safe` says: these rows are in a backup now. */
  readonly drop: (safe: ReadonlyMap<RowKey, Row>) => Promise<void>;
  /** Drops every file of these streams, and what waits to become one. */
  readonly dropStreams: (streams: readonly string[]) => Promise<void>;
  /** Resolves when nothing waits. */
  readonly settled: () => Promise<void>;
};

/** After the frame that shows the save: until then a lost database takes the row with it. */
const SOON_MS = 20;

/** Returns the second copy of a log, or undefined where the browser has no private file system to write in. */
export async function openSecondCopy(log: string): Promise<SecondCopy | undefined> {
  const folder = await folderOf(log);
  if (!folder) return undefined;
  const waiting = new Map<RowKey, Row>();
  let writing: Promise<void> | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let dropping: Promise<void> = Promise.resolve();

  async function writeAll(): Promise<void> {
    for (const [key, row] of waiting) {
      waiting.delete(key);
      // a file that cannot be written leaves the row with one copy, as it would be without any of this
      await writeFile(folder as FileSystemDirectoryHandle, fileName(key), JSON.stringify(packRow(row))).catch(
        () => undefined,
      );
    }
  }
  const start = (): void => {
    timer = undefined;
    writing ??= writeAll().finally(() => {
      writing = undefined;
      if (waiting.size > 0) start();
    });
  };

  return {
    keep(rows) {
      for (const row of rows) waiting.set(keyOf(row), row);
      if (rows.length > 0) timer ??= setTimeout(start, SOON_MS);
    },
    all: () => readFolder(folder),
    async drop(safe) {
      for (const file of await readFolder(folder)) {
        const key = keyOf(file);
        const row = safe.get(key);
        // what still waits to be written is newer than the backup
        if (row && covered(file, row) && !waiting.has(key))
          await folder.removeEntry(fileName(key)).catch(() => undefined);
      }
    },
    dropStreams(streams) {
      const isOf = (key: RowKey): boolean => streams.includes(nameOf(key)[0]);
      for (const key of waiting.keys()) if (isOf(key)) waiting.delete(key);
      dropping = dropping.then(async () => {
        // one that is being written now would come after its removal
        await writing;
        for await (const name of folder.keys()) {
          if (isOf(name.replace('~', '/'))) await folder.removeEntry(name).catch(() => undefined);
        }
      });
      return dropping;
    },
    async settled() {
      await dropping;
      if (timer !== undefined) {
        clearTimeout(timer);
        start();
      }
      while (writing) await writing;
    },
  };
}

/** Ids and streams hold no `~` and no slash, so the name is a file's and can be told apart again. */
const fileName = (key: RowKey): string => `${key.replace('/', '~')}.json`;

/** Returns what the folder of a log's second copy is called. */
export const folderName = (log: string): string => `${log}-second`;

async function folderOf(log: string): Promise<FileSystemDirectoryHandle | undefined> {
  try {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle(folderName(log), { create: true });
    return 'createWritable' in FileSystemFileHandle.prototype ? folder : undefined;
  } catch {
    return undefined;
  }
}

async function writeFile(folder: FileSystemDirectoryHandle, name: string, text: string): Promise<void> {
  const file = await folder.getFileHandle(name, { create: true });
  const writable = await file.createWritable();
  await writable.write(text);
  // the old file stands until this swaps the new one in: a kill leaves one or the other whole
  await writable.close();
}

async function readFile(folder: FileSystemDirectoryHandle, name: string): Promise<Row | undefined> {
  try {
    const file = await folder.getFileHandle(name);
    const row = unpackRow(JSON.parse(await (await file.getFile()).text()));
    return row.ok ? row.value : undefined;
  } catch {
    // torn or gone: this copy tells nothing, the other one stands
    return undefined;
  }
}

async function readFolder(folder: FileSystemDirectoryHandle): Promise<readonly Row[]> {
  const rows: Row[] = [];
  for await (const name of folder.keys()) {
    const row = name.endsWith('.json') ? await readFile(folder, name) : undefined;
    if (row) rows.push(row);
  }
  return rows;
}

const covered = (file: Row, safe: Row): boolean =>
  Object.entries(file.seen).every(([writer, l]) => seenOf(safe.seen, writer) >= l);
