import { type Client, readClient } from '../domain/client';
import { type Exercise, readExercise } from '../domain/exercise';
import { type Place, readPlace } from '../domain/kit';
import { SHIPPED_EXERCISES } from '../domain/library';
import { type OtherWork, readOtherWork } from '../domain/otherWork';
import { type Restriction, readRestriction } from '../domain/restriction';
import { readSession, type SessionRecord } from '../domain/session';
import { DEFAULT_SETTINGS, readSettings, type Settings, withRest } from '../domain/settings';
import { readTemplate, type Template } from '../domain/template';
import type { Json, Row } from '../merge/row';
import { shown } from '../merge/shown';
import { keyOf, type RowKey } from './keys';
import type { Memory } from './memory';
import { sessionIdOf } from './openSessions';

/*
 * What rows tell, read once for each state of a row: a row never changes in place, so its reading is kept with it.
 */

type Reader = Pick<Memory, 'get' | 'ofKind'>;

/** Returns a function that reads something once for each state of what it is read from. */
function once<From extends object, To>(read: (from: From) => To): (from: From) => To {
  const known = new WeakMap<From, { readonly to: To }>();
  return (from) => {
    const found = known.get(from) ?? { to: read(from) };
    known.set(from, found);
    return found.to;
  };
}

/** Returns what a row shows now. */
export const shownOf: (row: Row) => Readonly<Record<string, Json>> = once(shown);

/** Returns the clients, by alias. */
export const clients = (log: Reader): readonly Client[] => clientsOf(log.ofKind('client'));

const clientOf = once((row: Row) => readClient(row.id, shownOf(row)));
const clientsOf = once((rows: readonly Row[]): readonly Client[] => {
  const read = rows.flatMap((row) => clientOf(row) ?? []);
  return read.sort((a, b) => (a.alias < b.alias ? -1 : a.alias > b.alias ? 1 : a.id < b.id ? -1 : 1));
});

/** Returns one client; its row bears the id of its stream. */
export function client(log: Reader, stream: string): Client | undefined {
  const row = log.get(keyOf({ stream, id: stream }));
  return row && clientOf(row);
}

/** The one row of what the trainer chose for everything. */
export const SETTINGS = { stream: 'main', id: 'settings', kind: 'settings' } as const;

const settingsOf = once((row: Row) => readSettings(shownOf(row)));

/** Returns what the trainer chose for everything. */
export function settings(log: Reader): Settings {
  const row = log.get(keyOf(SETTINGS));
  return row ? settingsOf(row) : DEFAULT_SETTINGS;
}

/** The rest of its like is for an exercise that was given none of its own. */
const rested = (log: Reader, exercise: Exercise, row?: Row): Exercise =>
  row && shownOf(row)['rest'] !== undefined ? exercise : withRest(exercise, settings(log));

const exerciseOf = once((row: Row) =>
  readExercise(
    row.id,
    shownOf(row),
    SHIPPED_EXERCISES.find(({ id }) => id === row.id),
  ),
);

/** Returns every exercise: the shipped ones with what was laid over them, then those added here. */
export function exercises(log: Reader): readonly Exercise[] {
  const rows = new Map(log.ofKind('exercise').map((row) => [row.id, row]));
  const shipped = SHIPPED_EXERCISES.map((exercise) => {
    const over = rows.get(exercise.id);
    return rested(log, (over && exerciseOf(over)) ?? exercise, over);
  });
  const own = [...rows.values()].filter((row) => !SHIPPED_EXERCISES.some(({ id }) => id === row.id));
  const added = own.flatMap((row) => {
    const read = exerciseOf(row);
    return read ? [rested(log, read, row)] : [];
  });
  return [...shipped, ...added];
}

/** Returns one exercise; undefined where no row or library tells of it. */
export function exercise(log: Reader, id: string): Exercise | undefined {
  const row = log.get(keyOf({ stream: 'main', id }));
  const own = row?.kind === 'exercise' ? row : undefined;
  const found = own ? exerciseOf(own) : SHIPPED_EXERCISES.find((one) => one.id === id);
  return found && rested(log, found, own);
}

/** A cue as the library words it. */
export type Cue = { readonly id: string; readonly words: string };

/** Returns the cues added here, by their words. */
export const cues = (log: Reader): readonly Cue[] => cuesOf(log.ofKind('cue'));

const cuesOf = once((rows: readonly Row[]): readonly Cue[] =>
  rows
    .flatMap((row) => {
      const { words } = shownOf(row);
      return typeof words === 'string' && words !== '' ? [{ id: row.id, words }] : [];
    })
    .sort((a, b) => (a.words < b.words ? -1 : 1)),
);

const restrictionOf = once((row: Row) => readRestriction(row.id, shownOf(row)));
const templateOf = once((row: Row) => readTemplate(row.id, shownOf(row)));
const placeOf = once((row: Row) => readPlace(row.id, shownOf(row)));
const workOf = once((row: Row) => readOtherWork(row.id, shownOf(row)));

const read = <T>(log: Reader, kind: string, stream: string, of: (row: Row) => T | undefined): readonly T[] =>
  log.ofKind(kind).flatMap((row) => (row.stream === stream ? (of(row) ?? []) : []));

/** Returns a client's restrictions, the one that began last first. */
export const restrictions = (log: Reader, stream: string): readonly Restriction[] =>
  [...read(log, 'restriction', stream, restrictionOf)].sort((a, b) => (a.from < b.from ? 1 : a.from > b.from ? -1 : 0));

/** Returns a client's templates, by name. */
export const templates = (log: Reader, stream: string): readonly Template[] =>
  [...read(log, 'template', stream, templateOf)].sort((a, b) => (a.name < b.name ? -1 : 1));

/** Returns the places where one trains, by name. */
export const places = (log: Reader): readonly Place[] =>
  [...read(log, 'kit', 'main', placeOf)].sort((a, b) => (a.name < b.name ? -1 : 1));

/** Returns a client's other work that is in memory (`loadResults` reads it), the latest day first. */
export const otherWork = (log: Reader, stream: string): readonly OtherWork[] =>
  [...read(log, 'otherWork', stream, workOf)].sort((a, b) =>
    a.day < b.day ? 1 : a.day > b.day ? -1 : b.notedAt - a.notedAt,
  );

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
