import type { End } from '../analysis/ends';
import { type Exposure, exposureOf } from '../domain/exposure';
import type { Used } from '../domain/recent';
import { readSessions } from '../domain/session';
import type { Json, RowName } from '../merge/row';
import type { Core } from './core';
import { unpackRow } from './encode';
import { keyOf, nameOf, type RowKey, seriesKey, streamRange } from './keys';
import { STALE, sessionIdOf } from './openSessions';
import { dueIn, reckonEnds } from './reckon';
import {
  buildSeries,
  foldExposure,
  foldSession,
  type LastTime,
  lastTimeOf,
  SERIES_VERSION,
  type SeriesRow,
} from './series';
import { session, sessionRows, sessionsInMemory, shownOf } from './views';
import { seriesTopic } from './watch';

/**
 * Folds sessions that ended (or are gone) into their client's series, and strikes them off the open list in the same transaction.
 * A start does it again for what a kill left undone. Running sessions stay as they are: they are in memory whole.
 */
export function foldEnded(core: Core, rows: readonly RowName[]): Promise<void> {
  return inTurn(core, () => fold(core, rows));
}

function inTurn(core: Core, run: () => Promise<void>): Promise<void> {
  core.folding = core.folding.then(run, run);
  return core.folding;
}

async function fold(core: Core, rows: readonly RowName[]): Promise<void> {
  const parents = new Map<RowKey, [stream: string, id: string]>();
  for (const name of rows) {
    const row = name.kind === 'session' ? core.memory.get(keyOf(name)) : undefined;
    if (row) parents.set(keyOf({ stream: row.stream, id: sessionIdOf(row) }), [row.stream, sessionIdOf(row)]);
  }
  for (const [key, [stream, id]] of parents) {
    if (isRunning(core, stream, id)) continue;
    const stored = await core.connection.read((db) => db.getAll('series', streamRange(stream)));
    // not read: the session stays on the list, and the next start folds it
    const series = stored && (folded(core, stream, id, stored) ?? (await rebuilt(core, stream, stored)));
    // it may have been taken up again meanwhile
    if (!series || isRunning(core, stream, id)) continue;
    if (isStored(core, stream, id)) core.open.remove(key);
    await putSeries(core, series);
    reckonEnds(core, stream);
  }
}

const isRunning = (core: Core, stream: string, id: string): boolean => {
  const read = session(core.memory, stream, id);
  return read !== undefined && !read.end;
};

/** A change that waits to be saved is folded when it is: until then the session stays on the list. */
const isStored = (core: Core, stream: string, id: string): boolean =>
  sessionRows(core.memory, stream, id).every((row) => core.memory.isSaved(keyOf(row), ''));

/**
 * Returns the series rows that a session changes; undefined where they must be made anew: of another version, or the session is gone from
 * one, which may leave room for an older session that no row names any more.
 */
function folded(
  core: Core,
  stream: string,
  id: string,
  stored: readonly SeriesRow[],
): readonly SeriesRow[] | undefined {
  const read = session(core.memory, stream, id);
  if (!read || stored.some((row) => row.version !== SERIES_VERSION)) return undefined;
  const holds = (row: SeriesRow): boolean => [...row.last, ...row.times].some((time) => time.session === id);
  const names = stored.filter(holds).map((row) => row.exercise);
  if (names.some((one) => !lastTimeOf(read, one))) return undefined;
  const known = new Map(stored.map((row) => [row.exercise, row]));
  return ['', ...read.exercises].map((one) => foldSession(known.get(one), stream, one, id, read));
}

/** Reads a client's series row for an exercise, makes all of the client's anew where it is of another version, and tells its watchers. */
export async function readSeries(core: Core, stream: string, exercise: string): Promise<void> {
  const key = seriesKey(stream, exercise);
  if (core.reading.has(key)) return;
  core.reading.add(key);
  try {
    const read = await core.connection.read(async (db) => ({ row: await db.get('series', [stream, exercise]) }));
    if (!read) return;
    if (read.row && read.row.version !== SERIES_VERSION) {
      const series = await rebuilt(core, stream, [read.row]);
      if (series) await putSeries(core, series);
    } else if (!core.series.has(key)) {
      // one that was made while this one was read is newer
      core.series.set(key, read.row ?? emptySeries(stream, exercise));
    }
    core.watchers.tell(seriesTopic(stream));
  } finally {
    core.reading.delete(key);
  }
}

/**
 * Returns the client's last sessions of an exercise before a session, the newest first: the folded ones, and running ones in memory.
 * Undefined until the series is read; reading begins with the first call.
 */
export function lastTimes(
  core: Core,
  stream: string,
  exercise: string,
  before: string,
): readonly LastTime[] | undefined {
  const row = seriesRow(core, stream, exercise);
  if (!row) return undefined;
  const inMemory = sessionsInMemory(core.memory).filter((one) => one.stream === stream);
  const held = new Set(inMemory.map((one) => one.session.id));
  const times = [
    ...inMemory.flatMap((one) => lastTimeOf(one.session, exercise) ?? []),
    ...row.last.filter((time) => !held.has(time.session)),
  ];
  const from = inMemory.find((one) => one.session.id === before)?.session.start?.at ?? Number.POSITIVE_INFINITY;
  const others = times.filter((time) => time.session !== before).sort((a, b) => b.at - a.at);
  const earlier = others.filter((time) => time.at <= from);
  // with a clock set back everything lies in the future: what there is, is still the last time
  return earlier.length > 0 ? earlier : others;
}

/**
 * Returns every session of a client's that held an exercise, the oldest first, those in memory as they are now; undefined until the series is
 * read.
 */
export function exposures(core: Core, stream: string, exercise: string): readonly Exposure[] | undefined {
  const row = seriesRow(core, stream, exercise);
  if (!row) return undefined;
  return sessionsInMemory(core.memory)
    .filter((one) => one.stream === stream)
    .reduce((times, { session: one }) => foldExposure(times, one.id, exposureOf(one, exercise)), row.times);
}

/** Returns how a client's exercises stand after their last ended sessions; undefined until that is worked out. */
export function ends(core: Core, stream: string): readonly End[] | undefined {
  const row = seriesRow(core, stream, '');
  if (!row) return undefined;
  if (dueIn(core, row).length === 0) return row.ends ?? [];
  reckonEnds(core, stream);
  return undefined;
}

/** Returns the exercises of a client's sessions, each with the starts of those that held it; undefined until all series are read. */
export function usedExercises(core: Core, stream: string): readonly Used[] | undefined {
  if (!core.wholeSeries.has(stream)) {
    if (core.connection.database()) void readWhole(core, stream);
    return undefined;
  }
  const starts = new Map<string, Map<string, number>>();
  const note = (exercise: string, session: string, at: number): void => {
    starts.set(exercise, (starts.get(exercise) ?? new Map<string, number>()).set(session, at));
  };
  for (const row of core.series.values()) {
    if (row.stream !== stream || row.exercise === '') continue;
    for (const time of [...row.times, ...row.last]) note(row.exercise, time.session, time.at);
  }
  for (const { session: one, stream: own } of sessionsInMemory(core.memory)) {
    if (own === stream && one.start) for (const exercise of one.exercises) note(exercise, one.id, one.start.at);
  }
  return [...starts].map(([exercise, times]) => ({ exercise, times: [...times.values()] }));
}

/** Reads all series rows of a client, and tells their watchers. */
async function readWhole(core: Core, stream: string): Promise<void> {
  const key = seriesKey(stream, '*');
  if (core.reading.has(key)) return;
  core.reading.add(key);
  try {
    const stored = await core.connection.read((db) => db.getAll('series', streamRange(stream)));
    if (!stored) return;
    const isOld = stored.some((row) => row.version !== SERIES_VERSION);
    const made = isOld ? await rebuilt(core, stream, stored) : undefined;
    if (isOld && !made) return;
    // one that was made while these were read is newer
    if (!made) for (const row of stored) if (!core.series.has(keyOfRow(row))) core.series.set(keyOfRow(row), row);
    core.wholeSeries.add(stream);
    if (made) await putSeries(core, made);
    core.watchers.tell(seriesTopic(stream));
  } finally {
    core.reading.delete(key);
  }
}

/** Returns a series row that was read; begins to read one that was not. */
function seriesRow(core: Core, stream: string, exercise: string): SeriesRow | undefined {
  const row = core.series.get(seriesKey(stream, exercise));
  if (!row && core.connection.database()) void readSeries(core, stream, exercise);
  return row;
}

/**
 * Makes the series of every client anew that rows of sessions came in for from outside, and strikes those of their sessions that are over off the open list.
 */
export function refold(core: Core): Promise<void> {
  return inTurn(core, async () => {
    for (const stream of core.stale) {
      const stored = await core.connection.read((db) => db.getAll('series', streamRange(stream)));
      const series = stored && (await rebuilt(core, stream, stored));
      // not read: the next start does it
      if (!series) continue;
      core.stale.delete(stream);
      for (const key of core.open.keys()) {
        const [own, id] = nameOf(key);
        if (own === stream && !isRunning(core, own, id) && isStored(core, own, id)) core.open.remove(key);
      }
      await putSeries(core, series, [staleMark(core)]);
      reckonEnds(core, stream);
    }
  });
}

/** The mark by which the next start knows which clients' series are to be made anew. */
export const staleMark = (core: Core): [string, Json] => [STALE, [...core.stale]];

async function putSeries(core: Core, made: readonly SeriesRow[], meta: readonly [string, Json][] = []): Promise<void> {
  // the client may have been erased while they were made [M10]
  const series = made.filter((row) => !core.memory.isErased(row.stream));
  for (const row of series) core.series.set(seriesKey(row.stream, row.exercise), row);
  for (const stream of new Set(series.map((row) => row.stream))) core.watchers.tell(seriesTopic(stream));
  await core.queue.push({
    series: new Map(series.map((row) => [seriesKey(row.stream, row.exercise), row])),
    meta: new Map([...core.open.stored(), ...meta]),
  });
}

/** Makes a client's series from all of its sessions; rows that nothing tells of any more are emptied. Undefined where they cannot be read. */
async function rebuilt(
  core: Core,
  stream: string,
  stored: readonly SeriesRow[],
): Promise<readonly SeriesRow[] | undefined> {
  const rows = await core.connection.read((db) => db.getAll('sessions', streamRange(stream)));
  if (!rows) return undefined;
  const parts = rows.flatMap((one) => {
    const row = unpackRow(one);
    return row.ok ? [{ id: row.value.id, values: shownOf(row.value) }] : [];
  });
  const sessions = readSessions(parts).filter((one) => one.end);
  const built = buildSeries(stream, sessions);
  const gone = stored.filter((row) => !built.some((made) => made.exercise === row.exercise));
  return [...built, ...gone.map(({ stream, exercise }) => emptySeries(stream, exercise))];
}

const emptySeries = (stream: string, exercise: string): SeriesRow => ({
  stream,
  exercise,
  version: SERIES_VERSION,
  last: [],
  times: [],
});

const keyOfRow = (row: SeriesRow): string => seriesKey(row.stream, row.exercise);
