import * as z from 'zod/mini';
import { BODY_WAYS, type Entry, FIELDS, type Fields, fieldsFrom } from './entry';
import { DIRECTIONS, type SetRecord } from './set';
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

/** Returns the plan that asks for what a set held again: never for what was seen of it. */
export function planOfSet(set: SetRecord): Plan {
  return planOf(fieldsFrom(set), set.direction ?? null);
}

/** Returns the plan that asks for what an entry holds. */
export function planOfEntry(entry: Entry): Plan {
  return planOf(entry, entry.direction);
}

function planOf(held: ReturnType<typeof fieldsFrom>, direction: Entry['direction']): Plan {
  const plan: Record<string, string> = {};
  for (const field of FIELDS) {
    const text = held[field].trim();
    if (field !== 'good' && text !== '') plan[field] = text;
  }
  if (plan['load'] !== undefined && held.unit) plan['unit'] = held.unit;
  if (plan['distance'] !== undefined && held.distanceUnit) plan['distanceUnit'] = held.distanceUnit;
  if (held.body !== 'alone') plan['body'] = held.body;
  if (direction) plan['direction'] = direction;
  return plan as Plan;
}
