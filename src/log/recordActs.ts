import type { Result } from '../domain/result';
import { removing, restoring, standing } from '../merge/removal';
import type { Json, Row } from '../merge/row';
import { type Beside, besideIn, settle, settledIn } from './beside';
import { keyOf } from './keys';
import type { Log } from './log';
import type { SessionPlace } from './logSet';
import { type Mending, needsMending } from './mending';
import { sessionIdOf } from './openSessions';
import type { SaveFault } from './queue';
import { readRows } from './read';
import { bringBack, type Removed, type RemovedAndWritten, recentlyRemoved, removedAndWritten } from './removed';
import { scanRows } from './scan';
import { sessionRows, shownOf } from './views';

/* What the whole log holds that someone has to look at: gathered from all rows, and settled one by one. */

/** Something found, with the row it was found in: what is needed to say where it stands. */
export type Found<T> = T & { readonly row: Row };

/** What was found of one kind: how many in all, and the first of them. */
export type Finds<T> = { readonly count: number; readonly list: readonly Found<T>[] };

export type Records = {
  readonly beside: Finds<Beside>;
  /** What was settled here lately, with what was let go. */
  readonly settled: Finds<Beside>;
  readonly both: Finds<RemovedAndWritten>;
  readonly mending: Finds<Mending>;
  /** The latest first. */
  readonly removed: Finds<Removed>;
};

const MOST_LISTED = 200;

/**
 * Goes through every row of the log, and returns what stands beside each other, what was removed by one and written to by another, what needs mending,
 * and what was removed in the thirty days before `now`; undefined where the store could not be read. Other work gets its turn between the batches.
 */
export async function gatherRecords(log: Log, now: number): Promise<Records | undefined> {
  const beside: Found<Beside>[] = [];
  const settled: Found<Beside>[] = [];
  const both: Found<RemovedAndWritten>[] = [];
  const mending: Found<Mending>[] = [];
  const removed: Found<Removed>[] = [];
  const counts = { beside: 0, settled: 0, both: 0, mending: 0, removed: 0 };
  function put<T>(list: Found<T>[], of: keyof typeof counts, row: Row, some: readonly T[]): void {
    counts[of] += some.length;
    for (const one of some) if (list.length < MOST_LISTED) list.push({ ...one, row });
  }
  const undo = log.inside((core) => [...core.undo]);
  const isRead = await scanRows(log, async (rows) => {
    const inBatch = new Map(rows.map((row) => [keyOf(row), row]));
    const reader = { get: (key: string) => log.get(key) ?? inBatch.get(key), ofKind: log.ofKind };
    for (const row of rows) {
      const values = shownOf(row);
      const isOwn = sessionIdOf(row) === row.id;
      put(
        beside,
        'beside',
        row,
        besideIn(row).filter(({ path }) => Object.hasOwn(values, path)),
      );
      put(settled, 'settled', row, settledIn(row, undo));
      // what a continuation lacks is told with its parent, and it is removed and brought back with it
      put(
        both,
        'both',
        row,
        removedAndWritten(row).filter(({ thing }) => isOwn || thing !== ''),
      );
      const broken = isOwn ? needsMending(reader, row) : undefined;
      put(mending, 'mending', row, broken ? [broken] : []);
      const gone = recentlyRemoved(row, now).filter(({ thing }) => isOwn || thing !== '');
      counts.removed += gone.length;
      removed.push(...gone.map((one) => ({ ...one, row })));
    }
    removed.sort((a, b) => b.by.l - a.by.l).splice(MOST_LISTED);
    await new Promise((next) => setTimeout(next, 0));
  });
  if (!isRead) return undefined;
  return {
    beside: { count: counts.beside, list: beside },
    settled: { count: counts.settled, list: settled },
    both: { count: counts.both, list: both },
    mending: { count: counts.mending, list: mending },
    removed: { count: counts.removed, list: removed },
  };
}

/** Returns whether a client is there whose name cannot be read: their page asks for one. */
export function needsName(log: Log, stream: string): boolean {
  const row = log.get(keyOf({ stream, id: stream }));
  return row?.kind === 'client' && needsMending(log, row) !== undefined;
}

/** Returns what stands beside each other in one set of a session in memory. */
export function besideOfSet(log: Log, place: SessionPlace, set: string): readonly Found<Beside>[] {
  return sessionRows(log, place.stream, place.session).flatMap((row) =>
    besideIn(row).flatMap((one) => (one.path.startsWith(`sets/${set}/`) ? [{ ...one, row }] : [])),
  );
}

/** Settles what stands beside each other by one of the values, wherever its row is. Can be undone. */
export async function settleFound(log: Log, found: Found<Beside>, value: Json): Promise<Result<void, SaveFault>> {
  await readWhole(log, found.row);
  return settle(log, found, value);
}

/** Brings back what was removed, a session with its continuations, in one act that can be undone. Keeping what was written to meanwhile is the same. */
export async function bringBackFound(log: Log, found: Found<Removed>): Promise<Result<void, SaveFault>> {
  await readWhole(log, found.row);
  const { stream, kind } = found.name;
  if (kind !== 'session' || found.thing !== '') return bringBack(log, found);
  const rows = sessionRows(log, stream, sessionIdOf(found.row)).filter((row) => standing(row, '') !== 'there');
  return log.commit({
    act: { type: 'bring-back', stream },
    rows: rows.map((row) => ({ name: row, changes: restoring('') })),
  });
}

/** Removes a thing again that was written to since, by one who has seen what was written. Can be undone. */
export async function removeAgain(log: Log, found: Found<Removed>): Promise<Result<void, SaveFault>> {
  await readWhole(log, found.row);
  const { name, thing } = found;
  const isSession = name.kind === 'session' && thing === '';
  const rows = isSession ? sessionRows(log, name.stream, sessionIdOf(found.row)) : [log.get(keyOf(name)) ?? found.row];
  return log.commit({
    act: { type: 'remove-again', stream: name.stream },
    rows: rows.map((row) => ({ name: row, changes: removing(row, thing) })),
  });
}

/** Reads a row into memory, a session with its continuations: what is derived from it is made from the whole of it. */
async function readWhole(log: Log, row: Row): Promise<void> {
  if (row.kind === 'session') await log.loadSession(row.stream, sessionIdOf(row));
  else if (!log.get(keyOf(row))) await log.inside((core) => readRows(core, [row]));
}
