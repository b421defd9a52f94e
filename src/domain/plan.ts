import * as z from 'zod/mini';
import type { Entry, Fields } from './entry';
import { BODY_WAYS, DIRECTIONS } from './set';
import { DISTANCE_UNITS, LOAD_UNITS } from './units';

/** The most sets that are planned of one exercise. */
export const MOST_SETS = 50;

const text = z.optional(z.string().check(z.maxLength(24)));

/** What is planned of an exercise or a station: the texts the pad would begin with, and how many sets. One register. */
export const planSchema = z.looseObject({
  sets: z.optional(z.int().check(z.gte(1), z.lte(MOST_SETS))),
  load: text,
  reps: text,
  band: text,
  pin: text,
  seconds: text,
  distance: text,
  landings: text,
  tries: text,
  degrees: text,
  unit: z.optional(z.enum(LOAD_UNITS)),
  distanceUnit: z.optional(z.enum(DISTANCE_UNITS)),
  body: z.optional(z.enum(BODY_WAYS)),
  direction: z.optional(z.enum(DIRECTIONS)),
});
export type Plan = Partial<Omit<Fields, 'good'>> &
  Partial<Pick<Entry, 'unit' | 'distanceUnit' | 'body'>> & {
    readonly sets?: number;
    readonly direction?: NonNullable<Entry['direction']>;
  };

/** Returns what a plan says of the next set, for the pad to begin with; what it leaves open is left open. */
export function plannedTexts({ sets: _, ...plan }: Plan): Partial<Entry> {
  return plan;
}
