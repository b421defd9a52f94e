import * as z from 'zod/mini';

/** One international pound in kilograms, exact by definition (1959 agreement; METHODS §15). */
const KG_PER_LB = 0.45359237;

export const LOAD_UNITS = ['kg', 'lb'] as const;
export type LoadUnit = (typeof LOAD_UNITS)[number];

/** A load as it was typed. Kilograms are derived where something is computed, never stored over what was typed. */
export type Load = { readonly value: number; readonly unit: LoadUnit };

/** The most a load may be, in its own unit: 600 kg, or 1,320 lb (598.7 kg). */
export const MOST_LOAD: Readonly<Record<LoadUnit, number>> = { kg: 600, lb: 1320 };

export const loadSchema = z
  .looseObject({ value: z.number().check(z.gte(0)), unit: z.enum(LOAD_UNITS) })
  .check(z.refine((load) => load.value <= MOST_LOAD[load.unit]));

/** Returns the load in kilograms. */
export function toKg(load: Load): number {
  return load.unit === 'kg' ? load.value : load.value * KG_PER_LB;
}

/** Returns kilograms in a unit, not rounded. */
export const fromKg = (kg: number, unit: LoadUnit): number => (unit === 'kg' ? kg : kg / KG_PER_LB);

/** Returns the value of a load in a unit: as it was typed where it is the same, else not rounded. */
export const valueIn = (load: Load, unit: LoadUnit): number =>
  load.unit === unit ? load.value : fromKg(toKg(load), unit);

export const DISTANCE_UNITS = ['m', 'ft'] as const;
export type DistanceUnit = (typeof DISTANCE_UNITS)[number];
/** A distance as it was typed. */
export type Distance = { readonly value: number; readonly unit: DistanceUnit };
/** One international foot in metres, exact by definition (1959 agreement). */
const M_PER_FT = 0.3048;

/** Returns the distance in metres. */
export function toMetres(distance: Distance): number {
  return distance.unit === 'm' ? distance.value : distance.value * M_PER_FT;
}

/** The most a carry may go, in its own unit. */
export const MOST_DISTANCE: Readonly<Record<DistanceUnit, number>> = { m: 2000, ft: 6562 };
export const distanceSchema = z
  .looseObject({ value: z.number().check(z.gt(0)), unit: z.enum(DISTANCE_UNITS) })
  .check(z.refine((distance) => distance.value <= MOST_DISTANCE[distance.unit]));

export const HEIGHT_UNITS = ['cm', 'in'] as const;
export type HeightUnit = (typeof HEIGHT_UNITS)[number];
/** The height of a box or a bar as it was typed. */
export type Height = { readonly value: number; readonly unit: HeightUnit };
export const MOST_HEIGHT: Readonly<Record<HeightUnit, number>> = { cm: 400, in: 157 };
export const heightSchema = z
  .looseObject({ value: z.number().check(z.gte(0)), unit: z.enum(HEIGHT_UNITS) })
  .check(z.refine((height) => height.value <= MOST_HEIGHT[height.unit]));
