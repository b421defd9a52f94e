import type { Core } from './core';
import { seriesKey } from './keys';
import type { SeriesRow } from './series';
import { seriesTopic } from './watch';

/*
 * [M7] How a client's exercises stand is worked out behind everything else, by the trend engine, which is loaded for it: the first screen does without.
 * What is due stands in the client's own series row, so that a kill loses nothing of it.
 */

/** Stands for every exercise in what is due. */
export const ALL_DUE = '*';

/** Works out what is due of a client; `all`: every exercise. It is done at once, or after what is being worked out now. */
export function reckonEnds(core: Core, stream: string, all?: 'all'): void {
  if (all) core.reckonAll.add(stream);
  if (core.reckoning.has(stream)) return;
  core.reckoning.add(stream);
  void reckon(core, stream).finally(() => core.reckoning.delete(stream));
}

async function reckon(core: Core, stream: string): Promise<void> {
  for (;;) {
    const before = await ownRow(core, stream);
    if (!before || core.memory.isErased(stream)) return;
    if (core.reckonAll.delete(stream)) {
      await put(core, { ...before, due: [ALL_DUE] });
      continue;
    }
    if (!before.due?.length) return;
    const ends = await worked(core, stream, before.due);
    if (!ends || core.memory.isErased(stream)) return;
    // where a session was folded meanwhile, what was worked out may be of the day before
    if (core.series.get(seriesKey(stream, '')) === before) await put(core, { ...before, ends, due: [] });
  }
}

async function ownRow(core: Core, stream: string): Promise<SeriesRow | undefined> {
  const key = seriesKey(stream, '');
  const stored = core.series.has(key) ? undefined : await core.connection.read((db) => db.get('series', [stream, '']));
  if (stored && !core.series.has(key)) core.series.set(key, stored);
  return core.series.get(key);
}

function put(core: Core, row: SeriesRow): Promise<unknown> {
  const key = seriesKey(row.stream, '');
  core.series.set(key, row);
  core.watchers.tell(seriesTopic(row.stream));
  return core.queue.push({ series: new Map([[key, row]]) });
}

/** Returns how the exercises stand; undefined where the rows cannot be read, or the engine not be loaded. Then it stays due. */
async function worked(core: Core, stream: string, due: readonly string[]) {
  try {
    const { endsAfter } = await import('./ends');
    return await endsAfter(core, stream, due.includes(ALL_DUE) ? undefined : due);
  } catch {
    return undefined;
  }
}
