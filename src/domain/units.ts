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
