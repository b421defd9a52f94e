import * as z from 'zod/mini';
import { instantSchema, type Unread } from './set';

/**
 * Signs at which training stops, and a physician or emergency help is asked as apt (pre-participation and exercise-stop lists of the
 * ACSM, in our own words; METHODS §14). They are not graded.
 */
export const STOP_SIGNS = [
  'chest',
  'breath',
  'faint',
  'palpitations',
  'headache',
  'joint',
  'numb',
  'bladder',
  'confusion',
  'urine',
] as const;
export type StopSign = (typeof STOP_SIGNS)[number];

/** A stop sign that was seen, and in which exercise. */
export type SignSeen = {
  readonly id: string;
  readonly sign: StopSign;
  readonly exercise?: string;
  readonly at: number;
};

const signSchema = z.looseObject({ sign: z.enum(STOP_SIGNS), exercise: z.optional(z.string()), at: instantSchema });

/** Returns the stop signs noted in a session's shown values, in the order they were seen, and what of them this version cannot read. */
export function readSigns(values: Readonly<Record<string, unknown>>): {
  readonly signs: readonly SignSeen[];
  readonly unread: readonly Unread[];
} {
  const signs: SignSeen[] = [];
  const unread: Unread[] = [];
  for (const [path, value] of Object.entries(values)) {
    const id = /^signs\/([^/]+)$/.exec(path)?.[1];
    if (id === undefined || value === null) continue;
    const read = z.safeParse(signSchema, value);
    if (read.success) {
      const { sign, exercise, at } = read.data;
      signs.push({ id, sign, at: at.at, ...(exercise === undefined ? {} : { exercise }) });
    } else unread.push({ type: 'from-a-newer-app', path, value });
  }
  return { signs: signs.sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1)), unread };
}
