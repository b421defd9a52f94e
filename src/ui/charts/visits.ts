import { addDays, type Day } from '../../domain/day';
import type { Exercise } from '../../domain/exercise';
import { byDay, dayOf, type Exposure, type Top } from '../../domain/exposure';
import { charted, type Measure, measureOf } from '../../domain/measure';
import type { LoadUnit } from '../../domain/units';

/** How an exercise is charted: by which measure, and loads in which unit. It stays the same whatever part of it is shown. */
export type Frame = { readonly measure: Measure; readonly unit: LoadUnit };

/** What stands for a side in one session, with the number it is charted at: none where it was not noted. */
export type Held = {
  readonly top: Top;
  readonly value: number | undefined;
  /** True where the number was typed in the other unit. */
  readonly converted: boolean;
};

/** One session of the exercise: a row of the table, and of the chart a point for every side that has a number. */
export type Visit = {
  readonly session: string;
  readonly at: number;
  readonly day: Day;
  readonly held: readonly Held[];
  readonly pain?: number;
};

/** How far back is shown: eight weeks, six months, or all there is. */
export const SPANS = ['weeks', 'months', 'all'] as const;
export type Span = (typeof SPANS)[number];
const SPAN_DAYS: Readonly<Record<Exclude<Span, 'all'>, number>> = { weeks: 56, months: 183 };

/** Returns how an exercise is charted, given all of its exposures: loads in the unit that was used last. */
export function frameOf(exercise: Exercise, exposures: readonly Exposure[]): Frame {
  const units = exposures.flatMap((one) => one.tops.flatMap((top) => unitOf(top) ?? []));
  return { measure: measureOf(exercise, exposures), unit: units.at(-1) ?? 'kg' };
}

/** Returns exposures as visits in the order of their days. */
export function visitsOf(exposures: readonly Exposure[], frame: Frame): readonly Visit[] {
  return byDay(exposures).map((one): Visit => {
    const { session, at, pain } = one;
    return {
      session,
      at,
      day: dayOf(one),
      held: one.tops.map((top) => heldOf(top, frame)),
      ...(pain ? { pain } : {}),
    };
  });
}

/** Returns the exposures of a span that ends today, or with the last one where the clock was set back since. */
export function within(exposures: readonly Exposure[], span: Span, today: Day): readonly Exposure[] {
  if (span === 'all') return exposures;
  const end = [today, ...exposures.map(dayOf)].sort().at(-1) ?? today;
  const from = addDays(end, -SPAN_DAYS[span]);
  return exposures.filter((one) => dayOf(one) >= from);
}

/** Returns the first day of exposures; undefined for none. */
export const dayOfFirst = (exposures: readonly Exposure[]): Day | undefined => exposures.map(dayOf).sort()[0];

/** Returns true for a visit with at least one number to chart. */
export const isCharted = (visit: Visit): boolean => visit.held.some(({ value }) => value !== undefined);

function heldOf(top: Top, { measure, unit }: Frame): Held {
  const inLoads = measure === 'load' || measure === 'added';
  return {
    top,
    value: charted(top, measure, unit),
    converted: inLoads && (unitOf(top) ?? unit) !== unit,
  };
}

const unitOf = ({ load, added, assist }: Top): LoadUnit | undefined => (load ?? added ?? assist)?.unit;
