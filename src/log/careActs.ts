import { type ArrivalItem, MOST_ANSWER, type SorePlace, sorePath } from '../domain/arrival';
import { MOST_ALIAS } from '../domain/client';
import { instantAt } from '../domain/day';
import { newId } from '../domain/ids';
import { parseRestriction, type RestrictionFault, type RestrictionFields } from '../domain/restriction';
import { fail, ok, type Result } from '../domain/result';
import type { StopSign } from '../domain/stopSigns';
import type { World } from '../domain/world';
import { removing } from '../merge/removal';
import type { Json } from '../merge/row';
import { keyOf } from './keys';
import type { Added } from './libraryActs';
import type { Log, Saving } from './log';
import type { SessionPlace } from './logSet';
import { changeSession } from './sessionActs';

/*
 * How a client came in, what a professional said, and what stops an exercise.
 */

/** Notes one of the five answers; `null`: not noted. */
export function tellArrival(log: Log, place: SessionPlace, item: ArrivalItem, step: number | null): Saving {
  // five answers are no longer "the usual"
  return arrival(log, place, { [item]: step, ...(step === null ? {} : { usual: null }) });
}

/** Notes that a client came in as usual: stored as that, without numbers. */
export function tellUsual(log: Log, place: SessionPlace, usual: boolean): Saving {
  return arrival(log, place, { usual: usual ? true : null });
}

/** Notes that a place is sore, or is not noted. */
export function tellSore(log: Log, place: SessionPlace, where: SorePlace, sore: boolean): Saving {
  return arrival(log, place, { [sorePath(where)]: sore ? true : null });
}

/** Notes pain of 0–10 before the session; `null`: not noted. */
export function tellPain(log: Log, place: SessionPlace, value: number | null): Saving {
  return arrival(log, place, { pain: value === null ? null : { value } });
}

export type AnswerFault = {
  readonly type: 'too-long';
  readonly field: 'answer';
  readonly most: number;
  readonly has: number;
};

/** Notes what was said to the agreed question, with the question as it was asked; empty is not noted. */
export function tellAnswer(log: Log, place: SessionPlace, asked: string, text: string): Result<Saving, AnswerFault> {
  const said = text.trim();
  if (said.length > MOST_ANSWER)
    return fail({ type: 'too-long', field: 'answer', most: MOST_ANSWER, has: said.length });
  return ok(arrival(log, place, { answer: said === '' ? null : { asked, said } }));
}

function arrival(log: Log, place: SessionPlace, values: Readonly<Record<string, Json>>): Saving {
  const changes = Object.fromEntries(Object.entries(values).map(([path, value]) => [`arrival/${path}`, value]));
  return changeSession(log, place, { type: 'arrival' }, changes);
}

/** Notes a stop sign, in the exercise it was seen in: that exercise is closed for the session. */
export function noteSign(
  log: Log,
  place: SessionPlace,
  sign: StopSign,
  exercise: string | undefined,
  world: World,
): Saving {
  const at = instantAt(world.now(), world.zone());
  return changeSession(
    log,
    place,
    { type: 'stop-sign' },
    { [`signs/${newId(world.random, 8)}`]: { sign, ...(exercise === undefined ? {} : { exercise }), at } },
  );
}

export type ClearanceFault =
  | { readonly type: 'empty'; readonly field: 'clearance' }
  | { readonly type: 'too-long'; readonly field: 'clearance'; readonly most: number; readonly has: number };

/** Notes who cleared an exercise, from now on. */
export function noteClearance(
  log: Log,
  stream: string,
  exercise: string,
  text: string,
  world: World,
): Result<Saving, ClearanceFault> {
  const who = text.trim();
  if (who === '') return fail({ type: 'empty', field: 'clearance' });
  if (who.length > MOST_ALIAS) return fail({ type: 'too-long', field: 'clearance', most: MOST_ALIAS, has: who.length });
  const { at, day } = instantAt(world.now(), world.zone());
  return ok(
    log.commit({
      act: { type: 'clearance', stream, exercise },
      rows: [
        { name: { stream, id: stream, kind: 'client' }, changes: { [`clearances/${exercise}`]: { who, at, day } } },
      ],
    }),
  );
}

/** Adds what a professional said must not be done, and which exercises it hides. */
export function addRestriction(
  log: Log,
  stream: string,
  fields: RestrictionFields,
  hides: readonly string[],
  world: World,
): Result<Added, RestrictionFault> {
  const parsed = parseRestriction(fields);
  if (!parsed.ok) return parsed;
  const { until, ...values } = parsed.value;
  const id = newId(world.random, 16);
  const changes: Record<string, Json> = { ...values, at: instantAt(world.now(), world.zone()) };
  if (until !== null) changes['until'] = until;
  for (const exercise of hides) changes[`hides/${exercise}`] = true;
  const saved = log.commit({
    act: { type: 'add-restriction', stream },
    rows: [{ name: { stream, id, kind: 'restriction' }, changes, fresh: true }],
  });
  return ok({ id, saved });
}

/** Removes a restriction [M5]: what it said stays in its row, and undo brings it back. */
export function removeRestriction(log: Log, stream: string, id: string): Saving {
  const row = log.get(keyOf({ stream, id }));
  if (!row) throw new Error(`restriction ${id} is not in memory`);
  return log.commit({ act: { type: 'remove-restriction', stream }, rows: [{ name: row, changes: removing(row, '') }] });
}
