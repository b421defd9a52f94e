import { erasedMark, erasedStream } from '../merge/erased';
import type { Json, Row } from '../merge/row';
import type { Core } from './core';
import { keyOf, nameOf, ROW_STORES, type RowKey, streamRange } from './keys';
import { STALE } from './openSessions';
import type { Work } from './queue';
import type { UndoEntry } from './undo';
import { seriesTopic, UNDO } from './watch';

/*
 * [M10] A client that is erased leaves every derived place. Memory drops the stream's rows when it takes in the row that erases it; the transaction
 * that puts this row takes the stream out of every store; here goes what lies elsewhere. A kill in between leaves the erasing row, and the next
 * start goes through all of it again.
 */

/** Returns the streams that are erased, as far as memory knows. */
export const erasedStreams = (core: Pick<Core, 'memory'>): readonly string[] =>
  core.memory.ofKind('erased').flatMap((row) => erasedStream(row) ?? []);

/** Returns whether a draft is about an erased client: its key names whose it is. */
export const isOfErased = (core: Pick<Core, 'memory'>, draft: string): boolean =>
  draft.split('/').some((part) => core.memory.isErased(part));

/**
 * Drops what is derived from erased clients: undo entries that touched them (the other half of a move could not be taken back either), drafts, open
 * sessions, series, files of the second copy, the snapshot of Today. Returns what of it is to be written, to go into the transaction of the
 * rows that erase.
 */
export function forgetErased(core: Core): Partial<Work> {
  const streams = erasedStreams(core);
  if (streams.length === 0) return {};
  const undo = new Map<number, UndoEntry | null>();
  for (const entry of [...core.undo]) {
    if (!entry.rows.some(({ name }) => isOf(name))) continue;
    core.undo.splice(core.undo.indexOf(entry), 1);
    undo.set(entry.n, null);
  }
  if (undo.size > 0) core.watchers.tell(UNDO);
  const gone = core.drafts.keys().filter((key) => isOfErased(core, key));
  const drafts = new Map<string, Json>(gone.flatMap((key) => [...core.drafts.settle(key, null)]));
  const open = core.open.keys().filter((key) => core.memory.isErased(nameOf(key)[0]));
  for (const key of open) core.open.remove(key);
  const stale = streams.filter((stream) => core.stale.delete(stream));
  const meta = new Map<string, Json>([
    ...(open.length > 0 ? core.open.stored() : []),
    ...(stale.length > 0 ? ([[STALE, [...core.stale]]] as const) : []),
  ]);
  for (const [key, row] of core.series) if (core.memory.isErased(row.stream)) core.series.delete(key);
  for (const key of core.unreadable) if (core.memory.isErased(nameOf(key)[0])) core.unreadable.delete(key);
  for (const stream of streams) if (core.wholeSeries.delete(stream)) core.watchers.tell(seriesTopic(stream));
  const today = core.local.get('today') ?? '';
  if (streams.some((stream) => today.includes(stream))) core.local.set('today', '');
  void core.second.then((second) => second?.dropStreams(streams));
  return { undo, drafts, meta };

  function isOf(name: Pick<Row, 'stream'>): boolean {
    return core.memory.isErased(name.stream);
  }
}

/** Returns keys with those of erased clients' rows turned into the rows that erase them: putting these takes out what was put over them. */
export const marksFor = (core: Pick<Core, 'memory'>, keys: readonly RowKey[]): RowKey[] => [
  ...new Set(
    keys.map((key) => {
      const [stream] = nameOf(key);
      return core.memory.isErased(stream) ? keyOf(erasedMark(stream)) : key;
    }),
  ),
];

/** Looks whether the stores hold anything of erased clients (a tab that froze may have written late), and takes it out. */
export async function sweepErased(core: Core): Promise<void> {
  const streams = erasedStreams(core);
  if (streams.length === 0) return;
  const left = await core.connection.read(async (db) => {
    const stores = [...ROW_STORES, 'series'] as const;
    const tx = db.transaction(stores);
    const counts = streams.map(async (stream) => {
      const each = stores.map((store) => tx.objectStore(store).count(streamRange(stream)));
      return (await Promise.all(each)).some((count) => count > 0) ? [stream] : [];
    });
    return (await Promise.all(counts)).flat();
  });
  if (!left || left.length === 0) return;
  await core.queue.push({ rows: new Set(left.map((stream) => keyOf(erasedMark(stream)))) });
}
