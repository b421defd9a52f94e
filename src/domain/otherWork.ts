import * as z from 'zod/mini';
import { type Day, isDay } from './day';
import { instantSchema } from './set';

/** A day of rest, confirmed: of a day that nothing is noted of nobody knows whether it was one. */
export const REST_DAY = 'rest day';
/** Work that is not training and tires all the same; and its opposite, which takes no hours. */
export const WORK_KINDS = ['rehearsal', 'shoot day', 'class', 'travel', 'other', REST_DAY] as const;
export type WorkKind = (typeof WORK_KINDS)[number];
export const WORK_HOURS = { min: 0.5, max: 24, step: 0.5 } as const;
export const MOST_WORK_NOTE = 200;

const workSchema = z.looseObject({
  work: z.enum(WORK_KINDS),
  day: z.string().check(z.refine(isDay)),
  at: instantSchema,
});
// what this version cannot read of these takes nothing else away [M8]
const hoursSchema = z.number().check(z.gte(WORK_HOURS.min), z.lte(WORK_HOURS.max));
const effortSchema = z.looseObject({ value: z.number().check(z.gte(0), z.lte(10)), as: z.literal('session') });
const noteSchema = z.string().check(z.minLength(1), z.maxLength(MOST_WORK_NOTE));

/** Other work as it was noted, or a day of rest; hours and effort are not noted where they are missing, and a day of rest has none. */
export type OtherWork = {
  readonly id: string;
  readonly work: WorkKind;
  readonly day: Day;
  readonly hours?: number;
  /** Whole-session effort, 0–10. */
  readonly effort?: number;
  readonly note?: string;
  readonly notedAt: number;
};

/** Returns the other work that a row's shown values tell of; undefined for one removed, or not readable by this version. */
export function readOtherWork(id: string, values: Readonly<Record<string, unknown>>): OtherWork | undefined {
  const read = z.safeParse(workSchema, values);
  if (!read.success) return undefined;
  const { work, day, at } = read.data;
  const taken = work === REST_DAY ? {} : values;
  const hours = z.safeParse(hoursSchema, taken['hours']);
  const effort = z.safeParse(effortSchema, taken['effort']);
  const note = z.safeParse(noteSchema, values['note']);
  return {
    id,
    work,
    day,
    ...(hours.success ? { hours: hours.data } : {}),
    ...(effort.success ? { effort: effort.data.value } : {}),
    ...(note.success ? { note: note.data } : {}),
    notedAt: at.at,
  };
}
