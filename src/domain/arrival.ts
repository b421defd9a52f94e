import * as z from 'zod/mini';

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

/** Returns how a client came in from a session's shown values; what was not asked is not there. */
export function readArrival(values: Readonly<Record<string, unknown>>): Arrival {
  const items: Partial<Record<ArrivalItem, number>> = {};
  for (const item of ARRIVAL_ITEMS) {
    const told = z.safeParse(step, values[`arrival/${item}`]);
    if (told.success) items[item] = told.data;
  }
  const pain = z.safeParse(painSchema, values['arrival/pain']);
  const answer = z.safeParse(answerSchema, values['arrival/answer']);
  return {
    items,
    usual: values['arrival/usual'] === true,
    sore: SORE_PLACES.filter((place) => values[`arrival/sore/${place}`] === true),
    ...(pain.success ? { pain: pain.data.value } : {}),
    ...(answer.success ? { answer: { asked: answer.data.asked, said: answer.data.said } } : {}),
  };
}

/** Returns whether anything was told at all. */
export function wasAsked({ items, usual, sore, pain, answer }: Arrival): boolean {
  return usual || Object.keys(items).length > 0 || sore.length > 0 || pain !== undefined || answer !== undefined;
}
