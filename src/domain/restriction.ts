import * as z from 'zod/mini';
import { type Day, isDay } from './day';
import { fail, ok, type Result } from './result';
import { instantSchema } from './set';

export const MOST_RESTRICTION = 200;
export const MOST_WHO = 60;

const schemas = {
  who: z.string().check(z.minLength(1), z.maxLength(MOST_WHO)),
  what: z.string().check(z.minLength(1), z.maxLength(MOST_RESTRICTION)),
  from: z.string().check(z.refine(isDay)),
  until: z.string().check(z.refine(isDay)),
  at: instantSchema,
} as const;

/** What a professional said must not be done, by whom, and for how long; `hides` names the exercises that are not offered meanwhile. */
export type Restriction = {
  readonly id: string;
  readonly who: string;
  readonly what: string;
  readonly from: Day;
  readonly until?: Day;
  readonly hides: readonly string[];
};

/** Returns the restriction that a row's shown values tell of; undefined for one removed, or not readable by this version. */
export function readRestriction(id: string, values: Readonly<Record<string, unknown>>): Restriction | undefined {
  const who = z.safeParse(schemas.who, values['who']);
  const what = z.safeParse(schemas.what, values['what']);
  const from = z.safeParse(schemas.from, values['from']);
  const until = z.safeParse(schemas.until, values['until']);
  if (!who.success || !what.success || !from.success) return undefined;
  const hides = Object.keys(values).flatMap((path) => {
    const exercise = /^hides\/([^/]+)$/.exec(path)?.[1];
    return exercise !== undefined && values[path] === true ? [exercise] : [];
  });
  return {
    id,
    who: who.data,
    what: what.data,
    from: from.data,
    ...(until.success ? { until: until.data } : {}),
    hides: hides.sort(),
  };
}

/** Returns whether a restriction holds on a day; its last day is the one named. */
export function holdsOn({ from, until }: Restriction, day: Day): boolean {
  return from <= day && (until === undefined || day <= until);
}

export type RestrictionFields = {
  readonly who: string;
  readonly what: string;
  readonly from: string;
  readonly until: string;
};
export type RestrictionFault =
  | { readonly type: 'empty'; readonly field: 'who' | 'what' }
  | { readonly type: 'too-long'; readonly field: 'who' | 'what'; readonly most: number; readonly has: number }
  | { readonly type: 'not-a-day'; readonly field: 'from' | 'until'; readonly text: string }
  | { readonly type: 'ends-before'; readonly field: 'until' };

/** Returns the registers of a restriction as typed; without an "until" it holds until it is removed. */
export function parseRestriction(
  fields: RestrictionFields,
): Result<
  { readonly who: string; readonly what: string; readonly from: Day; readonly until: Day | null },
  RestrictionFault
> {
  const [who, what, from, until] = [fields.who.trim(), fields.what.trim(), fields.from.trim(), fields.until.trim()];
  for (const [field, text, most] of [
    ['who', who, MOST_WHO],
    ['what', what, MOST_RESTRICTION],
  ] as const) {
    if (text === '') return fail({ type: 'empty', field });
    if (text.length > most) return fail({ type: 'too-long', field, most, has: text.length });
  }
  if (!isDay(from)) return fail({ type: 'not-a-day', field: 'from', text: from });
  if (until !== '' && !isDay(until)) return fail({ type: 'not-a-day', field: 'until', text: until });
  if (until !== '' && until < from) return fail({ type: 'ends-before', field: 'until' });
  return ok({ who, what, from, until: until === '' ? null : until });
}
