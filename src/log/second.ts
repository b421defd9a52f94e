import type { Row } from '../merge/row';
import { seenOf } from '../merge/stamp';
import { packRow, unpackRow } from './encode';
import { keyOf, nameOf, type RowKey } from './keys';

/*
 * The second copy: rows that are not safe elsewhere yet lie once more in the origin's private file system, a file a row, written within a
 * second after the transaction is complete and compared at start. A browser that loses its database (seen) need not lose these.
 *
 * Rows that were saved together are written together first, in one file that is gone again once each has its own: else a kill between the two
 * rows of a move, in a browser that then loses the move itself, would leave the set in both sessions or in none.
 */

export type SecondCopy = {
  /** Keeps rows soon; of one row only the newest state is written. */
  readonly keep: (rows: readonly Row[]) => void;
  /** Returns every row that can be read back; one that a kill left in two files comes twice, and merging them is what rows are for. */
  readonly all: () => Promise<readonly Row[]>;
  /** Returns those of the rows named that have a file which can be read. */
  readonly some: (keys: readonly RowKey[]) => Promise<readonly Row[]>;
  /** Drops what a kill had left of rows written together, as `all` read it: called once the store holds them. */
  readonly tidy: () => Promise<void>;
  /** Returns how many rows have a file: those that no backup holds. */
  readonly count: () => Promise<number>;
  /** Drops every file that holds no more than `safe` says: these rows are in a backup now. */
  readonly drop: (safe: Safe) => Promise<void>;
  /** Drops every file of these streams, and what waits to become one. */
  readonly dropStreams: (streams: readonly string[]) => Promise<void>;
  /** Resolves when nothing waits. */
  readonly settled: () => Promise<void>;
};

/** What a backup holds, by row: whatever was seen by it. */
export type Safe = ReadonlyMap<RowKey, Pick<Row, 'seen'>>;

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
  let left: readonly string[] = [];
  /** The number of the last file of rows written together: none comes twice, or `tidy` could drop one that was made since. */
  let together = 0;

  async function writeAll(into: FileSystemDirectoryHandle): Promise<void> {
    // as they are now: what comes meanwhile is written by the next round, again whole
    const rows = [...waiting];
    waiting.clear();
    const all = rows.length > 1 ? await freeName(into) : undefined;
    if (all) await write(into, all, rows.map(([, row]) => packed(row)).join('\n'));
    for (const [key, row] of rows) await write(into, fileName(key), packed(row));
    if (all) await remove(into, all);
  }
  /** Returns a name that no file has: what a kill left is not written over before a start has read it. */
  async function freeName(into: FileSystemDirectoryHandle): Promise<string> {
    do together += 1;
    while (await isThere(into, togetherName(together)));
    return togetherName(together);
  }
  const start = (): void => {
    timer = undefined;
    writing ??= writeAll(folder).finally(() => {
      writing = undefined;
      if (waiting.size > 0) start();
    });
  };

  return {
    keep(rows) {
      for (const row of rows) waiting.set(keyOf(row), row);
      if (rows.length > 0) timer ??= setTimeout(start, SOON_MS);
    },
    async all() {
      const names = await namesIn(folder);
      left = names.filter(isTogether);
      return (await Promise.all(names.map((name) => readRows(folder, name)))).flat();
    },
    some: async (keys) => (await Promise.all(keys.map((key) => readRows(folder, fileName(key))))).flat(),
    async tidy() {
      for (const name of left) await remove(folder, name);
      left = [];
    },
    count: async () =>
      new Set([...(await namesIn(folder)).filter((name) => !isTogether(name)), ...[...waiting.keys()].map(fileName)])
        .size,
    async drop(safe) {
      const names = (await namesIn(folder)).filter((name) => !isTogether(name));
      for (const file of (await Promise.all(names.map((name) => readRows(folder, name)))).flat()) {
        const key = keyOf(file);
        const row = safe.get(key);
        // what still waits to be written is newer than the backup
        if (row && covered(file, row) && !waiting.has(key)) await remove(folder, fileName(key));
      }
    },
    dropStreams(streams) {
      const isOf = (key: RowKey): boolean => streams.includes(nameOf(key)[0]);
      for (const key of waiting.keys()) if (isOf(key)) waiting.delete(key);
      dropping = dropping.then(async () => {
        // one that is being written now would come after its removal
        await writing;
        for (const name of await namesIn(folder)) {
          if (isOf(name.replace('~', '/'))) await remove(folder, name);
          if (!isTogether(name)) continue;
          const rows = (await readRows(folder, name)).filter((row) => !isOf(keyOf(row)));
          if (rows.length === 0) await remove(folder, name);
          else await write(folder, name, rows.map(packed).join('\n'));
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

/** Writes a file; one that cannot be written leaves its rows with one copy, as it would be without any of this. */
const write = (folder: FileSystemDirectoryHandle, name: string, text: string): Promise<void> =>
  writeFile(folder, name, text).catch(() => undefined);

const remove = (folder: FileSystemDirectoryHandle, name: string): Promise<void> =>
  folder.removeEntry(name).catch(() => undefined);

const packed = (row: Row): string => JSON.stringify(packRow(row));

/** Files of rows that were saved together; the name of a row's own file has a `~`. */
const isTogether = (name: string): boolean => /^together\.\d+\.json$/.test(name);

const togetherName = (n: number): string => `together.${n}.json`;

const isThere = (folder: FileSystemDirectoryHandle, name: string): Promise<boolean> =>
  folder.getFileHandle(name).then(
    () => true,
    () => false,
  );

/** A browser's listing stumbles over a file that is swapped in or gone meanwhile: then it is listed once more. */
const MOST_LISTINGS = 10;

async function namesIn(folder: FileSystemDirectoryHandle): Promise<readonly string[]> {
  for (let tries = 1; ; tries += 1) {
    const names: string[] = [];
    try {
      for await (const name of folder.keys()) if (name.endsWith('.json')) names.push(name);
      return names;
    } catch (error) {
      if (tries === MOST_LISTINGS) throw error;
    }
  }
}

/** Returns the rows of a file, a line each. One that is torn or gone tells nothing: the other copy stands. */
async function readRows(folder: FileSystemDirectoryHandle, name: string): Promise<readonly Row[]> {
  try {
    const file = await folder.getFileHandle(name);
    return (await (await file.getFile()).text()).split('\n').flatMap((line) => {
      const row = unpackRow(JSON.parse(line));
      return row.ok ? [row.value] : [];
    });
  } catch {
    return [];
  }
}

const covered = (file: Row, safe: Pick<Row, 'seen'>): boolean =>
  Object.entries(file.seen).every(([writer, l]) => seenOf(safe.seen, writer) >= l);
