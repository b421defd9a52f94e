import * as z from 'zod/mini';
import { fail, ok, type Result } from './result';

/*
 * A file of histories to be judged, "capacity-histories/1": what was held in each session of one lift, rep count or range, and what is to be reached.
 */

const day = z.number().check(z.gte(0));
const held = z.number().check(z.gte(0));
// nothing else of a set is handed on: the engine knows more than a file may say
const set = z.object({ load: held, reps: held, rir: held });
const exposure = z.union([
  z.looseObject({ day, deload: z.boolean(), sets: z.array(set) }),
  z.looseObject({ day, deload: z.boolean(), value: z.number() }),
]);
const file = z.looseObject({
  histories: z.array(
    z.looseObject({
      id: z.string(),
      kind: z.enum(['e1rm', 'reps', 'deg']),
      target: z.optional(z.looseObject({ value: z.number(), day: z.number() })),
      exposures: z.array(exposure),
    }),
  ),
});

/** One history: loads in kg, `value` in degrees, days counted from 0. */
export type History = z.infer<typeof file>['histories'][number];

export type HistoriesFault = { readonly type: 'not-histories'; readonly what: string; readonly path: string };

/** Returns the histories of a file's JSON; fails with what is wrong, and where, for anything else. */
export function parseHistories(json: unknown): Result<readonly History[], HistoriesFault> {
  const read = z.safeParse(file, json);
  if (read.success) return ok(read.data.histories);
  const [first] = read.error.issues;
  return fail({ type: 'not-histories', what: first?.message ?? '', path: first?.path.join('.') ?? '' });
}
