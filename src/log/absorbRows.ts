import { fail, ok } from '../domain/result';
import { type Json, type Row, registerAt } from '../merge/row';
import { mergeSeen } from '../merge/stamp';
import type { Core } from './core';
import { packRow } from './encode';
import { forgetErased } from './erased';
import { refold } from './fold';
import { heldRows } from './held';
import { asideKey, keyOf, type RowKey, storeOf } from './keys';
import type { Saving } from './log';
import { STALE, sessionIdOf } from './openSessions';
import type { Work } from './queue';
import { readSessionRows } from './read';
import type { Stage } from './stage';
import { UNDO_KEPT, type UndoEntry, type UndoRow } from './undo';
import { session } from './views';
import { UNDO } from './watch';

/** More rows than this are not offered for undo: the entry is read at every start, and it would weigh more than the log. */
export const MOST_UNDONE = 5000;

/** Merges staged rows into the log, through memory and the one write queue; one import after the other. */
export function putRows(core: Core, stage: Stage, tell: (share: number) => void): Saving {
  const run = (): Saving => put(core, stage, tell);
  const saving = core.absorbing.then(run, run);
  core.absorbing = saving;
  return saving;
}

async function put(core: Core, stage: Stage, tell: (share: number) => void): Saving {
  if (core.tabs?.seat() !== 'writer') return fail({ type: 'not-the-writer' });
  core.importing = true;
  const took: Took = { undo: [], streams: new Set(), running: new Map() };
  let done = 0;
  try {
    for await (const { rows, last } of stage.batches()) {
      const held = await heldRows(core, rows);
      if (!held) return fail({ type: 'connection-lost' });
      const draw = core.watchers.holdBack();
      const work = absorb(core, rows, held, took);
      const saved = await core.queue.push(last ? withEntry(core, took, work) : work);
      draw();
      if (!saved.ok) {
        // what went in before can be taken back, and so can these rows, which wait
        if (!last) void core.queue.push(withEntry(core, took, {}));
        return saved;
      }
      letGo(core);
      done += rows.length;
      tell(done / stage.size());
    }
  } finally {
    core.importing = false;
  }
  for (const [stream, id] of took.running.values()) await readSessionRows(core, stream, id);
  void refold(core);
  return ok(undefined);
}

type Took = {
  undo: UndoRow[];
  /** Clients whose own row is new: taking that row back takes all of the client back. */
  readonly streams: Set<string>;
  /** Sessions that run on another device. */
  readonly running: Map<RowKey, readonly [stream: string, id: string]>;
};

/** Merges a batch into memory, in one step, and returns what is to be written for it. */
function absorb(core: Core, rows: readonly Row[], held: ReadonlyMap<RowKey, Row | 'unreadable'>, took: Took): Work {
  const { memory } = core;
  const keys = new Set<RowKey>();
  const meta = new Map<string, Json>();
  let opened = false;
  for (const row of rows) {
    const key = keyOf(row);
    const stored = held.get(key);
    if (stored === 'unreadable' || memory.isErased(row.stream)) continue;
    const before = memory.get(key) ?? stored;
    if (before && before.kind !== row.kind) {
      meta.set(asideKey(row), { ...packRow(row) } as unknown as Json);
      continue;
    }
    if (!memory.get(key) && storeOf(row.kind) !== 'rows') core.passing.add(key);
    if (stored && !memory.get(key)) {
      memory.absorb(stored);
      memory.markSaved(stored);
    }
    memory.absorb(row);
    keys.add(key);
    const after = memory.get(key);
    if (!after || after.kind === 'erased') continue;
    if (took.undo.length <= MOST_UNDONE) took.undo.push(...(before ? changed(before, after) : added(after)));
    if (!before && after.id === after.stream) took.streams.add(after.stream);
    if (after.kind === 'session' || after.kind === 'result') core.stale.add(after.stream);
  }
  for (const key of keys) {
    const row = memory.get(key);
    if (row?.kind !== 'session') continue;
    const id = sessionIdOf(row);
    const read = session(memory, row.stream, id);
    if (!read || read.end) continue;
    took.running.set(keyOf({ stream: row.stream, id }), [row.stream, id]);
    opened = core.open.add([keyOf({ stream: row.stream, id })]) || opened;
  }
  const forgotten = forgetErased(core);
  if (opened) for (const [name, value] of core.open.stored()) meta.set(name, value);
  for (const [name, value] of forgotten.meta ?? []) meta.set(name, value);
  if (core.stale.size > 0) meta.set(STALE, [...core.stale]);
  return {
    rows: keys,
    undo: forgotten.undo ?? new Map(),
    drafts: forgotten.drafts ?? new Map(),
    series: new Map(),
    meta,
    bulk: true,
  };
}

/** Returns the work with the one undo entry of the whole import. */
function withEntry(core: Core, took: Took, work: Partial<Work>): Partial<Work> {
  if (took.undo.length > MOST_UNDONE) return work;
  // a session that runs is on Today by itself, whatever becomes of its client
  const isWithClient = ({ name, added: came }: UndoRow): boolean =>
    came !== undefined && took.streams.has(name.stream) && name.id !== name.stream && !took.running.has(keyOf(name));
  const rows = took.undo.filter((row) => !isWithClient(row) && !core.memory.isErased(row.name.stream));
  if (rows.length === 0) return work;
  const n = (core.undo.at(-1)?.n ?? 0) + 1;
  const entry: UndoEntry = { n, at: core.world.now(), act: { type: 'import', rows: rows.length }, rows };
  core.undo.push(entry);
  const tooOld = core.undo.length > UNDO_KEPT ? core.undo.shift() : undefined;
  core.watchers.tell(UNDO);
  return { ...work, undo: new Map([...(work.undo ?? []), [n, entry], ...(tooOld ? [[tooOld.n, null] as const] : [])]) };
}

const nameIn = ({ stream, id, kind }: Row): UndoRow['name'] => ({ stream, id, kind });

/** What it takes to take back a row that was not here: its removal, as of now. */
function added(row: Row): UndoRow[] {
  const seen = Object.values(row.body)
    .flat()
    .reduce((all, { stamp }) => mergeSeen(all, { [stamp.writer]: stamp.l }), row.seen);
  return [{ name: nameIn(row), stamp: { l: 1, writer: 'import' }, before: {}, over: {}, added: seen }];
}

/** What it takes to take back a merge: the values shown before, where others show now. */
function changed(before: Row, after: Row): UndoRow[] {
  const was: Record<string, Json> = {};
  const over: Record<string, UndoRow['stamp']> = {};
  const again: Record<string, UndoRow['stamp']> = {};
  for (const [path, [winner]] of Object.entries(after.body)) {
    const old = registerAt(before, path)?.[0];
    if (old && old.stamp.l === winner.stamp.l && old.stamp.writer === winner.stamp.writer) continue;
    was[path] = old?.value ?? null;
    again[path] = winner.stamp;
    if (old) over[path] = old.stamp;
  }
  if (Object.keys(was).length === 0) return [];
  // each path shows under a stamp of its own: none was written by this launch
  return [{ name: nameIn(after), stamp: { l: 1, writer: 'import' }, before: was, over, again }];
}

/** Lets go of sessions and results that were read for the import alone. */
function letGo(core: Core): void {
  const runs = new Set(core.open.keys());
  for (const key of core.passing) {
    const row = core.memory.get(key);
    const running = row && runs.has(keyOf({ stream: row.stream, id: sessionIdOf(row) }));
    if (!running && core.memory.isSaved(key, '')) core.memory.forget([key]);
  }
  core.passing.clear();
}
