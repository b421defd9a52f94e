import * as z from 'zod/mini';
import { type Arrival, readArrival } from './arrival';
import { type Block, byOrder, readBlocks, skippedSchema } from './block';
import { type Pause, pausedMs, readPauses } from './pause';
import { type Plan, planSchema } from './plan';
import { bySetOrder, instantSchema, readSet, type SetRecord, type Unread } from './set';
import { readSigns, type SignSeen } from './stopSigns';

export const ATTENDANCES = ['done', 'cut-short', 'cancelled', 'no-show'] as const;
export type Attendance = (typeof ATTENDANCES)[number];

/** How many sets a session row holds before its continuation begins; a rule of adding, never of validity. */
export const SETS_A_ROW = 300;
/** Whole-session effort, 0–10: another scale than a set's. */
export const SESSION_EFFORT = { min: 0, max: 10, step: 0.5 } as const;
export const SESSION_MINUTES = { min: 1, max: 600, step: 1 } as const;

const sessionSchemas = {
  start: instantSchema,
  end: instantSchema,
  /** Set by the trainer where the clock's word for it is not what was trained. */
  minutes: z.int().check(z.gte(1), z.lte(600)),
  effort: z.looseObject({
    value: z.number().check(
      z.gte(0),
      z.lte(10),
      z.refine((value) => Number.isInteger(value * 2)),
    ),
    as: z.literal('session'),
  }),
  attendance: z.enum(ATTENDANCES),
  why: z.string().check(z.maxLength(200)),
  note: z.string().check(z.maxLength(2000)),
  of: z.string(),
  /** The template and day it was planned by [M11]. */
  template: z.string(),
  plannedDay: z.string(),
  /** Where it is: a place of the kit. */
  place: z.string(),
} as const;

const itemSchemas = {
  order: z.string(),
  plan: planSchema,
  /** Spread over the session: how many in all. */
  tally: z.int().check(z.gte(1), z.lte(2000)),
  skipped: skippedSchema,
  swappedFor: z.looseObject({ exercise: z.string() }),
} as const;

/** An exercise on today's list, with what is planned of it. */
export type Item = {
  readonly id: string;
  readonly order?: string;
  readonly plan?: Plan;
  readonly tally?: number;
  readonly skipped?: { readonly why: string };
  /** The exercise that took its place today. */
  readonly swappedFor?: { readonly exercise: string };
};

type Registers = { readonly [K in keyof typeof sessionSchemas]?: z.infer<(typeof sessionSchemas)[K]> };

export type SessionRecord = Registers & {
  readonly id: string;
  /** Exercises put on today's list, in its order; one with sets is listed whether it was put there or not. */
  readonly exercises: readonly string[];
  /** What today's list says of its exercises, in its order; one that only sets in no block tell of comes last. */
  readonly items: readonly Item[];
  readonly blocks: readonly Block[];
  readonly pauses: readonly Pause[];
  readonly arrival: Arrival;
  readonly signs: readonly SignSeen[];
  /** Every set that is noted, in order, those of the continuations included. */
  readonly sets: readonly SetRecord[];
  readonly unread: readonly Unread[];
};

/** One row of a session as its shown values: the row itself, or a continuation of it. */
export type SessionPart = { readonly id: string; readonly values: Readonly<Record<string, unknown>> };

/**
 * Returns a session from the shown values of its row and of its continuations (in any order), read as one; undefined where its
 * start is not noted and it holds no set: a start that was undone, or a row this version cannot read.
 */
export function readSession(id: string, parts: readonly SessionPart[]): SessionRecord | undefined {
  const own = parts.find((part) => part.id === id)?.values ?? {};
  const registers: Record<string, unknown> = {};
  const unread: Unread[] = [];
  for (const [path, schema] of Object.entries(sessionSchemas)) {
    const value = own[path];
    if (value === undefined || value === null) continue;
    const parsed = z.safeParse<z.ZodMiniType<unknown>>(schema, value);
    if (parsed.success) registers[path] = parsed.data;
    else unread.push({ type: 'from-a-newer-app', path, value });
  }
  const sets = parts.flatMap((part) => readSets(part.values)).sort(bySetOrder);
  const session = registers as Registers;
  if (session.start === undefined && sets.length === 0) return undefined;
  if (session.start && session.end && session.end.at < session.start.at)
    unread.push({ type: 'ended-before-start', path: 'end' });
  const blocks = readBlocks(own);
  const pauses = readPauses(own);
  const { arrival, ...came } = readArrival(own);
  const { signs, ...seen } = readSigns(own);
  const listed = readItems(own, unread);
  const inNone = sets.filter((set) => !blocks.blocks.some((block) => block.id === set.in?.block));
  const trained = (some: readonly SetRecord[]): readonly string[] => some.flatMap((set) => set.exercise ?? []);
  return {
    ...session,
    id,
    exercises: [...new Set([...listed.map((item) => item.id), ...trained(sets)])],
    items: [
      ...listed,
      ...[...new Set(trained(inNone))]
        .filter((one) => !listed.some((item) => item.id === one))
        .map((one) => ({ id: one })),
    ],
    blocks: blocks.blocks,
    pauses: pauses.pauses,
    arrival,
    signs,
    sets,
    unread: [
      ...unread,
      ...[blocks, pauses, came, seen].flatMap((read) => read.unread),
      ...sets.flatMap((set) => set.unread),
      // a row's paths stand as they came: in another order on another device
    ].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0)),
  };
}

/** Returns the id of the session that a row's shown values belong to: its own, or its parent's where it is a continuation. */
export const sessionOf = ({ id, values }: SessionPart): string =>
  typeof values['of'] === 'string' ? values['of'] : id;

/** Returns the sessions that rows tell of, continuations in any order among them. */
export function readSessions(rows: readonly SessionPart[]): readonly SessionRecord[] {
  const parts = new Map<string, SessionPart[]>();
  for (const row of rows) {
    const own = parts.get(sessionOf(row));
    if (own) own.push(row);
    else parts.set(sessionOf(row), [row]);
  }
  return [...parts].flatMap(([id, own]) => readSession(id, own) ?? []);
}

/**
 * Returns the whole minutes between a session's start and `until` (ms) as the clock had them, less what was paused; undefined where the clock
 * ran backwards.
 */
export function clockMinutes(session: Pick<SessionRecord, 'start' | 'pauses'>, until: number): number | undefined {
  if (!session.start || until < session.start.at) return undefined;
  const from = session.start.at;
  return Math.floor((until - from - pausedMs(session.pauses, from, until)) / 60_000);
}

/** Returns what stands on today's list, exercises and blocks together, in order. */
export function listedThings(
  record: Pick<SessionRecord, 'items' | 'blocks'>,
): readonly { readonly type: 'exercise' | 'block'; readonly id: string; readonly order: string | undefined }[] {
  const things = [
    ...record.items.map((item) => ({ type: 'exercise' as const, id: item.id, order: item.order })),
    ...record.blocks.map((block) => ({ type: 'block' as const, id: block.id, order: block.order })),
  ];
  // what only sets tell of comes behind what was listed
  const placed = things.filter((thing) => thing.order !== undefined);
  placed.sort((a, b) =>
    (a.order ?? '') < (b.order ?? '') ? -1 : (a.order ?? '') > (b.order ?? '') ? 1 : a.id < b.id ? -1 : 1,
  );
  return [...placed, ...things.filter((thing) => thing.order === undefined)];
}

/** Returns the id of the n-th row of a session: the row itself is the first. */
export function partId(session: string, n: number): string {
  return n === 1 ? session : `${session}-${n}`;
}

function readSets(values: Readonly<Record<string, unknown>>): SetRecord[] {
  const grouped = new Map<string, Record<string, unknown>>();
  for (const [path, value] of Object.entries(values)) {
    const match = /^sets\/([^/]+)\/(.+)$/.exec(path);
    if (!match) continue;
    const [, set = '', inner = ''] = match;
    const group = grouped.get(set) ?? {};
    grouped.set(set, group);
    group[inner] = value;
  }
  return [...grouped].flatMap(([set, group]) => readOnce(set, group) ?? []);
}

type Reading = {
  readonly id: string;
  readonly values: Readonly<Record<string, unknown>>;
  readonly set: SetRecord | undefined;
};
const readings = new WeakMap<object, Reading>();

/**
 * Reads a set, or returns the very reading of before where no value of it is another: at every tap all sets but one are as they were. Kept
 * with the value of its instant, which a row hands on untouched.
 */
function readOnce(id: string, values: Readonly<Record<string, unknown>>): SetRecord | undefined {
  const { at } = values;
  const known = isObject(at) ? readings.get(at) : undefined;
  if (known?.id === id && areSame(known.values, values)) return known.set;
  const set = readSet(id, values);
  if (isObject(at)) readings.set(at, { id, values, set });
  return set;
}

const isObject = (value: unknown): value is object => typeof value === 'object' && value !== null;

function areSame(a: Readonly<Record<string, unknown>>, b: Readonly<Record<string, unknown>>): boolean {
  const paths = Object.keys(a);
  return paths.length === Object.keys(b).length && paths.every((path) => Object.hasOwn(b, path) && a[path] === b[path]);
}

/** What today's list says of its exercises. */
function readItems(values: Readonly<Record<string, unknown>>, unread: Unread[]): readonly Item[] {
  const found = new Map<string, Record<string, unknown>>();
  for (const [path, value] of Object.entries(values)) {
    const [, id, name] = /^exercises\/([^/]+)\/([^/]+)$/.exec(path) ?? [];
    if (id === undefined || name === undefined || value === null || !Object.hasOwn(itemSchemas, name)) continue;
    const parsed = z.safeParse<z.ZodMiniType<unknown>>(itemSchemas[name as keyof typeof itemSchemas], value);
    if (parsed.success) found.set(id, { ...found.get(id), [name]: parsed.data });
    else unread.push({ type: 'from-a-newer-app', path, value });
  }
  const items = [...found].map(([id, item]) => ({ ...item, id }) as Item).sort(byOrder);
  // what has no place on the list comes behind it
  return [...items.filter((item) => item.order !== undefined), ...items.filter((item) => item.order === undefined)];
}
