import * as z from 'zod/mini';
import { MOST_LABEL } from './set';
import { LOAD_UNITS, type LoadUnit, MOST_LOAD } from './units';

export const MOST_PLACE = 40;
export const MOST_BANDS = 12;
/** Sorts of plates or bars, and rows of dumbbells. */
export const MOST_SORTS = 20;

const nameSchema = z.string().check(z.minLength(1), z.maxLength(MOST_PLACE));
const bandsSchema = z.array(z.string().check(z.minLength(1), z.maxLength(MOST_LABEL))).check(z.maxLength(MOST_BANDS));
const weightSchema = z.number().check(z.gt(0), z.lte(Math.max(...Object.values(MOST_LOAD))));
const weightsSchema = z.array(weightSchema).check(z.maxLength(MOST_SORTS));
const rowsSchema = z
  .array(z.looseObject({ from: weightSchema, to: weightSchema, step: weightSchema }))
  .check(z.maxLength(MOST_SORTS));
const pinsSchema = z.int().check(z.gte(1), z.lte(99));

/** Dumbbells of a row: from the lightest to the heaviest by a step. */
export type DumbbellRow = { readonly from: number; readonly to: number; readonly step: number };

/** What hangs and lies at a place: bands by their own names from light to heavy, pins of the stack by their numbers, the rest in its unit. */
export type Kit = {
  readonly bands: readonly string[];
  /** The highest pin. */
  readonly pins?: number;
  /** What bars, plates and dumbbells are labelled in. */
  readonly unit: LoadUnit;
  readonly bars: readonly number[];
  readonly plates: readonly number[];
  readonly dumbbells: readonly DumbbellRow[];
};

/** A place where one trains, and its kit. */
export type Place = Kit & { readonly id: string; readonly name: string };

/** Returns the place that a kit row's shown values tell of; undefined for one removed, or not readable by this version. */
export function readPlace(id: string, values: Readonly<Record<string, unknown>>): Place | undefined {
  const name = z.safeParse(nameSchema, values['name']);
  if (!name.success) return undefined;
  const bands = z.safeParse(bandsSchema, values['bands']);
  const pins = z.safeParse(pinsSchema, values['pins']);
  const unit = z.safeParse(z.enum(LOAD_UNITS), values['unit']);
  const bars = z.safeParse(weightsSchema, values['bars']);
  const plates = z.safeParse(weightsSchema, values['plates']);
  const rows = z.safeParse(rowsSchema, values['dumbbells']);
  return {
    id,
    name: name.data,
    bands: bands.success ? bands.data : [],
    ...(pins.success ? { pins: pins.data } : {}),
    unit: unit.success ? unit.data : 'kg',
    bars: bars.success ? bars.data : [],
    plates: plates.success ? plates.data : [],
    dumbbells: rows.success ? rows.data.map(({ from, to, step }) => ({ from, to, step })) : [],
  };
}
