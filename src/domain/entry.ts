import type { Exercise, Holds } from './exercise';
import { type Bounds, type NumberFault, parseNumber } from './number';
import { fail, ok, type Result } from './result';
import { BOUNDS, type Hold, MOST_LABEL, MOST_PARTS, MOST_SET_UP, type SetKind, type Side } from './set';
import { type LoadUnit, MOST_LOAD } from './units';

/** How body mass is changed: nothing, load added, load taken off by a machine or a band. */
export const BODY_WAYS = ['alone', 'added', 'assist', 'band'] as const;
export type BodyWay = (typeof BODY_WAYS)[number];

/** What the pad's fields hold: texts as they were typed. Empty is empty, never 0. */
export type Fields = {
  readonly load: string;
  readonly reps: string;
  readonly band: string;
  readonly pin: string;
  readonly seconds: string;
};
export type Field = keyof Fields;

/** The next set as the pad holds it, before it is a set: texts, and choices already made. */
export type Entry = Fields & {
  readonly exercise: string;
  readonly kind: SetKind;
  readonly side: Side | null;
  readonly unit: LoadUnit;
  readonly body: BodyWay;
  /** The later parts of a drop set or cluster; the set's own fields are its first part. */
  readonly parts: readonly Fields[];
  readonly setUp: string;
};

/** A value as it is stored in one register. */
export type SetValue = string | number | boolean | null | { readonly [key: string]: string | number };
export type SetValues = Readonly<Record<string, SetValue>>;

/** Why an entry is not a set, by field; `part` counts from 2 where the fault lies in a later part. */
export type EntryFault = (
  | NumberFault<Field>
  | { readonly type: 'label-too-long'; readonly field: Field | 'setUp'; readonly most: number; readonly has: number }
  | { readonly type: 'no-side'; readonly field: 'side' }
  | { readonly type: 'parts-missing'; readonly field: 'parts' }
  | { readonly type: 'too-many-parts'; readonly field: 'parts'; readonly most: number }
) & { readonly part?: number };

/** Returns the fields that the pad asks of one part of a set, in the order of its sentence. */
export function fieldsOf(holds: Holds, body: BodyWay): readonly Field[] {
  switch (holds) {
    case 'load':
      return ['load', 'reps'];
    case 'body':
      return body === 'alone' ? ['reps'] : body === 'band' ? ['band', 'reps'] : ['load', 'reps'];
    case 'band':
      return ['band', 'reps'];
    case 'pin':
      return ['pin', 'reps'];
    case 'time':
      return ['load', 'seconds'];
  }
}

/** Returns the bounds of a typed number and its unit, for the parser and for the sentence that refuses. */
export function boundsOf(field: 'load' | 'reps' | 'seconds', unit: LoadUnit): { bounds: Bounds; unit: string } {
  if (field === 'load') return { bounds: { min: 0, max: MOST_LOAD[unit] }, unit };
  return field === 'reps' ? { bounds: BOUNDS.reps, unit: '' } : { bounds: BOUNDS.seconds, unit: 's' };
}

/**
 * Returns the registers of the set that an entry tells of, by path relative to the set (`load`, `parts/1a2b/reps`), its exercise,
 * kind and side included; its instant is the log's to add. `partId(place)` names a later part, from place 1.
 * Fails with the first fault in the order of the sentence; the texts stay where they are.
 */
export function parseEntry(
  entry: Entry,
  exercise: Exercise,
  partId: (place: number) => string,
): Result<SetValues, EntryFault> {
  if (exercise.sides === 'each' && entry.side === null) return fail({ type: 'no-side', field: 'side' });
  const own = parseFields(entry, entry, exercise);
  if (!own.ok) return own;
  const values: Record<string, SetValue> = { exercise: exercise.id, kind: entry.kind, ...own.value };
  if (exercise.sides === 'each' && entry.side !== null) values['side'] = entry.side;
  const setUp = entry.setUp.trim();
  if (setUp.length > MOST_SET_UP)
    return fail({ type: 'label-too-long', field: 'setUp', most: MOST_SET_UP, has: setUp.length });
  if (setUp !== '') values['setUp'] = setUp;
  if (entry.kind !== 'drop' && entry.kind !== 'cluster') return ok(values);
  if (entry.parts.length === 0) return fail({ type: 'parts-missing', field: 'parts' });
  if (entry.parts.length >= MOST_PARTS) return fail({ type: 'too-many-parts', field: 'parts', most: MOST_PARTS });
  for (const [index, part] of entry.parts.entries()) {
    const held = parseFields(part, entry, exercise);
    if (!held.ok) return fail({ ...held.error, part: index + 2 });
    // asked for once a part: the name is new each time
    const name = partId(index + 1);
    for (const [path, value] of Object.entries(held.value)) values[`parts/${name}/${path}`] = value;
  }
  return ok(values);
}

function parseFields(fields: Fields, entry: Entry, exercise: Exercise): Result<SetValues, EntryFault> {
  const values: Record<string, SetValue> = {};
  for (const field of fieldsOf(exercise.holds, entry.body)) {
    const text = fields[field].trim();
    // a hold may carry a load or none; every other field of the sentence must say something
    if (text === '' && field === 'load' && exercise.holds === 'time') continue;
    if (field === 'band' || field === 'pin') {
      if (text === '') return fail({ type: 'empty', field });
      if (text.length > MOST_LABEL) return fail({ type: 'label-too-long', field, most: MOST_LABEL, has: text.length });
      values[field] = text;
      continue;
    }
    const { bounds, unit } = boundsOf(field, entry.unit);
    const number = parseNumber(field, text, bounds, unit);
    if (!number.ok) return number;
    values[field === 'load' ? loadRegister(exercise.holds, entry.body) : field] =
      field === 'load' ? { value: number.value, unit: entry.unit } : number.value;
  }
  return ok(values);
}

/** Load on the body is not load in the hands: each has a register of its own. */
function loadRegister(holds: Holds, body: BodyWay): 'load' | 'added' | 'assist' {
  return holds !== 'body' ? 'load' : body === 'assist' ? 'assist' : 'added';
}

/** Returns the texts that would enter what was held: the way back from a stored set or part to the pad. */
export function fieldsFrom(held: Hold): Fields & { readonly body: BodyWay; readonly unit: LoadUnit | null } {
  const load = held.load ?? held.added ?? held.assist;
  return {
    load: load ? String(load.value) : '',
    reps: held.reps === undefined ? '' : String(held.reps),
    band: held.band ?? '',
    pin: held.pin ?? '',
    seconds: held.seconds === undefined ? '' : String(held.seconds),
    body: held.assist ? 'assist' : held.added ? 'added' : held.band === undefined ? 'alone' : 'band',
    unit: load?.unit ?? null,
  };
}
