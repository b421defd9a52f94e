import * as z from 'zod/mini';
import { setSchemas } from './set';
import type { SetUp } from './setUp';

/**
 * What a set of the exercise holds: a load, one's own body mass, a band, a pin of a stack, time held, a carry (load, distance, time),
 * landings, tries (throws, strikes, skills), degrees of a range, or nothing but that it was done.
 */
export const HOLDS = ['load', 'body', 'band', 'pin', 'time', 'carry', 'landings', 'tries', 'degrees', 'tick'] as const;
export type Holds = (typeof HOLDS)[number];

/** Whether both sides work at once or each side has sets of its own. */
export const SIDE_RULES = ['both', 'each'] as const;
export type SideRule = (typeof SIDE_RULES)[number];

/** What it trains, coarsely: what takes another's place is of the same pattern. */
export const PATTERNS = [
  'squat',
  'hinge',
  'push',
  'pull',
  'carry',
  'landing',
  'throw',
  'skill',
  'trunk',
  'range',
] as const;
export type Pattern = (typeof PATTERNS)[number];

export type Exercise = {
  readonly id: string;
  readonly name: string;
  readonly pattern?: Pattern;
  /** The id of an exercise that asks less of the same kind. */
  readonly easier?: string;
  readonly holds: Holds;
  readonly sides: SideRule;
  /** True where the load is one of a pair, one in each hand: both count. */
  readonly perHand: boolean;
  /** The usual smallest change of what it holds, in the load's own unit, seconds or metres. */
  readonly step: number;
  /** Rest after a set, seconds, until the trainer says otherwise. */
  readonly rest: number;
  /** How it is usually set up, until the client has a set-up of their own for it. */
  readonly setUp?: SetUp;
};

export const MOST_NAME = 60;

const nameSchema = z.string().check(z.minLength(1), z.maxLength(MOST_NAME));

/** The registers of an exercise row, each checked by itself (unknown ones stay untouched in the row). */
export const exerciseSchemas = {
  name: nameSchema,
  pattern: z.enum(PATTERNS),
  easier: z.string(),
  holds: z.enum(HOLDS),
  sides: z.enum(SIDE_RULES),
  perHand: z.boolean(),
  step: z.number().check(z.gt(0), z.lte(60)),
  rest: z.int().check(z.gte(0), z.lte(1800)),
  setUp: z.looseObject({
    setUp: z.optional(setSchemas.setUp),
    tempo: z.optional(setSchemas.tempo),
    height: z.optional(setSchemas.height),
    pause: z.optional(setSchemas.pause),
  }),
} as const;

/** Returns how an exercise is set up: as is remembered for the client (be that nothing at all), else as it usually is. */
export const setUpFor = (exercise: Exercise, own: SetUp | undefined): SetUp => own ?? exercise.setUp ?? {};

const DEFAULTS = { perHand: false, step: 2.5, rest: 120, sides: 'both' } as const;

/**
 * Returns the exercise that a row's shown values tell of, laid over `shipped` where the row is an overlay of a shipped exercise;
 * undefined where it has no name or nothing it holds (a row undone, or not readable by this version).
 */
export function readExercise(
  id: string,
  values: Readonly<Record<string, unknown>>,
  shipped?: Exercise,
): Exercise | undefined {
  const read = { ...DEFAULTS, ...shipped, id } as { -readonly [K in keyof Exercise]?: Exercise[K] };
  for (const field of Object.keys(exerciseSchemas) as (keyof typeof exerciseSchemas)[]) {
    const parsed = z.safeParse(exerciseSchemas[field], values[field]);
    if (parsed.success) Object.assign(read, { [field]: parsed.data });
  }
  return read.name === undefined || read.holds === undefined ? undefined : (read as Exercise);
}
