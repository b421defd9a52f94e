import * as z from 'zod/mini';
import { distanceSchema, heightSchema, loadSchema } from './units';

/*
 * A set, as a session row holds it: one register a fact, under `sets/<id>/`. What nobody observed has no register, or `null`
 * where it was cleared: that is "not noted", and nothing ever fills it in.
 */

export const SET_KINDS = ['warm-up', 'working', 'test', 'back-off', 'drop', 'cluster', 'assisted'] as const;
export type SetKind = (typeof SET_KINDS)[number];

export const SIDES = ['left', 'right'] as const;
export type Side = (typeof SIDES)[number];

/** How body mass is changed: nothing, load added, load taken off by a machine or a band. */
export const BODY_WAYS = ['alone', 'added', 'assist', 'band'] as const;
export type BodyWay = (typeof BODY_WAYS)[number];

export const FORMS = ['clean', 'slipping'] as const;
export const ENDINGS = ['made', 'missed', 'stopped', 'pain'] as const;
export const ANSWERS = ['better', 'same', 'worse'] as const;

/** Where a landing goes, as seen from the leg that lands: the same word is mirrored on the other side. */
export const DIRECTIONS = ['ahead', 'diagonal', 'out', 'back-out', 'across'] as const;
export type Direction = (typeof DIRECTIONS)[number];

/** What makes a landing good, each seen by itself: quiet, knee over foot, held. */
export const LANDING_SIGNS = ['quiet', 'knee', 'held'] as const;
export type LandingSign = (typeof LANDING_SIGNS)[number];

/** Bounds of what a set holds. Wide enough for any performer, narrow enough to catch a slipped finger. */
export const BOUNDS = {
  reps: { min: 0, max: 500, step: 1 },
  seconds: { min: 1, max: 7200 },
  left: { min: 0, max: 5, step: 0.5 },
  rpe: { min: 1, max: 10, step: 0.5 },
  pain: { min: 0, max: 10, step: 1 },
  landings: { min: 1, max: 200, step: 1 },
  tries: { min: 1, max: 500, step: 1 },
  good: { min: 0, max: 500, step: 1 },
  degrees: { min: -90, max: 360 },
  smooth: { min: 1, max: 5, step: 1 },
  pause: { min: 0, max: 60 },
  round: { min: 1, max: 500, step: 1 },
} as const;
/** More landings than this are counted, not marked one by one. */
export const MOST_MARKS = 12;
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
  /** Told to be rising within the set. */
  rising: z.optional(z.boolean()),
  place: z.optional(z.string().check(z.maxLength(60))),
});

/** One use of a cue in the set it was given for, with what it did once that was seen. */
const cueUseSchema = z.looseObject({ cue: z.string(), answer: z.optional(z.nullable(z.enum(ANSWERS))) });

/** One landing: good or not, and of one that is not, which sign was missing. */
const markSchema = z.looseObject({
  good: z.boolean(),
  quiet: z.optional(z.literal(false)),
  knee: z.optional(z.literal(false)),
  held: z.optional(z.literal(false)),
});
export type Mark = {
  readonly good: boolean;
  readonly quiet?: false | undefined;
  readonly knee?: false | undefined;
  readonly held?: false | undefined;
};

/** Seconds down, below, up and above, such as `3-1-x-0`; `x` is as fast as can be. */
export const TEMPO = /^[0-9x](-?[0-9x]){3}$/i;

/** What a set holds, by register: each path under the set has one schema, and is judged by itself. */
const holdSchemas = {
  load: loadSchema,
  added: loadSchema,
  assist: loadSchema,
  band: label,
  pin: label,
  seconds: z.number().check(z.gte(BOUNDS.seconds.min), z.lte(BOUNDS.seconds.max)),
  reps: repsSchema,
  distance: distanceSchema,
  landings: z.int().check(z.gte(BOUNDS.landings.min), z.lte(BOUNDS.landings.max)),
  tries: z.int().check(z.gte(BOUNDS.tries.min), z.lte(BOUNDS.tries.max)),
  good: z.int().check(z.gte(BOUNDS.good.min), z.lte(BOUNDS.good.max)),
  degrees: z.number().check(z.gte(BOUNDS.degrees.min), z.lte(BOUNDS.degrees.max)),
} as const;

/** The registers of a set but for those inside it: each path has one schema, and is judged by itself. */
export const setSchemas = {
  ...holdSchemas,
  exercise: z.string().check(z.minLength(1)),
  kind: z.enum(SET_KINDS),
  side: z.enum(SIDES),
  direction: z.enum(DIRECTIONS),
  smooth: z.int().check(z.gte(BOUNDS.smooth.min), z.lte(BOUNDS.smooth.max)),
  setUp: z.string().check(z.maxLength(MOST_SET_UP)),
  tempo: z.string().check(z.regex(TEMPO)),
  height: heightSchema,
  pause: z.number().check(z.gte(BOUNDS.pause.min), z.lte(BOUNDS.pause.max)),
  /** The cell of a block it was done in; a block that is gone leaves it in none [M5]. */
  in: z.looseObject({
    block: z.string(),
    station: z.string(),
    // bounded, because a grid has a cell for each
    round: z.int().check(z.gte(BOUNDS.round.min), z.lte(BOUNDS.round.max)),
  }),
  effort: effortSchema,
  form: z.enum(FORMS),
  ended: z.enum(ENDINGS),
  pain: painSchema,
  note: z.string().check(z.maxLength(MOST_NOTE)),
  at: instantSchema,
  noRest: z.boolean(),
  /** Added to a count spread over the session: it starts no rest and takes nothing out of hand. */
  tally: z.boolean(),
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
      readonly type:
        | 'no-exercise'
        | 'no-instant'
        | 'added-and-assist'
        | 'parts-missing'
        | 'parts-unasked'
        | 'more-good-than-done'
        | 'ended-before-start'
        | 'pause-backwards';
      readonly path: string;
    };

export type SetRecord = Registers & {
  readonly id: string;
  readonly parts: readonly (Hold & { readonly id: string })[];
  readonly cues: readonly CueUse[];
  /** Landings one by one, in order; `n` counts from 1. One that nobody judged is not here. */
  readonly marks: readonly (Mark & { readonly n: number })[];
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
  const marks: (Mark & { n: number })[] = [];
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
    } else if (head === 'marks' && field === '' && /^[1-9]\d?$/.test(inner)) {
      take(markSchema, path, (mark) => marks.push({ ...mark, n: Number(inner) }));
    } else if (head === 'faults' && field === '') {
      take(z.enum(['seen', 'gone']), path, (seen) => faults.push({ id: inner, gone: seen === 'gone' }));
    }
  }
  if (
    Object.keys(registers).every((name) => name === 'movedTo') &&
    parts.size + cues.length + faults.length + marks.length + unread.length === 0
  ) {
    return undefined;
  }
  const set = {
    ...(registers as Registers),
    id,
    // a part's id begins with its place in the set, so the order of ids is the order of parts
    parts: [...parts].map(([part, held]) => ({ ...(held as Hold), id: part })),
    cues,
    marks: marks.sort((a, b) => a.n - b.n),
    faults,
  };
  return { ...set, unread: [...unread, ...atOdds(set)] };
}

/** Returns a number below, at or above 0: the order of sets everywhere, by instant and then id [M11]. */
export function bySetOrder(a: SetRecord, b: SetRecord): number {
  const apart = (a.at?.at ?? 0) - (b.at?.at ?? 0);
  return apart !== 0 ? apart : a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/** Returns how many of a set's landings or tries were good, of how many; undefined where nobody judged any. */
export function goodOf(set: SetRecord): { readonly good: number; readonly of: number } | undefined {
  if (set.marks.length > 0) {
    // of landings judged one by one, only those that were judged
    return { good: set.marks.filter((mark) => mark.good).length, of: set.marks.length };
  }
  let [good, of] = [0, 0];
  for (const held of [set, ...set.parts]) {
    if (held.good === undefined) continue;
    good += held.good;
    of += held.landings ?? held.tries ?? 0;
  }
  return of === 0 ? undefined : { good, of };
}

/** [M9] Values that are each right and do not go together, as a merge of two right rows can make them. */
function atOdds(set: Omit<SetRecord, 'unread'>): Unread[] {
  const path = `sets/${set.id}`;
  const found: Unread[] = [];
  const inParts = set.kind === 'drop' || set.kind === 'cluster';
  if (set.exercise === undefined) found.push({ type: 'no-exercise', path });
  if (set.at === undefined) found.push({ type: 'no-instant', path });
  if (set.added !== undefined && set.assist !== undefined) found.push({ type: 'added-and-assist', path });
  const total = set.landings ?? set.tries;
  const judged = Math.max(set.good ?? 0, set.marks.at(-1)?.n ?? 0);
  if (total !== undefined && judged > total) found.push({ type: 'more-good-than-done', path });
  for (const { id, good = 0, tries } of set.parts) {
    if (tries !== undefined && good > tries) found.push({ type: 'more-good-than-done', path: `${path}/parts/${id}` });
  }
  if (inParts && set.parts.length === 0) found.push({ type: 'parts-missing', path });
  if (!inParts && set.kind !== undefined && set.parts.length > 0) found.push({ type: 'parts-unasked', path });
  return found;
}
