import * as z from 'zod/mini';
import { isDay } from './day';
import { fail, ok, type Result } from './result';
import { setSchemas } from './set';
import { SET_UP_PATHS, type SetUp } from './setUp';

export const MOST_ALIAS = 40;
export const MOST_SHORT = 6;
export const MOST_DAY_NAME = 24;
export const MOST_QUESTION = 120;

/** A named day the work runs towards, such as "opening". */
export type NamedDay = { readonly name: string; readonly day: string };

/** How much jumping and landing a client is used to; published ranges of landings go by it. */
export const LANDING_LEVELS = ['beginner', 'intermediate', 'advanced'] as const;
export type LandingLevel = (typeof LANDING_LEVELS)[number];

const clientSchemas = {
  alias: z.string().check(z.minLength(1), z.maxLength(MOST_ALIAS)),
  short: z.string().check(z.minLength(1), z.maxLength(MOST_SHORT)),
  date: z.looseObject({ name: z.string(), day: z.string().check(z.refine(isDay)) }),
  since: z.looseObject({ day: z.string().check(z.refine(isDay)) }),
  landings: z.enum(LANDING_LEVELS),
  question: z.string().check(z.maxLength(MOST_QUESTION)),
} as const;

export type Client = {
  readonly id: string;
  readonly alias: string;
  /** What the tab and the button say. */
  readonly short: string;
  readonly date?: NamedDay;
  /** The day the client was added. */
  readonly since?: string;
  /** Set-up remembered per exercise. */
  readonly setUps: Readonly<Record<string, SetUp>>;
  readonly landings?: LandingLevel;
  /** A question agreed with the client, asked before each session. */
  readonly question?: string;
  /** Clearances by exercise: who gave it, and when that was noted (ms). */
  readonly clearances: Readonly<Record<string, Clearance>>;
};

const clearanceSchema = z.looseObject({
  who: z.string().check(z.minLength(1), z.maxLength(MOST_ALIAS)),
  at: z.number(),
  day: z.string().check(z.refine(isDay)),
});
export type Clearance = { readonly who: string; readonly at: number; readonly day: string };

/** Returns the client of a row's shown values; undefined without an alias (undone, or not readable by this version). */
export function readClient(id: string, values: Readonly<Record<string, unknown>>): Client | undefined {
  const alias = z.safeParse(clientSchemas.alias, values['alias']);
  if (!alias.success) return undefined;
  const short = z.safeParse(clientSchemas.short, values['short']);
  const date = z.safeParse(clientSchemas.date, values['date']);
  const since = z.safeParse(clientSchemas.since, values['since']);
  const landings = z.safeParse(clientSchemas.landings, values['landings']);
  const question = z.safeParse(clientSchemas.question, values['question']);
  const setUps: Record<string, Record<string, unknown>> = {};
  const clearances: Record<string, Clearance> = {};
  for (const [path, value] of Object.entries(values)) {
    const [head, exercise = '', name = '', more] = path.split('/');
    if (value === null || more !== undefined) continue;
    if (head === 'setUps' && SET_UP_PATHS.some((known) => known === name)) {
      const read = z.safeParse<z.ZodMiniType<unknown>>(setSchemas[name as keyof SetUp], value);
      if (read.success) setUps[exercise] = { ...setUps[exercise], [name]: read.data };
    } else if (head === 'clearances' && name === '') {
      const read = z.safeParse(clearanceSchema, value);
      if (read.success) clearances[exercise] = read.data;
    }
  }
  return {
    id,
    alias: alias.data,
    short: short.success ? short.data : shortFor(alias.data),
    ...(date.success ? { date: { name: date.data.name, day: date.data.day } } : {}),
    ...(since.success ? { since: since.data.day } : {}),
    setUps,
    ...(landings.success ? { landings: landings.data } : {}),
    ...(question.success && question.data !== '' ? { question: question.data } : {}),
    clearances,
  };
}

/** Returns a short name for the tab: the last word of the alias ("Client K" is "K"), cut to what a tab holds. */
export function shortFor(alias: string): string {
  const letters = [...(alias.trim().split(/\s+/).at(-1) ?? '')];
  // whole characters only: half an emoji is not a name
  while (letters.join('').length > MOST_SHORT) letters.pop();
  return letters.join('');
}

export type ClientFields = {
  readonly alias: string;
  readonly short: string;
  readonly dayName: string;
  readonly day: string;
};
export type ClientFault =
  | { readonly type: 'empty'; readonly field: keyof ClientFields }
  | { readonly type: 'too-long'; readonly field: keyof ClientFields; readonly most: number; readonly has: number }
  | { readonly type: 'not-a-day'; readonly field: 'day'; readonly text: string };
export type ClientValues = { readonly alias: string; readonly short: string; readonly date?: NamedDay };

/** Returns the registers of a client as typed; the named day is optional, but half of one is refused. */
export function parseClient(fields: ClientFields): Result<ClientValues, ClientFault> {
  const alias = fields.alias.trim();
  if (alias === '') return fail({ type: 'empty', field: 'alias' });
  const short = fields.short.trim() || shortFor(alias);
  const name = fields.dayName.trim();
  const day = fields.day.trim();
  const limits = [
    ['alias', alias, MOST_ALIAS],
    ['short', short, MOST_SHORT],
    ['dayName', name, MOST_DAY_NAME],
  ] as const;
  for (const [field, text, most] of limits) {
    if (text.length > most) return fail({ type: 'too-long', field, most, has: text.length });
  }
  if (name === '' && day === '') return ok({ alias, short });
  if (name === '') return fail({ type: 'empty', field: 'dayName' });
  if (day === '') return fail({ type: 'empty', field: 'day' });
  if (!isDay(day)) return fail({ type: 'not-a-day', field: 'day', text: day });
  return ok({ alias, short, date: { name, day } });
}
