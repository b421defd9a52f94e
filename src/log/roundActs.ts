import { instantAt } from '../domain/day';
import { type Entry, type EntryFault, parseEntry } from '../domain/entry';
import type { Exercise } from '../domain/exercise';
import { newId } from '../domain/ids';
import { fail, ok, type Result } from '../domain/result';
import type { World } from '../domain/world';
import type { Json } from '../merge/row';
import type { Log, RowChange, Saving } from './log';
import { addingSets, padDraft, partName, type SessionPlace, setChanges } from './logSet';

/*
 * Acts that log several sets at once: a round, a block as planned, the same again for two clients. Each is one act, so one undo takes it back.
 */

/** A set to be logged, with what it is of. */
export type ToLog = { readonly entry: Entry; readonly exercise: Exercise };
/** Why one of several sets is none; nothing of the act is stored then. */
export type RoundFault = { readonly type: 'set-refused'; readonly exercise: string; readonly fault: EntryFault };

/** Logs sets of one session together: the untouched cells of a round, or of a whole block. They share their instant and keep their order. */
export function logCells(
  log: Log,
  place: SessionPlace,
  sets: readonly ToLog[],
  world: World,
): Result<Saving, RoundFault> {
  const changes = changesOf(sets, world, {});
  if (!changes.ok) return changes;
  return ok(
    log.commit({
      act: { type: 'log-round', stream: place.stream, count: sets.length },
      rows: [addingSets(log, place, sets.length, changes.value)],
      drafts: [{ key: padDraft(place), value: null }],
    }),
  );
}

/** Logs the same again for several clients: one set each, in one transaction. */
export function logTogether(
  log: Log,
  sets: readonly (ToLog & { readonly place: SessionPlace })[],
  world: World,
): Result<Saving, RoundFault> {
  const rows: RowChange[] = [];
  for (const { place, ...set } of sets) {
    const changes = changesOf([set], world, {});
    if (!changes.ok) return changes;
    rows.push(addingSets(log, place, 1, changes.value));
  }
  return ok(
    log.commit({
      act: { type: 'log-together', count: sets.length },
      rows,
      drafts: sets.map(({ place }) => ({ key: padDraft(place), value: null })),
    }),
  );
}

/** Adds to a count that is spread over the session. It starts no rest, and the pad keeps what it has in hand. */
export function addToTally(log: Log, place: SessionPlace, set: ToLog, world: World): Result<Saving, RoundFault> {
  const changes = changesOf([set], world, { noRest: true, tally: true });
  if (!changes.ok) return changes;
  return ok(
    log.commit({
      act: { type: 'add-tally', stream: place.stream, exercise: set.exercise.id },
      rows: [addingSets(log, place, 1, changes.value)],
    }),
  );
}

function changesOf(
  sets: readonly ToLog[],
  world: World,
  more: Readonly<Record<string, Json>>,
): Result<Readonly<Record<string, Json>>, RoundFault> {
  const at = instantAt(world.now(), world.zone());
  // sets of one instant are ordered by id: sorted ids keep them in their order
  const ids = sets.map(() => newId(world.random, 8)).sort();
  const changes: Record<string, Json> = {};
  for (const [index, { entry, exercise }] of sets.entries()) {
    const values = parseEntry(entry, exercise, (n) => partName(world, n));
    if (!values.ok) return fail({ type: 'set-refused', exercise: exercise.id, fault: values.error });
    Object.assign(changes, setChanges(ids[index] ?? '', { ...values.value, ...more, at }));
  }
  return ok(changes);
}
