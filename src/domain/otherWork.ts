import * as z from 'zod/mini';
import { type Day, isDay } from './day';
import { instantSchema } from './set';

/** Work that is not training and tires all the same. */
export const WORK_KINDS = ['rehearsal', 'shoot day', 'class', 'travel', 'other'] as const;
export type WorkKind = (typeof WORK_KINDS)[number];
export const WORK_HOURS = { min: 0.5, max: 24, step: 0.5 } as const;
export const MOST_WORK_NOTE = 200;

const workSchemas = z.looseObject({
  work: z.enum(WORK_KINDS),
  day: z.string().check(z.refine(isDay)),
  hours: z.optional(z.nullable(z.number().check(z.gte(WORK_HOURS.min), z.lte(WORK_HOURS.max)))),
  effort: z.optional(
    z.nullable(z.looseObject({ value: z.number().check(z.gte(0), z.lte(10)), as: z.literal('session') })),
  ),
  note: z.optional(z.nullable(z.string().check(z.maxLength(MOST_WORK_NOTE)))),
  at: instantSchema,
});

/** Other work as it was noted; hours and effort are not noted where they are missing. */
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
  const read = z.safeParse(workSchemas, values);
  if (!read.success) return undefined;
  const { work, day, hours, effort, note, at } = read.data;
  return {
    id,
    work,
    day,
    ...(hours ? { hours } : {}),
    ...(effort ? { effort: effort.value } : {}),
    ...(note ? { note } : {}),
    notedAt: at.at,
  };
}
