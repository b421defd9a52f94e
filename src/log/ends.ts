import { type End, endsOf } from '../analysis/ends';
import { bodyOf } from '../analysis/studio';
import { bodyMasses } from './bodyMasses';
import type { Core } from './core';
import { seriesKey, streamRange } from './keys';
import { readResults } from './read';
import { SERIES_VERSION, type SeriesRow } from './series';
import { exercise } from './views';

/**
 * Returns how a client's exercises stand: those that are `due` worked out from their series, the others as they were known; all of them where none
 * was known before. Undefined where something cannot be read, or the series are to be made anew themselves. Body masses are read where a load was
 * added to a body.
 */
export async function endsAfter(
  core: Core,
  stream: string,
  due: readonly string[],
): Promise<readonly End[] | undefined> {
  const rows = await seriesRows(core, stream);
  if (!rows || rows.some(({ version }) => version !== SERIES_VERSION)) return undefined;
  const own = rows.find((row) => row.exercise === '');
  const asked = rows.flatMap((row) => {
    const found =
      row.exercise === '' || (own?.ends && !due.includes(row.exercise))
        ? undefined
        : exercise(core.memory, row.exercise);
    return found ? [{ found, times: row.times }] : [];
  });
  const isLoaded = asked.some(
    ({ found, times }) =>
      found.holds === 'body' && times.some(({ tried }) => tried?.some(({ kg }) => kg !== undefined)),
  );
  if (isLoaded && !(await readResults(core, stream))) return undefined;
  const masses = bodyMasses(core.memory, stream);
  const made = asked.flatMap(({ found, times }) => endsOf(found, times, bodyOf(found, masses)));
  const others = (own?.ends ?? []).filter((end) => !due.includes(end.exercise));
  return [...others, ...made].sort(byName);
}

/** The stored rows, and what was folded and may not be stored yet. */
async function seriesRows(core: Core, stream: string): Promise<readonly SeriesRow[] | undefined> {
  const stored = await core.connection.read((db) => db.getAll('series', streamRange(stream)));
  if (!stored) return undefined;
  const rows = new Map(stored.map((row) => [seriesKey(stream, row.exercise), row]));
  for (const [key, row] of core.series) if (row.stream === stream) rows.set(key, row);
  return [...rows.values()];
}

const byName = (a: End, b: End): number => {
  const [one, other] = [`${a.exercise}/${a.side ?? ''}`, `${b.exercise}/${b.side ?? ''}`];
  return one < other ? -1 : one > other ? 1 : 0;
};
