import * as z from 'zod/mini';
import { fail, ok, type Result } from './result';
import { MOST_LABEL } from './set';

export const MOST_PLACE = 40;
export const MOST_BANDS = 12;

const nameSchema = z.string().check(z.minLength(1), z.maxLength(MOST_PLACE));
const bandsSchema = z.array(z.string().check(z.minLength(1), z.maxLength(MOST_LABEL))).check(z.maxLength(MOST_BANDS));

/** A place where one trains, and what hangs there: bands by their own names from light to heavy, pins of the stack by their numbers. */
export type Place = {
  readonly id: string;
  readonly name: string;
  readonly bands: readonly string[];
  /** The highest pin. */
  readonly pins?: number;
};

/** Returns the place that a kit row's shown values tell of; undefined for one removed, or not readable by this version. */
export function readPlace(id: string, values: Readonly<Record<string, unknown>>): Place | undefined {
  const name = z.safeParse(nameSchema, values['name']);
  if (!name.success) return undefined;
  const bands = z.safeParse(bandsSchema, values['bands']);
  const pins = z.safeParse(z.int().check(z.gte(1), z.lte(99)), values['pins']);
  return {
    id,
    name: name.data,
    bands: bands.success ? bands.data : [],
    ...(pins.success ? { pins: pins.data } : {}),
  };
}

export type PlaceFields = { readonly name: string; readonly bands: string; readonly pins: string };
export type PlaceFault =
  | { readonly type: 'empty'; readonly field: 'place' }
  | { readonly type: 'too-long'; readonly field: 'place' | 'bands'; readonly most: number; readonly has: number }
  | { readonly type: 'too-many'; readonly field: 'bands'; readonly most: number }
  | {
      readonly type: 'out-of-range';
      readonly field: 'pins';
      readonly min: number;
      readonly max: number;
      readonly unit: string;
    };

/** Returns the registers of a place as typed; bands are parted by commas, from light to heavy. */
export function parsePlace(
  fields: PlaceFields,
): Result<{ readonly name: string; readonly bands: readonly string[]; readonly pins: number | null }, PlaceFault> {
  const name = fields.name.trim();
  if (name === '') return fail({ type: 'empty', field: 'place' });
  if (name.length > MOST_PLACE) return fail({ type: 'too-long', field: 'place', most: MOST_PLACE, has: name.length });
  const bands = fields.bands
    .split(',')
    .map((band) => band.trim())
    .filter((band) => band !== '');
  const long = bands.find((band) => band.length > MOST_LABEL);
  if (long !== undefined) return fail({ type: 'too-long', field: 'bands', most: MOST_LABEL, has: long.length });
  if (bands.length > MOST_BANDS) return fail({ type: 'too-many', field: 'bands', most: MOST_BANDS });
  const pins = fields.pins.trim();
  const highest = Number(pins);
  if (pins !== '' && !(/^\d+$/.test(pins) && highest >= 1 && highest <= 99))
    return fail({ type: 'out-of-range', field: 'pins', min: 1, max: 99, unit: '' });
  return ok({ name, bands: [...new Set(bands)], pins: pins === '' ? null : highest });
}
