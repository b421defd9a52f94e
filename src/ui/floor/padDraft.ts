import { FIELDS, type Fields, NO_TEXTS } from '../../domain/entry';
import type { PadDraft } from '../../domain/prefill';
import { BODY_WAYS, DIRECTIONS, SET_KINDS, SIDES } from '../../domain/set';
import { DISTANCE_UNITS, LOAD_UNITS } from '../../domain/units';
import type { Json } from '../../merge/row';

type Stored = Readonly<Record<string, Json>>;

/** Returns the pad's draft that was stored, as far as this version can read it. */
export function readDraft(stored: Json | undefined): PadDraft | undefined {
  if (!isObject(stored)) return undefined;
  const { exercise } = stored;
  if (typeof exercise !== 'string' || exercise === '') return undefined;
  const read: Record<string, unknown> = { exercise, ...readTexts(stored) };
  const oneOf = (name: string, known: readonly string[]): void => {
    if (known.some((one) => one === stored[name])) read[name] = stored[name];
  };
  oneOf('kind', SET_KINDS);
  oneOf('side', SIDES);
  oneOf('unit', LOAD_UNITS);
  oneOf('distanceUnit', DISTANCE_UNITS);
  oneOf('body', BODY_WAYS);
  oneOf('direction', DIRECTIONS);
  if (typeof stored['smooth'] === 'number') read['smooth'] = stored['smooth'];
  if (Array.isArray(stored['marks'])) read['marks'] = stored['marks'].map((mark: Json) => (isMark(mark) ? mark : null));
  if (Array.isArray(stored['parts'])) {
    read['parts'] = stored['parts'].map((part: Json) => ({ ...NO_TEXTS, ...(isObject(part) ? readTexts(part) : {}) }));
  }
  const cell = stored['in'];
  if (isObject(cell) && typeof cell['block'] === 'string' && typeof cell['station'] === 'string') {
    const { block, station, round } = cell;
    if (typeof round === 'number' && Number.isInteger(round) && round >= 1) read['in'] = { block, station, round };
  }
  return read as PadDraft;
}

function readTexts(from: Stored): Partial<Fields> {
  return Object.fromEntries(
    FIELDS.flatMap((field) => {
      const text = from[field];
      return typeof text === 'string' ? [[field, text]] : [];
    }),
  );
}

const isObject = (value: Json | undefined): value is Stored =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isMark = (value: Json): boolean => isObject(value) && typeof value['good'] === 'boolean';
