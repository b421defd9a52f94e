import * as z from 'zod/mini';
import { type Day, isDay } from './day';
import { type NumberFault, parseNumber } from './number';
import { fail, ok, type Result } from './result';
import { instantSchema } from './set';
import { LOAD_UNITS, type LoadUnit } from './units';

/** The test a body mass is a result of. */
const BODY_MASS = 'lib-body-mass';

/** What a body mass may be, in its own unit. */
const BOUNDS = { kg: { min: 20, max: 300 }, lb: { min: 44, max: 660 } } as const;

const schemas = z.looseObject({
  test: z.literal(BODY_MASS),
  value: z.looseObject({ value: z.number().check(z.gte(0)), unit: z.enum(LOAD_UNITS) }),
  day: z.string().check(z.refine(isDay)),
  at: instantSchema,
});

/** A body mass as it was noted: for which day, and when that was noted (ms). */
export type BodyMass = { readonly value: number; readonly unit: LoadUnit; readonly day: Day; readonly notedAt: number };

export type MassFields = { readonly mass: string; readonly unit: LoadUnit; readonly day: string };
export type MassFault =
  | NumberFault<'mass'>
  | { readonly type: 'not-a-day'; readonly field: 'day'; readonly text: string };

/** Returns the registers of a body mass as typed, but for the instant, which is the log's to add. */
export function parseBodyMass({
  mass: text,
  unit,
  day,
}: MassFields): Result<
  { readonly test: string; readonly value: { readonly value: number; readonly unit: LoadUnit }; readonly day: Day },
  MassFault
> {
  const mass = parseNumber('mass', text, BOUNDS[unit], unit);
  if (!mass.ok) return mass;
  if (!isDay(day)) return fail({ type: 'not-a-day', field: 'day', text: day });
  return ok({ test: BODY_MASS, value: { value: mass.value, unit }, day });
}

/** Returns the body mass of a result row's shown values; undefined for another test, or where it is not noted any more. */
export function readBodyMass(values: Readonly<Record<string, unknown>>): BodyMass | undefined {
  const read = z.safeParse(schemas, values);
  if (!read.success) return undefined;
  const { value, day, at } = read.data;
  return { value: value.value, unit: value.unit, day, notedAt: at.at };
}

/**
 * Returns what counts for a day of what was noted by days: the latest by then, or else the first one after; undefined where nothing was noted. Of one
 * day that counts which `isLater`.
 */
export function nearestNoted<T extends { readonly day: Day }>(
  noted: readonly T[],
  day: Day,
  isLater: (a: T, b: T) => boolean,
): T | undefined {
  let [then, after]: (T | undefined)[] = [];
  for (const one of noted) {
    if (one.day <= day && (!then || one.day > then.day || (one.day === then.day && isLater(one, then)))) then = one;
    if (one.day > day && (!after || one.day < after.day || (one.day === after.day && isLater(one, after)))) after = one;
  }
  return then ?? after;
}
