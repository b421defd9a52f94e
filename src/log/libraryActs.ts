import { type BodyMass, type MassFault, type MassFields, parseBodyMass } from '../domain/bodyMass';
import { type ClientFault, type ClientFields, type LandingLevel, MOST_QUESTION, parseClient } from '../domain/client';
import { instantAt } from '../domain/day';
import { type Exercise, type Holds, MOST_NAME, type Pattern, type SideRule } from '../domain/exercise';
import { newId } from '../domain/ids';
import { type NumberFault, parseNumber } from '../domain/number';
import { fail, ok, type Result } from '../domain/result';
import { parseSetUp, SET_UP_PATHS, type SetUpFault, type SetUpTexts } from '../domain/setUp';
import type { World } from '../domain/world';
import { removing } from '../merge/removal';
import type { Json } from '../merge/row';
import { bodyMasses } from './bodyMasses';
import { keyOf } from './keys';
import type { Log, Saving } from './log';
import { client } from './views';

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
    rows: [{ name: { stream: id, id, kind: 'client' }, changes, fresh: existing === undefined }],
  });
  return ok({ id, saved });
}

export type NameFault =
  | { readonly type: 'empty'; readonly field: 'name' | 'words' }
  | {
      readonly type: 'too-long';
      readonly field: 'name' | 'words';
      readonly most: number;
      readonly has: number;
    };

/** Adds an exercise to the library. */
export function addExercise(
  log: Log,
  fields: {
    readonly name: string;
    readonly holds: Holds;
    readonly sides: SideRule;
    readonly perHand?: boolean;
    readonly pattern?: Pattern;
  },
  world: World,
): Result<Added, NameFault> {
  const name = nameIn(fields.name);
  return name.ok ? ok(addToLibrary(log, 'exercise', { ...fields, name: name.value }, world)) : name;
}

export type ExerciseTexts = {
  readonly name: string;
  readonly step: string;
  readonly rest: string;
  readonly sides: SideRule;
};
export type ExerciseFault = NameFault | NumberFault<'step' | 'rest'>;

/** Returns the texts that would enter an exercise as it is. */
export const exerciseTexts = ({ name, step, rest, sides }: Exercise): ExerciseTexts => ({
  name,
  step: String(step),
  rest: String(rest),
  sides,
});

/** Changes an exercise from now on; of a shipped one what differs is laid over it. What it holds stays: sets were logged by it. */
export function editExercise(log: Log, exercise: Exercise, texts: ExerciseTexts): Result<Added, ExerciseFault> {
  const name = nameIn(texts.name);
  if (!name.ok) return name;
  const step = parseNumber('step', texts.step, BOUNDS.step);
  if (!step.ok) return step;
  const rest = parseNumber('rest', texts.rest, BOUNDS.rest, 's');
  if (!rest.ok) return rest;
  const wanted = { name: name.value, step: step.value, rest: rest.value, sides: texts.sides };
  const changes = Object.fromEntries(
    Object.entries(wanted).filter(([path, value]) => value !== exercise[path as keyof typeof wanted]),
  );
  const row = { stream: 'main', id: exercise.id, kind: 'exercise' } as const;
  const saved = log.commit({
    act: { type: 'edit-exercise', exercise: exercise.id },
    rows: [{ name: row, changes, fresh: log.get(keyOf(row)) === undefined }],
  });
  return ok({ id: exercise.id, saved });
}

const BOUNDS = { step: { min: 0.1, max: 60 }, rest: { min: 0, max: 1800, step: 1 } } as const;

function nameIn(text: string): Result<string, NameFault> {
  const name = text.trim();
  if (name === '') return fail({ type: 'empty', field: 'name' });
  if (name.length > MOST_NAME) return fail({ type: 'too-long', field: 'name', most: MOST_NAME, has: name.length });
  return ok(name);
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
  const saved = log.commit({
    act: { type: `add-${kind}` },
    rows: [{ name: { stream: 'main', id, kind }, changes, fresh: true }],
  });
  return { id, saved };
}

/** Remembers how an exercise is set up for a client; what is left empty is forgotten. It goes into the sets logged from now on. */
export function saveSetUp(log: Log, stream: string, exercise: Exercise, texts: SetUpTexts): Result<Saving, SetUpFault> {
  const setUp = parseSetUp(texts);
  if (!setUp.ok) return setUp;
  // without a word the usual set-up would come back
  const none = exercise.setUp && Object.keys(setUp.value).length === 0 ? '' : null;
  const changes = Object.fromEntries(
    SET_UP_PATHS.map((path) => {
      const value = setUp.value[path] as Json | undefined;
      return [`setUps/${exercise.id}/${path}`, value ?? (path === 'setUp' ? none : null)];
    }),
  );
  return ok(
    log.commit({
      act: { type: 'set-up', stream, exercise: exercise.id },
      rows: [{ name: { stream, id: stream, kind: 'client' }, changes }],
    }),
  );
}

/** Notes a client's body mass as a result of a day, with the instant it was noted: none is made up for another day. */
export function noteBodyMass(log: Log, stream: string, fields: MassFields, world: World): Result<Added, MassFault> {
  const mass = parseBodyMass(fields);
  if (!mass.ok) return mass;
  const id = newId(world.random, 16);
  const changes = { ...mass.value, at: instantAt(world.now(), world.zone()) };
  const saved = log.commit({
    act: { type: 'body-mass', stream },
    rows: [{ name: { stream, id, kind: 'result' }, changes, fresh: true }],
  });
  return ok({ id, saved });
}

/** Removes a client [M5]: a running session stays as it is, and undo brings the client back. */
export function removeClient(log: Log, stream: string): Saving {
  const row = log.get(keyOf({ stream, id: stream }));
  if (!row) throw new Error(`client ${stream} is not in memory`);
  return log.commit({ act: { type: 'remove-client', stream }, rows: [{ name: row, changes: removing(row, '') }] });
}

/** Notes at which level of jumping and landing a client is; `null`: not noted. */
export function noteLandingLevel(log: Log, stream: string, level: LandingLevel | null): Saving {
  return log.commit({
    act: { type: 'edit-client', stream },
    rows: [{ name: { stream, id: stream, kind: 'client' }, changes: { landings: level } }],
  });
}

/** Keeps the question agreed with a client; empty is none. */
export function agreeOnQuestion(log: Log, stream: string, text: string): Result<Saving, QuestionFault> {
  const question = text.trim();
  if (question.length > MOST_QUESTION)
    return fail({ type: 'too-long', field: 'question', most: MOST_QUESTION, has: question.length });
  return ok(
    log.commit({
      act: { type: 'edit-client', stream },
      rows: [
        { name: { stream, id: stream, kind: 'client' }, changes: { question: question === '' ? null : question } },
      ],
    }),
  );
}
export type QuestionFault = {
  readonly type: 'too-long';
  readonly field: 'question';
  readonly most: number;
  readonly has: number;
};

/** Returns a client's latest body mass among the results in memory (`loadResults` reads them), or undefined where none is noted. */
export function latestBodyMass(log: Log, stream: string): BodyMass | undefined {
  const noted = [...bodyMasses(log, stream)];
  return noted.sort((a, b) => (a.day === b.day ? b.notedAt - a.notedAt : a.day < b.day ? 1 : -1))[0];
}
