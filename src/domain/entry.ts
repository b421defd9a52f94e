import type { Exercise, Holds } from './exercise';
import { type Bounds, type NumberFault, parseNumber } from './number';
import { fail, ok, type Result } from './result';
import {
  BOUNDS,
  type BodyWay,
  type Direction,
  type Hold,
  type Mark,
  MOST_LABEL,
  MOST_MARKS,
  MOST_PARTS,
  type SetKind,
  type Side,
} from './set';
import { parseSetUp, type SetUpFault, type SetUpTexts } from './setUp';
import { type DistanceUnit, type LoadUnit, MOST_DISTANCE, MOST_LOAD } from './units';

/** What the pad's fields are named; each holds a text as it was typed. Empty is empty, never 0. */
export const FIELDS = [
  'load',
  'reps',
  'band',
  'pin',
  'seconds',
  'distance',
  'landings',
  'tries',
  'good',
  'degrees',
] as const;
export type Field = (typeof FIELDS)[number];
export type Fields = Readonly<Record<Field, string>>;

export const NO_TEXTS: Fields = {
  load: '',
  reps: '',
  band: '',
  pin: '',
  seconds: '',
  distance: '',
  landings: '',
  tries: '',
  good: '',
  degrees: '',
};

/** The place of a set in a block's grid. */
export type Cell = { readonly block: string; readonly station: string; readonly round: number };

/** The next set as the pad holds it, before it is a set: texts, and choices already made. */
export type Entry = Fields & {
  readonly exercise: string;
  readonly kind: SetKind;
  readonly side: Side | null;
  readonly unit: LoadUnit;
  readonly distanceUnit: DistanceUnit;
  readonly body: BodyWay;
  readonly direction: Direction | null;
  /** Landings judged one by one as they come; never prefilled. */
  readonly marks: readonly (Mark | null)[];
  /** How smooth it was, 1–5; never prefilled. */
  readonly smooth: number | null;
  /** The later parts of a drop set or cluster; the set's own fields are its first part. */
  readonly parts: readonly Fields[];
  readonly setUp: SetUpTexts;
  readonly in: Cell | null;
};

/** A value as it is stored in one register. */
export type SetValue = string | number | boolean | null | { readonly [key: string]: string | number | boolean };
export type SetValues = Readonly<Record<string, SetValue>>;

/** Why an entry is not a set, by field; `part` counts from 2 where the fault lies in a later part. */
export type EntryFault = (
  | NumberFault<Field>
  | SetUpFault
  | { readonly type: 'label-too-long'; readonly field: Field; readonly most: number; readonly has: number }
  | { readonly type: 'no-distance-or-time'; readonly field: 'distance' }
  | { readonly type: 'more-good-than-done'; readonly field: 'good'; readonly of: number }
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
    case 'carry':
      return ['load', 'distance', 'seconds'];
    case 'landings':
      return ['landings'];
    case 'tries':
      return ['tries', 'good'];
    case 'degrees':
      return ['degrees'];
    case 'tick':
      return [];
  }
}

/** Returns whether a field may stay empty: what nobody asked for, or nobody saw. */
export function mayBeEmpty(field: Field, holds: Holds): boolean {
  if (field === 'good') return true;
  return (holds === 'time' && field === 'load') || (holds === 'carry' && field !== 'load');
}

type NumberField = Exclude<Field, 'band' | 'pin'>;

/** Returns the bounds of a typed number and its unit, for the parser and for the sentence that refuses. */
export function boundsOf(
  field: NumberField,
  { unit, distanceUnit }: Pick<Entry, 'unit' | 'distanceUnit'>,
): { readonly bounds: Bounds; readonly unit: string } {
  switch (field) {
    case 'load':
      return { bounds: { min: 0, max: MOST_LOAD[unit] }, unit };
    case 'distance':
      return { bounds: { min: 1, max: MOST_DISTANCE[distanceUnit] }, unit: distanceUnit };
    case 'seconds':
      return { bounds: BOUNDS.seconds, unit: 's' };
    case 'degrees':
      return { bounds: BOUNDS.degrees, unit: '°' };
    case 'reps':
    case 'landings':
    case 'tries':
    case 'good':
      return { bounds: BOUNDS[field], unit: '' };
  }
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
  if (entry.in) values['in'] = { ...entry.in };
  const setUp = parseSetUp(entry.setUp);
  if (!setUp.ok) return setUp;
  Object.assign(values, setUp.value);
  Object.assign(values, seenValues(entry, exercise, own.value));
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
    if (text === '' && mayBeEmpty(field, exercise.holds)) continue;
    if (field === 'band' || field === 'pin') {
      if (text === '') return fail({ type: 'empty', field });
      if (text.length > MOST_LABEL) return fail({ type: 'label-too-long', field, most: MOST_LABEL, has: text.length });
      values[field] = text;
      continue;
    }
    const { bounds, unit } = boundsOf(field, entry);
    const number = parseNumber(field, text, bounds, unit);
    if (!number.ok) return number;
    if (field === 'load') values[loadRegister(exercise.holds, entry.body)] = { value: number.value, unit: entry.unit };
    else if (field === 'distance') values[field] = { value: number.value, unit: entry.distanceUnit };
    else values[field] = number.value;
  }
  if (exercise.holds === 'carry' && values['distance'] === undefined && values['seconds'] === undefined)
    return fail({ type: 'no-distance-or-time', field: 'distance' });
  const { good, tries } = values;
  if (typeof good === 'number' && typeof tries === 'number' && good > tries)
    return fail({ type: 'more-good-than-done', field: 'good', of: tries });
  return ok(values);
}

/** What was seen of landings and tries while they were done. */
function seenValues(entry: Entry, exercise: Exercise, { landings }: SetValues): Record<string, SetValue> {
  const values: Record<string, SetValue> = {};
  if (exercise.holds === 'landings') {
    if (entry.direction) values['direction'] = entry.direction;
    const most = typeof landings === 'number' ? Math.min(landings, MOST_MARKS) : 0;
    for (const [index, mark] of entry.marks.entries()) {
      if (mark && index < most) values[`marks/${index + 1}`] = { ...(mark as Record<string, boolean>) };
    }
  }
  if (exercise.holds === 'tries' && entry.smooth !== null) values['smooth'] = entry.smooth;
  return values;
}

/** Load on the body is not load in the hands: each has a register of its own. */
function loadRegister(holds: Holds, body: BodyWay): 'load' | 'added' | 'assist' {
  return holds !== 'body' ? 'load' : body === 'assist' ? 'assist' : 'added';
}

/** Returns the texts that would enter what was held: the way back from a stored set or part to the pad. */
export function fieldsFrom(held: Hold & { readonly good?: number | undefined }): Fields & {
  readonly body: BodyWay;
  readonly unit: LoadUnit | null;
  readonly distanceUnit: DistanceUnit | null;
} {
  const load = held.load ?? held.added ?? held.assist;
  const text = (value: number | undefined): string => (value === undefined ? '' : String(value));
  return {
    load: text(load?.value),
    reps: text(held.reps),
    band: held.band ?? '',
    pin: held.pin ?? '',
    seconds: text(held.seconds),
    distance: text(held.distance?.value),
    landings: text(held.landings),
    tries: text(held.tries),
    good: text(held.good),
    degrees: text(held.degrees),
    body: held.assist ? 'assist' : held.added ? 'added' : held.band === undefined ? 'alone' : 'band',
    unit: load?.unit ?? null,
    distanceUnit: held.distance?.unit ?? null,
  };
}
