import { type Client, readClient } from '../domain/client';
import { type Exercise, readExercise } from '../domain/exercise';
import { SHIPPED_EXERCISES } from '../domain/library';
import { readSession, type SessionRecord } from '../domain/session';
import type { Json, Row } from '../merge/row';
import { shown } from '../merge/shown';
import { keyOf, type RowKey } from './keys';
import type { Memory } from './memory';
import { sessionIdOf } from './openSessions';

/*
 * What rows tell, read once for each state of a row: a row never changes in place, so its reading is kept with it.
 */

type Reader = Pick<Memory, 'get' | 'ofKind'>;

const values = new WeakMap<Row, Readonly<Record<string, Json>>>();

/** Returns what a row shows now. */
export function shownOf(row: Row): Readonly<Record<string, Json>> {
  const known = values.get(row);
  if (known) return known;
  const now = shown(row);
  values.set(row, now);
  return now;
}

/** Returns the clients, by alias. */
export function clients(log: Reader): readonly Client[] {
  const read = log.ofKind('client').flatMap((row) => readClient(row.id, shownOf(row)) ?? []);
  return read.sort((a, b) => (a.alias < b.alias ? -1 : a.alias > b.alias ? 1 : a.id < b.id ? -1 : 1));
}

/** Returns one client; its row bears the id of its stream. */
export function client(log: Reader, stream: string): Client | undefined {
  const row = log.get(keyOf({ stream, id: stream }));
  return row && readClient(stream, shownOf(row));
}

/** Returns every exercise: the shipped ones with what was laid over them, then those added here. */
export function exercises(log: Reader): readonly Exercise[] {
  const rows = new Map(log.ofKind('exercise').map((row) => [row.id, row]));
  const shipped = SHIPPED_EXERCISES.map((exercise) => {
    const over = rows.get(exercise.id);
    return (over && readExercise(exercise.id, shownOf(over), exercise)) ?? exercise;
  });
  const own = [...rows.values()].filter((row) => !SHIPPED_EXERCISES.some(({ id }) => id === row.id));
  return [...shipped, ...own.flatMap((row) => readExercise(row.id, shownOf(row)) ?? [])];
}

/** Returns one exercise; undefined where no row or library tells of it. */
export function exercise(log: Reader, id: string): Exercise | undefined {
  const shipped = SHIPPED_EXERCISES.find((one) => one.id === id);
  const row = log.get(keyOf({ stream: 'main', id }));
  return row?.kind === 'exercise' ? readExercise(id, shownOf(row), shipped) : shipped;
}

/** A cue as the library words it. */
export type Cue = { readonly id: string; readonly words: string };

/** Returns the cues added here, by their words. */
export function cues(log: Reader): readonly Cue[] {
  return log
    .ofKind('cue')
    .flatMap((row) => {
      const words = shownOf(row)['words'];
      return typeof words === 'string' && words !== '' ? [{ id: row.id, words }] : [];
    })
    .sort((a, b) => (a.words < b.words ? -1 : 1));
}

/** Returns the rows of a session that are in memory: itself and its continuations. */
export function sessionRows(log: Reader, stream: string, id: string): readonly Row[] {
  const own = log.get(keyOf({ stream, id }));
  if (!own) return [];
  const rows = [own];
  for (let n = 2; ; n += 1) {
    const next = log.get(keyOf({ stream, id: `${id}-${n}` }));
    if (!next) return rows;
    rows.push(next);
  }
}

const sessions = new WeakMap<Row, { rows: readonly Row[]; read: SessionRecord | undefined }>();

/** Returns a session that is in memory, its continuations included. */
export function session(log: Reader, stream: string, id: string): SessionRecord | undefined {
  const rows = sessionRows(log, stream, id);
  const [own] = rows;
  if (!own) return undefined;
  const known = sessions.get(own);
  if (known && known.rows.length === rows.length && known.rows.every((row, index) => row === rows[index]))
    return known.read;
  const removed = Object.keys(shownOf(own)).length === 0;
  const read = removed
    ? undefined
    : readSession(
        id,
        rows.map((row) => ({ id: row.id, values: shownOf(row) })),
      );
  sessions.set(own, { rows, read });
  return read;
}

/** A session in memory, with whose it is. */
export type ClientSession = { readonly stream: string; readonly key: RowKey; readonly session: SessionRecord };

/** Returns every session in memory, the latest start first. */
export function sessionsInMemory(log: Reader): readonly ClientSession[] {
  return log
    .ofKind('session')
    .flatMap((row) => {
      if (sessionIdOf(row) !== row.id) return [];
      const read = session(log, row.stream, row.id);
      return read ? [{ stream: row.stream, key: keyOf(row), session: read }] : [];
    })
    .sort((a, b) => (b.session.start?.at ?? 0) - (a.session.start?.at ?? 0) || (a.key < b.key ? -1 : 1));
}
