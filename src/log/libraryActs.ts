import { type ClientFault, type ClientFields, parseClient } from '../domain/client';
import { instantAt, isDay, noonOf } from '../domain/day';
import { type Exercise, type Holds, MOST_NAME, type SideRule } from '../domain/exercise';
import { newId } from '../domain/ids';
import { type NumberFault, parseNumber } from '../domain/number';
import { fail, ok, type Result } from '../domain/result';
import { MOST_SET_UP } from '../domain/set';
import type { LoadUnit } from '../domain/units';
import type { World } from '../domain/world';
import type { Json } from '../merge/row';
import { keyOf } from './keys';
import type { Log, Saving } from './log';
import { client, shownOf } from './views';

export type Added = { readonly id: string; readonly saved: Saving };

/** Adds a client (a stream of its own), or changes the one named. Fails by field, storing nothing. */
export function saveClient(
  log: Log,
  fields: ClientFields,
  world: World,
  existing?: string,
): Result<Added, ClientFault> {
  const parsed = parseClient(fields);
  if (!parsed.ok) return parsed;
  const id = existing ?? newId(world.random, 16);
  const { date, ...names } = parsed.value;
  const changes: Record<string, Json> = { ...names };
  if (existing === undefined) changes['since'] = instantAt(world.now(), world.zone());
  if (date) changes['date'] = { ...date };
  else if (client(log, id)?.date) changes['date'] = null;
  const saved = log.commit({
    act: { type: existing === undefined ? 'add-client' : 'edit-client', stream: id },
    rows: [{ name: { stream: id, id, kind: 'client' }, changes }],
  });
  return ok({ id, saved });
}

export type NameFault =
  | { readonly type: 'empty'; readonly field: 'name' | 'words' }
  | {
      readonly type: 'too-long';
      readonly field: 'name' | 'words' | 'setUp';
      readonly most: number;
      readonly has: number;
    };

/** Adds an exercise to the library. */
export function addExercise(
  log: Log,
  fields: { readonly name: string; readonly holds: Holds; readonly sides: SideRule },
  world: World,
): Result<Added, NameFault> {
  const name = fields.name.trim();
  if (name === '') return fail({ type: 'empty', field: 'name' });
  if (name.length > MOST_NAME) return fail({ type: 'too-long', field: 'name', most: MOST_NAME, has: name.length });
  return ok(addToLibrary(log, 'exercise', { ...fields, name }, world));
}

export const MOST_CUE = 120;

/** Adds a cue, in the trainer's words, to the library. */
export function addCue(log: Log, text: string, world: World): Result<Added, NameFault> {
  const words = text.trim();
  if (words === '') return fail({ type: 'empty', field: 'words' });
  if (words.length > MOST_CUE) return fail({ type: 'too-long', field: 'words', most: MOST_CUE, has: words.length });
  return ok(addToLibrary(log, 'cue', { words }, world));
}

function addToLibrary(
  log: Log,
  kind: 'exercise' | 'cue',
  changes: Readonly<Record<string, Json>>,
  world: World,
): Added {
  const id = newId(world.random, 16);
  const saved = log.commit({ act: { type: `add-${kind}` }, rows: [{ name: { stream: 'main', id, kind }, changes }] });
  return { id, saved };
}

/** Remembers how an exercise is set up for a client; empty forgets it. It goes into the sets logged from now on. */
export function saveSetUp(log: Log, stream: string, exercise: Exercise, text: string): Result<Saving, NameFault> {
  const setUp = text.trim();
  if (setUp.length > MOST_SET_UP)
    return fail({ type: 'too-long', field: 'setUp', most: MOST_SET_UP, has: setUp.length });
  return ok(
    log.commit({
      act: { type: 'set-up', stream, exercise: exercise.id },
      rows: [
        {
          name: { stream, id: stream, kind: 'client' },
          changes: { [`setUps/${exercise.id}`]: setUp === '' ? null : setUp },
        },
      ],
    }),
  );
}

export const BODY_MASS = { kg: { min: 20, max: 300 }, lb: { min: 44, max: 660 } } as const;
export type MassFault =
  | NumberFault<'mass'>
  | { readonly type: 'not-a-day'; readonly field: 'day'; readonly text: string };

/** Notes a client's body mass as a result of a day. */
export function noteBodyMass(
  log: Log,
  stream: string,
  fields: { readonly mass: string; readonly unit: LoadUnit; readonly day: string },
  world: World,
): Result<Added, MassFault> {
  const mass = parseNumber('mass', fields.mass, BODY_MASS[fields.unit], fields.unit);
  if (!mass.ok) return mass;
  if (!isDay(fields.day)) return fail({ type: 'not-a-day', field: 'day', text: fields.day });
  const now = instantAt(world.now(), world.zone());
  const id = newId(world.random, 16);
  const at = fields.day === now.day ? now : { at: noonOf(fields.day), day: fields.day, zone: now.zone };
  const saved = log.commit({
    act: { type: 'body-mass', stream },
    rows: [
      {
        name: { stream, id, kind: 'result' },
        changes: { test: 'lib-body-mass', value: { value: mass.value, unit: fields.unit }, at },
      },
    ],
  });
  return ok({ id, saved });
}

/** A body mass as it was noted. */
export type BodyMass = { readonly value: number; readonly unit: LoadUnit; readonly day: string };

/** Returns a client's latest body mass among the results in memory (`loadResults` reads them), or undefined where none is noted. */
export function latestBodyMass(log: Log, stream: string): BodyMass | undefined {
  const noted = log.ofKind('result').flatMap((row) => {
    const { test, value, at } = shownOf(row) as {
      test?: unknown;
      value?: BodyMass | null;
      at?: { day: string; at: number } | null;
    };
    return row.stream === stream && test === 'lib-body-mass' && value && at
      ? [{ ...value, day: at.day, at: at.at, key: keyOf(row) }]
      : [];
  });
  noted.sort((a, b) => (a.day === b.day ? b.at - a.at : a.day < b.day ? 1 : -1));
  const [latest] = noted;
  return latest && { value: latest.value, unit: latest.unit, day: latest.day };
}
