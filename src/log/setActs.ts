import { instantAt } from '../domain/day';
import { type Entry, type EntryFault, parseEntry } from '../domain/entry';
import type { Exercise } from '../domain/exercise';
import { newId } from '../domain/ids';
import { fail, ok, type Result } from '../domain/result';
import { type ANSWERS, MOST_NOTE, type SetRecord } from '../domain/set';
import type { World } from '../domain/world';
import { removing } from '../merge/removal';
import { type Json, valueAt } from '../merge/row';
import { keyOf } from './keys';
import type { Log, Saving } from './log';
import { addingSets, changeIn, padDraft, rowOfSet, type SessionPlace, setChanges } from './logSet';
import { shownOf } from './views';

/** What can be touched up on a logged set: each a register of its own; `null` makes it not noted again. */
export type TouchUp = Readonly<Record<string, Json>>;

/** Writes what was observed of a set (effort, form, how it ended, a cue's answer, fault, pain). */
export function touchUp(log: Log, place: SessionPlace, set: string, values: TouchUp): Saving {
  return log.commit({
    act: { type: 'touch-up', stream: place.stream, what: Object.keys(values)[0] ?? '' },
    rows: [changeIn(log, place, set, values)],
  });
}

/**
 * Writes that a cue was given in a set, and what it did once that was seen (`null`: given, not answered). One register a cue and set: a later answer
 * to the same cue takes the place of the earlier.
 */
export function answerCue(
  log: Log,
  place: SessionPlace,
  set: SetRecord,
  cue: string,
  answer: (typeof ANSWERS)[number] | null,
): Saving {
  const use = set.cues.find((one) => one.cue === cue)?.id ?? cue;
  return touchUp(log, place, set.id, { [`cues/${use}`]: { cue, answer } });
}

export type NoteFault = {
  readonly type: 'too-long';
  readonly field: 'note';
  readonly most: number;
  readonly has: number;
};

/** Writes a set's note; an empty one makes it not noted. Fails, storing nothing, where it is longer than a note may be. */
export function noteSet(log: Log, place: SessionPlace, set: string, text: string): Result<Saving, NoteFault> {
  const note = text.trim();
  if (note.length > MOST_NOTE) return fail({ type: 'too-long', field: 'note', most: MOST_NOTE, has: note.length });
  return ok(touchUp(log, place, set, { note: note === '' ? null : note }));
}

/**
 * Writes what a set held anew, from the texts of the edit sheet, and the minute it was done. Registers that the new entry does not have any
 * more (load added, a part) become not noted; what was observed of the set stays.
 */
export function editSet(
  log: Log,
  place: SessionPlace,
  set: string,
  entry: Entry,
  exercise: Exercise,
  at: number,
  world: World,
): Result<Saving, EntryFault> {
  const row = rowOfSet(log, place, set);
  const held = log.get(keyOf(row));
  const old = Object.entries(held ? shownOf(held) : {}).filter(([path]) => path.startsWith(`sets/${set}/`));
  const inner = new Map(old.map(([path, value]) => [path.slice(`sets/${set}/`.length), value]));
  const names = [...inner.keys()].flatMap((path) => /^parts\/([^/]+)\//.exec(path)?.[1] ?? []);
  const parts = [...new Set(names)].sort();
  const values = parseEntry(entry, exercise, (n) => parts[n - 1] ?? `${n}${newId(world.random, 8)}`);
  if (!values.ok) return values;
  const next: Record<string, Json> = { ...values.value };
  const was = inner.get('at');
  const zone =
    was && typeof was === 'object' && 'zone' in was && typeof was.zone === 'string' ? was.zone : world.zone();
  if (!was || typeof was !== 'object' || !('at' in was) || was.at !== at) next['at'] = instantAt(at, zone);
  for (const [path, value] of inner) {
    // what a newer app notes of a set or part stays [M8]
    if (HELD.test(path) && !(path in next) && value !== null) next[path] = null;
  }
  return ok(
    log.commit({
      act: { type: 'edit-set', stream: place.stream, exercise: exercise.id },
      rows: [{ name: row, changes: setChanges(set, next) }],
    }),
  );
}

/** Registers that the edit sheet shows whole: one that it does not have any more is not noted. */
const HELD =
  /^((parts\/[^/]+\/)?(load|added|assist|band|pin|seconds|reps|distance|landings|tries|good|degrees)|side|direction|marks\/\d+|smooth|setUp|tempo|height|pause)$/;

/** Removes a set [M5]: its values stay in the row, and undo brings it back. */
export function removeSet(log: Log, place: SessionPlace, set: string): Saving {
  const name = rowOfSet(log, place, set);
  const row = log.get(keyOf(name));
  if (!row) throw new Error(`row ${keyOf(name)} is not in memory`);
  return log.commit({
    act: { type: 'remove-set', stream: place.stream },
    rows: [{ name, changes: removing(row, `sets/${set}`) }],
  });
}

/**
 * [M12] Moves a set that was logged for the wrong client: writes all that is noted of it into the other's session, its instant
 * included, and overwrites its values here with `null` and where it went. Two rows, one transaction.
 */
export function moveSet(log: Log, from: SessionPlace, set: string, to: SessionPlace, world: World): Saving {
  const name = rowOfSet(log, from, set);
  const row = log.get(keyOf(name));
  if (!row) throw new Error(`row ${keyOf(name)} is not in memory`);
  const prefix = `sets/${set}/`;
  const paths = Object.keys(row.body).filter((path) => path.startsWith(prefix) && path !== `${prefix}removed`);
  const noted = paths.filter((path) => valueAt(row, path) !== null).map((path) => path.slice(prefix.length));
  const moved = newId(world.random, 8);
  const copy = Object.fromEntries(noted.map((path) => [path, valueAt(row, prefix + path) ?? null]));
  const emptied = Object.fromEntries(noted.map((path) => [path, null]));
  return log.commit({
    act: { type: 'move-set', stream: from.stream, to: to.stream },
    rows: [
      addingSets(log, to, 1, setChanges(moved, copy)),
      {
        name,
        changes: setChanges(set, { ...emptied, movedTo: { stream: to.stream, session: to.session, set: moved } }),
      },
    ],
  });
}

/**
 * Logs a warm-up ramp as it was shown before the tap: one warm-up set a step, all in one act. The pad keeps `next`, the set ramped up to.
 */
export function logRamp(
  log: Log,
  place: SessionPlace,
  steps: readonly Entry[],
  next: Entry,
  exercise: Exercise,
  world: World,
): Result<Saving, EntryFault> {
  const at = instantAt(world.now(), world.zone());
  const changes: Record<string, Json> = {};
  // sets of one instant are ordered by id: sorted ids keep the steps in their order
  const ids = steps.map(() => newId(world.random, 8)).sort();
  for (const [index, step] of steps.entries()) {
    const values = parseEntry(step, exercise, () => '');
    if (!values.ok) return values;
    Object.assign(changes, setChanges(ids[index] ?? '', { ...values.value, noRest: true, at }));
  }
  return ok(
    log.commit({
      act: { type: 'log-ramp', stream: place.stream, exercise: exercise.id },
      rows: [addingSets(log, place, steps.length, changes)],
      drafts: [{ key: padDraft(place), value: { ...next } as unknown as Json }],
    }),
  );
}
