import * as z from 'zod/mini';
import { isDay } from './day';
import { fail, ok, type Result } from './result';

export const MOST_ALIAS = 40;
export const MOST_SHORT = 6;
export const MOST_DAY_NAME = 24;

/** A named day the work runs towards, such as "opening". */
export type NamedDay = { readonly name: string; readonly day: string };

const clientSchemas = {
  alias: z.string().check(z.minLength(1), z.maxLength(MOST_ALIAS)),
  short: z.string().check(z.minLength(1), z.maxLength(MOST_SHORT)),
  date: z.looseObject({ name: z.string(), day: z.string().check(z.refine(isDay)) }),
  since: z.looseObject({ day: z.string().check(z.refine(isDay)) }),
} as const;

export type Client = {
  readonly id: string;
  readonly alias: string;
  /** What the tab and the button say. */
  readonly short: string;
  readonly date?: NamedDay;
  /** The day the client was added. */
  readonly since?: string;
  /** Set-up remembered per exercise, as last worded. */
  readonly setUps: Readonly<Record<string, string>>;
};

/** Returns the client of a row's shown values; undefined without an alias (undone, or not readable by this version). */
export function readClient(id: string, values: Readonly<Record<string, unknown>>): Client | undefined {
  const alias = z.safeParse(clientSchemas.alias, values['alias']);
  if (!alias.success) return undefined;
  const short = z.safeParse(clientSchemas.short, values['short']);
  const date = z.safeParse(clientSchemas.date, values['date']);
  const since = z.safeParse(clientSchemas.since, values['since']);
  const setUps: Record<string, string> = {};
  for (const [path, value] of Object.entries(values)) {
    const exercise = /^setUps\/([^/]+)$/.exec(path)?.[1];
    if (exercise !== undefined && typeof value === 'string' && value !== '') setUps[exercise] = value;
  }
  return {
    id,
    alias: alias.data,
    short: short.success ? short.data : shortFor(alias.data),
    ...(date.success ? { date: { name: date.data.name, day: date.data.day } } : {}),
    ...(since.success ? { since: since.data.day } : {}),
    setUps,
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
