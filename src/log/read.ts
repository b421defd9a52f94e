import type { Result } from '../domain/result';
import { canonicalRow } from '../merge/canonical';
import type { DoorFault } from '../merge/door';
import { mergeRows } from '../merge/merge';
import { emptyRow, type Row, type RowName } from '../merge/row';
import type { Core } from './core';
import { type StoredRow, unpackRow } from './encode';
import { forgetErased, marksFor } from './erased';
import { keyOf, nameOf, type RowKey, storeOf, streamRange } from './keys';
import type { Database } from './open';
import { OPEN, STALE, sessionIdOf } from './openSessions';
import type { Work } from './queue';
import { lookForWipe, markKept } from './sentinel';
import type { UndoEntry } from './undo';
import { sessionRows } from './views';
import { seriesTopic, UNDO } from './watch';

/**
 * Reads what a start needs into memory: all small rows, the open sessions, drafts, and the acts that can be undone. What waits to be written
 * is newer than what is read and stays. Returns false where the database could not be read.
 */
export async function readStart(core: Core): Promise<boolean> {
  const read = await core.connection.read(async (db) => {
    // one transaction: another tab may be writing, and keys must go with their values
    const tx = db.transaction(['rows', 'meta', 'drafts', 'undo']);
    const drafts = tx.objectStore('drafts');
    const [rows, open, stale, draftKeys, draftValues, undo] = await Promise.all([
      tx.objectStore('rows').getAll(),
      tx.objectStore('meta').get(OPEN),
      tx.objectStore('meta').get(STALE),
      drafts.getAllKeys(),
      drafts.getAll(),
      tx.objectStore('undo').getAll(),
    ]);
    const waiting = core.queue.waiting();
    absorbStored(core, rows);
    core.open.load(open);
    // a list that was made before this one was read would drop what only this one names
    if (waiting.meta.has(OPEN)) void core.queue.push({ meta: core.open.stored() });
    core.drafts.load(new Map(draftKeys.map((key, index) => [key, draftValues[index] ?? null])), waiting.drafts);
    core.undo.splice(0, core.undo.length, ...undoOf(undo, waiting.undo));
    core.watchers.tell(UNDO);
    for (const stream of Array.isArray(stale) ? stale : []) core.stale.add(String(stream));
    // none is left by the transaction that erases; a tab that froze may have put some since
    void core.queue.push(forgetErased(core));
    const keys = core.open.keys();
    await Promise.all(keys.map((key) => readSessionFrom(db, core, ...nameOf(key))));
    const found = rows.length + undo.length + keys.length;
    core.board.set({ wiped: lookForWipe(core.local, found) === 'wiped' });
    return true;
  });
  return read ?? false;
}

/** The stored acts with those laid over that wait to be put there or taken out. */
function undoOf(stored: readonly UndoEntry[], waiting: Work['undo']): readonly UndoEntry[] {
  const entries = new Map<number, UndoEntry | null>(stored.map((entry) => [entry.n, entry]));
  for (const [n, entry] of waiting) entries.set(n, entry);
  return [...entries.values()].flatMap((entry) => entry ?? []).sort((a, b) => a.n - b.n);
}

/** Reads a session and its continuations into memory. Returns whether all that the store holds of it is there now. */
export async function readSessionRows(core: Core, stream: string, id: string): Promise<boolean> {
  return (await core.connection.read((db) => readSessionFrom(db, core, stream, id))) ?? false;
}

async function readSessionFrom(db: Database, core: Core, stream: string, id: string): Promise<boolean> {
  // a continuation's id is its parent's with `-n`
  const stored = await db.getAll('sessions', IDBKeyRange.bound([stream, id], [stream, `${id}-\uffff`]));
  absorbStored(core, stored);
  return stored.every((row) => !core.unreadable.has(keyOf(row)));
}

/** Reads all results of a client into memory. Returns whether they could be read. */
export async function readResults(core: Core, stream: string): Promise<boolean> {
  const stored = await core.connection.read((db) => db.getAll('results', streamRange(stream)));
  absorbStored(core, stored ?? []);
  return stored !== undefined;
}

/** Reads rows by key again and merges them into memory: another tab wrote them, or the fate of a write is not known. */
export async function readKeys(core: Core, keys: Iterable<RowKey>): Promise<boolean> {
  const wanted = [...keys];
  const stored = await core.connection.read((db) =>
    Promise.all(
      wanted.map((key) => {
        const kind = core.memory.get(key)?.kind;
        return kind === undefined ? findRow(db, key) : db.get(storeOf(kind), nameOf(key));
      }),
    ),
  );
  if (!stored) return false;
  absorbStored(
    core,
    stored.flatMap((row) => row ?? []),
  );
  return true;
}

/** Reads rows by name into memory, those of sessions with the rest of their session. Returns false where they could not be read. */
export async function readRows(core: Core, names: readonly RowName[]): Promise<boolean> {
  const missing = names.filter((name) => !core.memory.get(keyOf(name)));
  if (!(await readKeys(core, missing.map(keyOf)))) return false;
  const sessions = missing.flatMap((name) => (name.kind === 'session' ? (core.memory.get(keyOf(name)) ?? []) : []));
  await Promise.all(sessions.map((row) => readSessionRows(core, row.stream, sessionIdOf(row))));
  return true;
}

async function findRow(db: Database, key: RowKey): Promise<StoredRow | undefined> {
  const name = nameOf(key);
  return (await db.get('sessions', name)) ?? (await db.get('rows', name)) ?? (await db.get('results', name));
}

/** Reads again everything a start reads, and every session in memory. Returns false where that was not possible. */
export async function readAgain(core: Core): Promise<boolean> {
  forgetSeries(core);
  if (!(await readStart(core))) return false;
  const sessions = core.memory.ofKind('session').map((row) => keyOf(row));
  return sessions.length === 0 || readKeys(core, sessions);
}

/** Forgets the series that were read: another tab may have made them anew. */
export function forgetSeries(core: Core): void {
  const streams = new Set([...core.series.values()].map((row) => row.stream));
  core.series.clear();
  core.wholeSeries.clear();
  for (const stream of streams) core.watchers.tell(seriesTopic(stream));
}

/** Keeps once more what the second copy lacks of the sessions that run and their clients: a kill can come between a save and its copy. */
export async function keepOpen(core: Core): Promise<void> {
  const second = await core.second;
  if (!second) return;
  const names = core.open.keys().map(nameOf);
  const rows = [
    ...names.map(([stream]) => keyOf({ stream, id: stream })),
    ...names.flatMap(([stream, id]) => sessionRows(core.memory, stream, id).map(keyOf)),
  ];
  const copies = new Map((await second.some(rows)).map((copy) => [keyOf(copy), copy]));
  second.keep(
    rows.flatMap((key) => {
      // as it is now: files that answer late would else put an older state over the copy of what was saved meanwhile
      const row = core.memory.get(key);
      const copy = copies.get(key);
      if (!row || !copy) return row ?? [];
      // a copy may hold what the store has lost
      const merged = mergeRows(row, copy);
      return merged.ok && canonicalRow(merged.value) !== canonicalRow(copy) ? [merged.value] : [];
    }),
  );
  await second.settled();
}

/**
 * Compares the second copy with the store. What the store lacks is brought back: through memory and the queue, like anything else, and all of it in one
 * transaction, for a page may be gone after any: a move of which one row was brought back would show its set twice. What a copy lacks is kept again.
 * Resolves when both hold the same.
 */
export async function compareSecondCopy(core: Core): Promise<void> {
  const second = await core.second;
  if (!second) return;
  const lost: Row[] = [];
  for (const copy of await second.all()) {
    // a kill came between erasing the client and dropping the file, which `forgetErased` sees to
    if (core.memory.isErased(copy.stream)) continue;
    const read = await core.connection.read(async (db) => ({
      stored: await db.get(storeOf(copy.kind), [copy.stream, copy.id]),
    }));
    if (!read) return;
    const held = read.stored === undefined ? undefined : unpackRow(read.stored);
    // what this version cannot read is not written over
    if (held && !held.ok) continue;
    const base = held?.value ?? emptyRow(copy);
    const merged = mergeRows(base, copy);
    if (!merged.ok) continue;
    if (canonicalRow(merged.value) !== canonicalRow(copy)) second.keep([merged.value]);
    // a row that erases a client is empty, and says what it says by being there
    if (held && canonicalRow(merged.value) === canonicalRow(base)) continue;
    lost.push(merged.value);
  }
  await bringBack(core, lost);
  await second.settled();
  await second.tidy();
}

async function bringBack(core: Core, lost: readonly Row[]): Promise<void> {
  if (lost.length === 0) return;
  for (const row of lost) core.memory.absorb(row);
  const keys = [...new Set(lost.map(keyOf))];
  core.open.add(lost.filter((row) => row.kind === 'session').map(keyOf));
  const forgotten = forgetErased(core);
  const meta = new Map([...(forgotten.meta ?? []), ...core.open.stored()]);
  await core.queue.push({ rows: new Set(marksFor(core, keys)), ...forgotten, meta });
  core.board.set({ broughtBack: core.board.status().broughtBack + keys.length });
}

function absorbStored(core: Core, stored: readonly StoredRow[]): void {
  const before = core.unreadable.size;
  for (const one of stored) {
    const row: Result<Row, DoorFault> = unpackRow(one);
    if (row.ok) {
      core.memory.absorb(row.value);
      core.memory.markSaved(row.value);
    } else core.unreadable.add(`${one.stream}/${one.id}`);
  }
  if (stored.length > 0) markKept(core.local, 'rows');
  if (core.unreadable.size > before) core.board.set({ unreadable: core.unreadable.size });
}
