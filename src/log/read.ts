import type { Result } from '../domain/result';
import { canonicalRow } from '../merge/canonical';
import type { DoorFault } from '../merge/door';
import { mergeRows } from '../merge/merge';
import { emptyRow, type Json, type Row } from '../merge/row';
import type { Core } from './core';
import { type StoredRow, unpackRow } from './encode';
import { keyOf, nameOf, type RowKey, storeOf } from './keys';
import type { Database } from './open';
import { OPEN } from './openSessions';
import { lookForWipe, markKept } from './sentinel';
import { UNDO } from './watch';

/** Reads what a start needs into memory: all small rows, the open sessions, drafts, and the acts that can be undone. */
export async function readStart(core: Core): Promise<void> {
  await core.connection.read(async (db) => {
    const [rows, open, draftKeys, drafts, undo] = await Promise.all([
      db.getAll('rows'),
      db.get('meta', OPEN),
      db.getAllKeys('drafts'),
      db.getAll('drafts'),
      db.getAll('undo'),
    ]);
    absorbStored(core, rows);
    core.open.load(open);
    core.drafts.load(draftKeys.map((key, index): [string, Json] => [key, drafts[index] ?? null]));
    core.undo.splice(0, core.undo.length, ...undo);
    core.watchers.tell(UNDO);
    await Promise.all(core.open.keys().map((key) => readSessionFrom(db, core, ...nameOf(key))));
    core.board.set({ wiped: lookForWipe(core.local, rows.length) === 'wiped' });
  });
}

/** Reads a session and its continuations into memory. */
export async function readSessionRows(core: Core, stream: string, id: string): Promise<void> {
  await core.connection.read((db) => readSessionFrom(db, core, stream, id));
}

async function readSessionFrom(db: Database, core: Core, stream: string, id: string): Promise<void> {
  // a continuation's id is its parent's with `-n`
  const stored = await db.getAll('sessions', IDBKeyRange.bound([stream, id], [stream, `${id}-\uffff`]));
  absorbStored(core, stored);
}

/** Reads all results of a client into memory. */
export async function readResults(core: Core, stream: string): Promise<void> {
  const stored = await core.connection.read((db) => db.getAll('results', streamRange(stream)));
  absorbStored(core, stored ?? []);
}

/** Returns the key range of everything in a stream. */
export const streamRange = (stream: string): IDBKeyRange => IDBKeyRange.bound([stream], [stream, []]);

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

async function findRow(db: Database, key: RowKey): Promise<StoredRow | undefined> {
  const name = nameOf(key);
  return (await db.get('sessions', name)) ?? (await db.get('rows', name)) ?? (await db.get('results', name));
}

/** Reads again everything a start reads, and every session in memory. */
export async function readAgain(core: Core): Promise<void> {
  await core.connection.read((db) => db.getKey('meta', OPEN));
  await readStart(core);
  await readKeys(
    core,
    core.memory.ofKind('session').map((row) => keyOf(row)),
  );
}

/**
 * Compares the second copy with the store and brings back what the store lacks: through memory and the queue, like anything else.
 */
export async function compareSecondCopy(core: Core): Promise<void> {
  const copies = (await core.second?.all()) ?? [];
  let broughtBack = 0;
  for (const copy of copies) {
    const stored = await core.connection.read((db) => db.get(storeOf(copy.kind), [copy.stream, copy.id]));
    const held = stored === undefined ? undefined : unpackRow(stored);
    const base = held?.ok ? held.value : emptyRow(copy);
    const merged = mergeRows(base, copy);
    if (!merged.ok || canonicalRow(merged.value) === canonicalRow(base)) continue;
    core.memory.absorb(merged.value);
    broughtBack += 1;
    if (copy.kind === 'session') core.open.add([keyOf(copy)]);
    await core.queue.push({ rows: new Set([keyOf(copy)]), meta: core.open.stored() });
  }
  if (broughtBack > 0) core.board.set({ broughtBack: core.board.status().broughtBack + broughtBack });
}

function absorbStored(core: Core, stored: readonly StoredRow[]): void {
  let unreadable = 0;
  for (const one of stored) {
    const row: Result<Row, DoorFault> = unpackRow(one);
    if (row.ok) {
      core.memory.absorb(row.value);
      core.memory.markSaved(row.value);
    } else unreadable += 1;
  }
  if (stored.length > 0) markKept(core.local, 'rows');
  if (unreadable > 0) core.board.set({ unreadable });
}
