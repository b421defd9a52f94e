import { instantAt } from '../domain/day';
import { type Entry, type EntryFault, parseEntry, type SetValues } from '../domain/entry';
import type { Exercise } from '../domain/exercise';
import { newId } from '../domain/ids';
import { ok, type Result } from '../domain/result';
import { partId, SETS_A_ROW } from '../domain/session';
import type { World } from '../domain/world';
import { type Json, type RowName, valueAt } from '../merge/row';
import { keyOf, type RowKey } from './keys';
import type { Log, RowChange, Saving } from './log';
import { sessionRows } from './views';

/** The session a set is logged to. */
export type SessionPlace = { readonly stream: string; readonly session: string };

export type Logged = {
  /** The row the set went to: the session's own, or its continuation. */
  readonly row: RowKey;
  readonly set: string;
  /** True where this set began a continuation row: the screen says so, and the session goes on. */
  readonly continued: boolean;
  /** Tells when the set is in the store, or why it is not yet. Only then is the line shown as saved. */
  readonly saved: Saving;
};

/**
 * Logs the next set: the one tap the house is built around.
 *
 * 1. `domain/entry` parses the pad's texts. Bad input is a fault by field: nothing is stored, the texts stay in the draft.
 * 2. The session in memory gets the set under one fresh stamp [M3], and the screen shows it at once.
 * 3. One strict transaction without a read puts the session row, the undo entry and the cleared draft together, so a kill leaves all of
 *    them or none. `saved` resolves when it is complete.
 *
 * The set's instant is now, with its day in the zone the device is in. What nobody has observed yet (effort, form, what a cue did)
 * gets no register: it is not noted, and touched up later.
 */
export function logSet(
  log: Log,
  place: SessionPlace,
  entry: Entry,
  exercise: Exercise,
  world: World,
  noRest = false,
): Result<Logged, EntryFault> {
  const values = parseEntry(entry, exercise, (n) => partName(world, n));
  if (!values.ok) return values;
  const set = newId(world.random, 8);
  const at = instantAt(world.now(), world.zone());
  const added = addingSets(log, place, 1, setChanges(set, { ...values.value, ...(noRest ? { noRest } : {}), at }));
  const saved = log.commit({
    act: { type: 'log-set', stream: place.stream, exercise: exercise.id },
    rows: [added],
    drafts: [{ key: padDraft(place), value: null }],
  });
  return ok({ row: keyOf(added.name), set, continued: added.continued, saved });
}

/** Returns the name of the pad's draft for a session. */
export const padDraft = ({ stream, session }: SessionPlace): string => `pad/${stream}/${session}`;

/** Returns the registers of one set as paths of its session row. */
export function setChanges(set: string, values: SetValues | Readonly<Record<string, Json>>): Record<string, Json> {
  return Object.fromEntries(Object.entries(values).map(([path, value]) => [`sets/${set}/${path}`, value]));
}

/**
 * Returns the change that adds sets to a session: to its last row while that holds fewer than 300 with them, else to a new
 * continuation (`continued`). A row costs what it holds at every tap; the limit keeps that small and is never a rule of validity.
 */
export function addingSets(
  log: Log,
  { stream, session }: SessionPlace,
  count: number,
  changes: Readonly<Record<string, Json>>,
): RowChange & { readonly continued: boolean } {
  const rows = sessionRows(log, stream, session);
  const last = rows.at(-1);
  if (!last) throw new Error(`session ${stream}/${session} is not in memory`);
  const full = setsIn(last.body) + count > SETS_A_ROW;
  const name = full ? { stream, kind: 'session', id: partId(session, rows.length + 1) } : last;
  // a continuation says whose it is; one whose first set was undone says it again
  const says = name.id === session || (!full && valueAt(last, 'of') === session);
  return { name, changes: says ? changes : { of: session, ...changes }, fresh: full, continued: full };
}

/** Returns the name of the row a set lives in: the session's own, or a continuation. */
export function rowOfSet(log: Log, { stream, session }: SessionPlace, set: string): RowName {
  const row = sessionRows(log, stream, session).find(({ body }) =>
    Object.keys(body).some((path) => path.startsWith(`sets/${set}/`)),
  );
  if (!row) throw new Error(`set ${set} is not in session ${stream}/${session}`);
  return row;
}

/** Returns a change to registers of one set, wherever in its session it lives. */
export function changeIn(
  log: Log,
  place: SessionPlace,
  set: string,
  values: Readonly<Record<string, Json>>,
): RowChange {
  return { name: rowOfSet(log, place, set), changes: setChanges(set, values) };
}

/** Every set names its exercise, and nothing else in a session does so under `sets/`. */
function setsIn(body: Readonly<Record<string, unknown>>): number {
  let count = 0;
  for (const path of Object.keys(body)) if (path.startsWith('sets/') && path.endsWith('/exercise')) count += 1;
  return count;
}

/** Returns a part's name: it begins with its place, so that names sort as parts follow; the tail keeps two devices' parts apart. */
export const partName = (world: World, n: number): string => `${n}${newId(world.random, 8)}`;
