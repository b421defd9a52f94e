import * as z from 'zod/mini';
import type { Unread } from './set';

/*
 * How a client came in: asked before a session, each answer a register of its own under `arrival/`. Five items of 1–5, 5 best. "The
 * usual" is stored as those words, never as five numbers nobody gave.
 */

/** The five items; all run the same way, 5 is best. */
export const ARRIVAL_ITEMS = ['sleep', 'energy', 'body', 'calm', 'mood'] as const;
export type ArrivalItem = (typeof ARRIVAL_ITEMS)[number];
export const ARRIVAL_STEPS = [1, 2, 3, 4, 5] as const;

/** Places that may be sore. */
export const SORE_PLACES = [
  'neck',
  'shoulder',
  'elbow',
  'wrist',
  'upper back',
  'lower back',
  'hip',
  'thigh',
  'knee',
  'shin',
  'ankle',
  'foot',
] as const;
export type SorePlace = (typeof SORE_PLACES)[number];
export const MOST_ANSWER = 200;

const step = z.int().check(z.gte(1), z.lte(5));
const painSchema = z.looseObject({ value: z.int().check(z.gte(0), z.lte(10)) });
const answerSchema = z.looseObject({ asked: z.string(), said: z.string().check(z.maxLength(MOST_ANSWER)) });

export type Arrival = {
  readonly items: Readonly<Partial<Record<ArrivalItem, number>>>;
  /** Told to be as usual, without numbers. */
  readonly usual: boolean;
  readonly sore: readonly SorePlace[];
  readonly pain?: number;
  /** The agreed question as it was asked that day, and what was said. */
  readonly answer?: { readonly asked: string; readonly said: string };
};

/** Returns how a client came in from a session's shown values, and what of it this version cannot read; what was not asked is not there. */
export function readArrival(values: Readonly<Record<string, unknown>>): {
  readonly arrival: Arrival;
  readonly unread: readonly Unread[];
} {
  const unread: Unread[] = [];
  const take = <T>(schema: z.ZodMiniType<T>, name: string): T | undefined => {
    const path = `arrival/${name}`;
    const value = values[path] ?? null;
    if (value === null) return undefined;
    const read = z.safeParse(schema, value);
    if (read.success) return read.data;
    unread.push({ type: 'from-a-newer-app', path, value });
    return undefined;
  };
  const items: Partial<Record<ArrivalItem, number>> = {};
  for (const item of ARRIVAL_ITEMS) {
    const told = take(step, item);
    if (told !== undefined) items[item] = told;
  }
  const pain = take(painSchema, 'pain');
  const answer = take(answerSchema, 'answer');
  const arrival = {
    items,
    usual: take(z.boolean(), 'usual') === true,
    sore: SORE_PLACES.filter((place) => take(z.boolean(), sorePath(place)) === true),
    ...(pain ? { pain: pain.value } : {}),
    ...(answer ? { answer: { asked: answer.asked, said: answer.said } } : {}),
  };
  return { arrival, unread };
}

/** Returns the path under `arrival/` that says whether a place is sore: no path holds a space (the door refuses one). */
export const sorePath = (place: SorePlace): string => `sore/${place.replace(' ', '-')}`;

/** Returns whether anything was told at all. */
export function wasAsked({ items, usual, sore, pain, answer }: Arrival): boolean {
  return usual || Object.keys(items).length > 0 || sore.length > 0 || pain !== undefined || answer !== undefined;
}
