import * as z from 'zod/mini';
import { loadSchema } from './units';

/*
 * A set, as a session row holds it: one register a fact, under `sets/<id>/`. What nobody observed has no register, or `null`
 * where it was cleared: that is "not noted", and nothing ever fills it in.
 */

export const SET_KINDS = ['warm-up', 'working', 'test', 'back-off', 'drop', 'cluster', 'assisted'] as const;
export type SetKind = (typeof SET_KINDS)[number];

export const SIDES = ['left', 'right'] as const;
export type Side = (typeof SIDES)[number];

export const FORMS = ['clean', 'slipping'] as const;
export const ENDINGS = ['made', 'missed', 'stopped', 'pain'] as const;
export const ANSWERS = ['better', 'same', 'worse'] as const;

/** Bounds of what a set holds. Wide enough for any performer, narrow enough to catch a slipped finger. */
export const BOUNDS = {
  reps: { min: 0, max: 500, step: 1 },
  seconds: { min: 1, max: 7200 },
  left: { min: 0, max: 5, step: 0.5 },
  rpe: { min: 1, max: 10, step: 0.5 },
  pain: { min: 0, max: 10, step: 1 },
} as const;
export const MOST_PARTS = 8;
export const MOST_NOTE = 2000;
export const MOST_LABEL = 24;
export const MOST_SET_UP = 200;

/** The half steps that effort is told in. */
const halves = z.refine<number>((value) => Number.isInteger(value * 2));
const label = z.string().check(z.minLength(1), z.maxLength(MOST_LABEL));
const repsSchema = z.int().check(z.gte(BOUNDS.reps.min), z.lte(BOUNDS.reps.max));

/** Effort as it was told: reps left, "4 or more left", or RPE. Never converted in storage. */
export const effortSchema = z.union([
  z.looseObject({ value: z.number().check(z.gte(0), z.lte(5), halves), as: z.literal('left') }),
  z.looseObject({ value: z.number().check(z.gte(1), z.lte(10), halves), as: z.literal('rpe') }),
  z.looseObject({ atLeast: z.literal(4) }),
]);
export type Effort = { readonly value: number; readonly as: 'left' | 'rpe' } | { readonly atLeast: 4 };

/** An instant with the day and zone it was logged in. */
export const instantSchema = z.looseObject({
  at: z.number(),
  day: z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}$/)),
  zone: z.string(),
});

const painSchema = z.looseObject({
  value: z.int().check(z.gte(0), z.lte(10)),
  place: z.optional(z.string().check(z.maxLength(60))),
});

/** One use of a cue in the set it was given for, with what it did once that was seen. */
const cueUseSchema = z.looseObject({ cue: z.string(), answer: z.optional(z.nullable(z.enum(ANSWERS))) });

/** What a set holds, by register: each path under the set has one schema, and is judged by itself. */
const holdSchemas = {
  load: loadSchema,
  added: loadSchema,
  assist: loadSchema,
  band: label,
  pin: label,
  seconds: z.number().check(z.gte(BOUNDS.seconds.min), z.lte(BOUNDS.seconds.max)),
  reps: repsSchema,
} as const;

const setSchemas = {
  ...holdSchemas,
  exercise: z.string().check(z.minLength(1)),
  kind: z.enum(SET_KINDS),
  side: z.enum(SIDES),
  setUp: z.string().check(z.maxLength(MOST_SET_UP)),
  effort: effortSchema,
  form: z.enum(FORMS),
  ended: z.enum(ENDINGS),
  pain: painSchema,
  note: z.string().check(z.maxLength(MOST_NOTE)),
  at: instantSchema,
  noRest: z.boolean(),
  movedTo: z.looseObject({ stream: z.string(), session: z.string(), set: z.string() }),
} as const;

export type Hold = { readonly [K in keyof typeof holdSchemas]?: z.infer<(typeof holdSchemas)[K]> };
type Registers = {
  readonly [K in keyof typeof setSchemas]?: K extends 'effort' ? Effort : z.infer<(typeof setSchemas)[K]>;
};
export type CueUse = z.infer<typeof cueUseSchema> & { readonly id: string };

/** A value that this version keeps and shows raw but does not compute with [M8], or values that do not go together [M9]. */
export type Unread =
  | { readonly type: 'from-a-newer-app'; readonly path: string; readonly value: unknown }
  | {
      readonly type: 'no-exercise' | 'no-instant' | 'added-and-assist' | 'parts-missing' | 'parts-unasked';
      readonly path: string;
    };

export type SetRecord = Registers & {
  readonly id: string;
  readonly parts: readonly (Hold & { readonly id: string })[];
  readonly cues: readonly CueUse[];
  /** Faults seen, by id, and whether each was gone again by the end of the set. */
  readonly faults: readonly { readonly id: string; readonly gone: boolean }[];
  /** Not empty: the set needs mending, or holds something newer; analysis leaves out what is named here and says so. */
  readonly unread: readonly Unread[];
};

/**
 * Returns the set under `sets/<id>/` from a session's shown values, whose paths are given relative to it; undefined where nothing
 * is noted any more (undone, or moved to another client). Unknown paths are passed over: they stay in the row.
 */
export function readSet(id: string, values: Readonly<Record<string, unknown>>): SetRecord | undefined {
  const registers: Record<string, unknown> = {};
  const parts = new Map<string, Record<string, unknown>>();
  const cues: CueUse[] = [];
  const faults: { id: string; gone: boolean }[] = [];
  const unread: Unread[] = [];
  const take = <T>(schema: z.ZodMiniType<T>, path: string, keep: (value: T) => void): void => {
    const parsed = z.safeParse(schema, values[path]);
    if (parsed.success) keep(parsed.data);
    else unread.push({ type: 'from-a-newer-app', path: `sets/${id}/${path}`, value: values[path] });
  };
  for (const path of Object.keys(values).sort()) {
    if (values[path] === null) continue;
    const [head = '', inner, field = '', deeper] = path.split('/');
    if (Object.hasOwn(setSchemas, path)) {
      take<unknown>(setSchemas[path as keyof typeof setSchemas], path, (value) => {
        registers[path] = value;
      });
    } else if (inner === undefined || deeper !== undefined) {
      // a path of a shape this version does not write: `parts/1a2b/reps/left` is not `parts/1a2b/reps`
    } else if (head === 'parts' && Object.hasOwn(holdSchemas, field)) {
      const part = parts.get(inner) ?? {};
      parts.set(inner, part);
      take<unknown>(holdSchemas[field as keyof Hold], path, (value) => {
        part[field] = value;
      });
    } else if (head === 'cues' && field === '') {
      take(cueUseSchema, path, (use) => cues.push({ ...use, id: inner }));
    } else if (head === 'faults' && field === '') {
      take(z.enum(['seen', 'gone']), path, (seen) => faults.push({ id: inner, gone: seen === 'gone' }));
    }
  }
  if (
    Object.keys(registers).every((name) => name === 'movedTo') &&
    parts.size + cues.length + faults.length + unread.length === 0
  ) {
    return undefined;
  }
  const set = {
    ...(registers as Registers),
    id,
    // a part's id begins with its place in the set, so the order of ids is the order of parts
    parts: [...parts].map(([part, held]) => ({ ...(held as Hold), id: part })),
    cues,
    faults,
  };
  return { ...set, unread: [...unread, ...atOdds(set)] };
}

/** Returns a number below, at or above 0: the order of sets everywhere, by instant and then id [M11]. */
export function bySetOrder(a: SetRecord, b: SetRecord): number {
  const apart = (a.at?.at ?? 0) - (b.at?.at ?? 0);
  return apart !== 0 ? apart : a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/** [M9] Values that are each right and do not go together, as a merge of two right rows can make them. */
function atOdds(set: Omit<SetRecord, 'unread'>): Unread[] {
  const path = `sets/${set.id}`;
  const found: Unread[] = [];
  const inParts = set.kind === 'drop' || set.kind === 'cluster';
  if (set.exercise === undefined) found.push({ type: 'no-exercise', path });
  if (set.at === undefined) found.push({ type: 'no-instant', path });
  if (set.added !== undefined && set.assist !== undefined) found.push({ type: 'added-and-assist', path });
  if (inParts && set.parts.length === 0) found.push({ type: 'parts-missing', path });
  if (!inParts && set.kind !== undefined && set.parts.length > 0) found.push({ type: 'parts-unasked', path });
  return found;
}
