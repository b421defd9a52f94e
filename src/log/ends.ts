import { type End, endsOf } from '../analysis/ends';
import { bodyOf } from '../analysis/studio';
import { bodyMasses } from './bodyMasses';
import type { Core } from './core';
import { seriesKey, streamRange } from './keys';
import { readResults } from './read';
import { SERIES_VERSION } from './series';
import { exercise } from './views';

/**
 * Returns how a client's exercises stand: those that are `due` worked out from their series, the others as they were known; without `due`, all of
 * them anew. Undefined where the series cannot be read, or are to be made anew themselves. Body masses are read where a load was added to a body.
 */
export async function endsAfter(
  core: Core,
  stream: string,
  due: readonly string[] | undefined,
): Promise<readonly End[] | undefined> {
  const stored = await core.connection.read((db) => db.getAll('series', streamRange(stream)));
  if (!stored || stored.some(({ version }) => version !== SERIES_VERSION)) return undefined;
  // what was folded and is not stored yet is in memory
  const rows = stored.map((row) => core.series.get(seriesKey(stream, row.exercise)) ?? row);
  const own = rows.find((row) => row.exercise === '');
  const wanted = due && own?.ends ? due : undefined;
  const asked = rows.filter((row) => row.exercise !== '' && (wanted?.includes(row.exercise) ?? true));
  if (asked.some(({ times }) => times.some(({ tried }) => tried?.some(({ kg }) => kg !== undefined))))
    await readResults(core, stream);
  const masses = bodyMasses(core.memory, stream);
  const made = asked.flatMap((row) => {
    const found = exercise(core.memory, row.exercise);
    return found ? endsOf(found, row.times, bodyOf(found, masses)) : [];
  });
  const others = wanted ? (own?.ends ?? []).filter((end) => !wanted.includes(end.exercise)) : [];
  return [...others, ...made].sort(byName);
}

const byName = (a: End, b: End): number => {
  const [one, other] = [`${a.exercise}/${a.side ?? ''}`, `${b.exercise}/${b.side ?? ''}`];
  return one < other ? -1 : one > other ? 1 : 0;
};
