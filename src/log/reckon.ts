import type { Core } from './core';
import { seriesKey } from './keys';
import type { SeriesRow } from './series';
import { exercise } from './views';
import { seriesTopic } from './watch';

/*
 * [M7] How a client's exercises stand is worked out behind everything else, by the trend engine, which is loaded for it: the first screen does without.
 * What is due stands in the client's own series row, so that a kill loses nothing of it.
 */

/** Works out what is due of a client, behind those that were asked for before: after an update all are due, and one at a time leaves room for taps. */
export function reckonEnds(core: Core, stream: string): void {
  if (core.reckoning.has(stream)) return;
  core.reckoning.add(stream);
  const next = () => reckon(core, stream);
  core.reckoned = core.reckoned.then(next, next);
}

/** Returns what is due of a client's own row and can be worked out: an exercise that is not in the library yet waits until it comes. */
export const dueIn = (core: Core, { due = [] }: SeriesRow): readonly string[] =>
  due.filter((one) => exercise(core.memory, one));

async function reckon(core: Core, stream: string): Promise<void> {
  const key = seriesKey(stream, '');
  for (;;) {
    const before = core.series.get(key);
    const due = before && !core.memory.isErased(stream) ? dueIn(core, before) : [];
    const ends = due.length > 0 ? await worked(core, stream, due) : undefined;
    if (!before || !ends || core.memory.isErased(stream)) break;
    // where a session was folded meanwhile, what was worked out may be of the day before
    if (core.series.get(key) !== before) continue;
    const row = { ...before, ends, due: (before.due ?? []).filter((one) => !due.includes(one)) };
    core.series.set(key, row);
    core.watchers.tell(seriesTopic(stream));
    await core.queue.push({ series: new Map([[key, row]]) });
  }
  core.reckoning.delete(stream);
}

/** Returns how the exercises stand; undefined where the rows cannot be read, or the engine not be loaded. Then it stays due. */
async function worked(core: Core, stream: string, due: readonly string[]) {
  try {
    const { endsAfter } = await import('./ends');
    return await endsAfter(core, stream, due);
  } catch {
    return undefined;
  }
}
