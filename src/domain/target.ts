import * as z from 'zod/mini';
import { type Day, isDay } from './day';
import type { Exercise } from './exercise';
import { type NumberFault, parseNumber } from './number';
import { fail, ok, type Result } from './result';
import { LOAD_UNITS, type LoadUnit, MOST_LOAD } from './units';

/*
 * What a role asks for in numbers: an exercise as it is tested, from where it starts, to what, by when. A row of kind `role` holds them, under
 * `targets/<id>/`.
 */

export const TARGET_UNITS = [...LOAD_UNITS, 'reps', 'degrees'] as const;
export type TargetUnit = (typeof TARGET_UNITS)[number];
/** A number as it was typed. */
export type Amount = { readonly value: number; readonly unit: TargetUnit };

/** A load is asked for in so many reps at the most; with more, nobody can tell what could be lifted. */
export const TARGET_REPS = { min: 1, max: 12, step: 1 } as const;
/** The most that can be asked for, by unit. */
const MOST: Readonly<Record<TargetUnit, number>> = { ...MOST_LOAD, reps: 100, degrees: 360 };

const amount = z.looseObject({ value: z.number().check(z.gte(0)), unit: z.enum(TARGET_UNITS) });
const day = z.string().check(z.refine(isDay));
const schemas = {
  exercise: z.string().check(z.minLength(1)),
  goal: amount,
  start: amount,
  reps: z.int().check(z.gte(TARGET_REPS.min), z.lte(TARGET_REPS.max)),
  from: day,
  day,
} as const;

export type Target = {
  readonly id: string;
  readonly exercise: string;
  readonly goal: Amount;
  /** Of a load: in how many reps; of a load added to the body likewise. */
  readonly reps?: number;
  /** Where it starts, and when. */
  readonly start?: Amount;
  readonly from: Day;
  readonly day: Day;
};

/** Returns the targets that a role row's shown values tell of, by their ids; one without an exercise, goal or days is none. */
export function readTargets(values: Readonly<Record<string, unknown>>): readonly Target[] {
  const found = new Map<string, Record<string, unknown>>();
  for (const [path, value] of Object.entries(values)) {
    const [, id, name] = /^targets\/([^/]+)\/([^/]+)$/.exec(path) ?? [];
    if (id === undefined || name === undefined || value === null || !Object.hasOwn(schemas, name)) continue;
    const parsed = z.safeParse<z.ZodMiniType<unknown>>(schemas[name as keyof typeof schemas], value);
    if (parsed.success) found.set(id, { ...found.get(id), [name]: parsed.data });
  }
  return [...found]
    .map(([id, held]) => ({ ...held, id }) as Partial<Target> & { readonly id: string })
    .filter((one): one is Target => Boolean(one.exercise && one.goal && one.from && one.day))
    .sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** Returns what a target of an exercise can be counted in; undefined where what it holds cannot be followed to one. */
export function targetUnits({ holds }: Pick<Exercise, 'holds'>): readonly TargetUnit[] | undefined {
  switch (holds) {
    case 'load':
      return LOAD_UNITS;
    case 'body':
      return ['reps', ...LOAD_UNITS];
    case 'degrees':
      return ['degrees'];
    default:
      return undefined;
  }
}

/** Returns whether a target is a load: of a number of reps. */
export const isLoad = (unit: TargetUnit): unit is LoadUnit => unit === 'kg' || unit === 'lb';

/** A target as it is typed. */
export type TargetFields = {
  readonly goal: string;
  readonly unit: TargetUnit;
  readonly reps: string;
  readonly start: string;
  readonly day: string;
};
export type TargetFault =
  | NumberFault<'goal' | 'start' | 'target-reps'>
  | { readonly type: 'not-a-day'; readonly field: 'target-day'; readonly text: string }
  | { readonly type: 'empty' | 'past-day'; readonly field: 'target-day' }
  | { readonly type: 'not-above'; readonly field: 'goal' };

/** Returns the registers of a target as typed; the start may be left empty. Fails with the first fault; a day before tomorrow is one. */
export function parseTarget(
  fields: TargetFields,
  today: Day,
): Result<Pick<Target, 'goal' | 'reps' | 'start' | 'day' | 'from'>, TargetFault> {
  const { unit } = fields;
  const bounds = { min: unit === 'degrees' ? 0 : unit === 'reps' ? 1 : 0.5, max: MOST[unit] };
  const goal = parseNumber('goal', fields.goal, unit === 'reps' ? { ...bounds, step: 1 } : bounds, unit);
  if (!goal.ok) return goal;
  const reps = isLoad(unit) ? parseNumber('target-reps', fields.reps, TARGET_REPS, '') : undefined;
  if (reps && !reps.ok) return reps;
  const start =
    fields.start.trim() === '' ? undefined : parseNumber('start', fields.start, { min: 0, max: MOST[unit] }, unit);
  if (start && !start.ok) return start;
  if (start && start.value >= goal.value) return fail({ type: 'not-above', field: 'goal' });
  const by = fields.day.trim();
  if (by === '') return fail({ type: 'empty', field: 'target-day' });
  if (!isDay(by)) return fail({ type: 'not-a-day', field: 'target-day', text: by });
  if (by <= today) return fail({ type: 'past-day', field: 'target-day' });
  return ok({
    goal: { value: goal.value, unit },
    ...(reps ? { reps: reps.value } : {}),
    ...(start ? { start: { value: start.value, unit } } : {}),
    from: today,
    day: by,
  });
}
