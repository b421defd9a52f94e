import type { Day } from '../domain/day';
import type { SessionRecord } from '../domain/session';
import { SIDES, type Side } from '../domain/set';
import { meanOf, sampleSd, sumOf } from './stats/spread';
import { inOrder } from './weeks';

/*
 * Whether a measure has changed by more than measuring it twice can differ: the typical error of a test (Hopkins 2000), and the smallest change that is
 * real in 95 of 100 cases, MDC95 = 1.96 × √2 × the standard error of measurement (standard, from memory). Only the client's own change is told; no measure
 * of a body is graded, aimed at or set against another's.
 */

/** Returns the typical error of a test, in its unit, from pairs of trials of the same people: SD of the differences ÷ √2; undefined below two pairs. */
export function typicalError(pairs: readonly (readonly [number, number])[]): number | undefined {
  const sd = sampleSd(pairs.map(([one, other]) => other - one));
  return finite(sd === undefined ? undefined : sd / Math.SQRT2);
}

/**
 * Returns the technical error of measurement (√(Σd² ÷ 2n), in the unit) and as % of the mean of all readings, from pairs of readings; undefined for none.
 * Twenty subjects or more make a formal one.
 */
export function technicalError(
  pairs: readonly (readonly [number, number])[],
): { readonly error: number; readonly percent?: number } | undefined {
  const mean = meanOf(pairs.flat());
  const error = finite(Math.sqrt(sumOf(pairs.map(([one, other]) => (other - one) ** 2)) / (2 * pairs.length)));
  if (mean === undefined || error === undefined) return undefined;
  const percent = mean > 0 ? finite((100 * error) / mean) : undefined;
  return { error, ...(percent === undefined ? {} : { percent }) };
}

/** Returns the standard error of measurement from the SD between people and the reliability (ICC, 0–1); undefined out of these. */
export function standardError(sd: number, icc: number): number | undefined {
  return sd >= 0 && icc >= 0 && icc <= 1 ? finite(sd * Math.sqrt(1 - icc)) : undefined;
}

/** Returns the smallest real change (MDC95) for a standard or typical error, in the same unit; undefined for one below 0. */
export function smallestRealChange(error: number): number | undefined {
  return error >= 0 ? finite(1.96 * Math.SQRT2 * error) : undefined;
}

/** Returns half of a client's own day-to-day CV in %, the smallest change worth while where there is no squad (from memory); undefined without a CV. */
export function smallestWorthwhile(values: readonly number[]): number | undefined {
  const [mean, sd] = [meanOf(values), sampleSd(values)];
  return mean === undefined || sd === undefined || !(mean > 0) ? undefined : finite((50 * sd) / mean);
}

/** What was measured on a day, all in one unit. The records hold no body measures yet: they are handed in. */
export type Measured = { readonly day: Day; readonly value: number };

export type Change = {
  readonly type: 'real' | 'within-error';
  readonly first: Measured;
  readonly last: Measured;
  /** Last less first. */
  readonly by: number;
  readonly mdc: number;
};

/** Returns the change from the first to the last day, real only beyond the smallest real change; undefined with fewer than two days. */
export function realChange(measured: readonly Measured[], mdc: number): Change | undefined {
  const told = measured
    .filter(({ value }) => Number.isFinite(value))
    .toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.value - b.value));
  const [first, last] = [told[0], told.at(-1)];
  if (!first || !last || first.day === last.day || !(mdc >= 0)) return undefined;
  const by = last.value - first.value;
  if (!Number.isFinite(by) || !Number.isFinite(mdc)) return undefined;
  // as far as the error but for the last digit is within it
  return { type: Math.abs(by) > mdc * (1 + 1e-12) ? 'real' : 'within-error', first, last, by, mdc };
}

/** Returns the smallest real change that is published for an exercise's degrees; undefined for all but upper-back rotation. */
export const knownRealChange = (exercise: string): number | undefined =>
  // 5.6° for one tester on two days (Johnson 2012), rounded up
  exercise === 'lib-upper-back-rotation' ? 6 : undefined;

export type RangeChange = Change & {
  readonly side?: Side /** Trials of the first and the last day. */;
  readonly trials: readonly [number, number];
};

/**
 * Returns how the degrees of an exercise have changed on each side (left, right, both) from the first day to the last, each the mean of the day's trials
 * (three are asked for), warm-ups left out. Without an error, handed in or known, nothing is told.
 */
export function rangeChange(
  sessions: readonly SessionRecord[],
  exercise: string,
  mdc: number | undefined = knownRealChange(exercise),
): readonly RangeChange[] {
  if (mdc === undefined) return [];
  const sets = inOrder(sessions).flatMap(({ session, day }) =>
    session.sets
      .filter((set) => set.exercise === exercise && set.kind !== 'warm-up' && set.unread.length === 0)
      .flatMap(({ degrees, side }) => (degrees === undefined ? [] : [{ day, side, degrees }])),
  );
  return [...SIDES, undefined].flatMap((side) => {
    const own = sets.filter((set) => set.side === side);
    const on = (day: Day): readonly number[] => own.flatMap((set) => (set.day === day ? set.degrees : []));
    const days = [...new Set(own.map(({ day }) => day))];
    const change = realChange(
      days.map((day) => ({ day, value: meanOf(on(day)) ?? Number.NaN })),
      mdc,
    );
    if (!change) return [];
    return [
      {
        ...change,
        ...(side ? { side } : {}),
        trials: [on(change.first.day).length, on(change.last.day).length] as const,
      },
    ];
  });
}

/**
 * Returns what is reported of repeated readings of a girth or fold: the mean of two that agree within a share of it (0.01 for girths, 0.05 for folds; from
 * memory, after a common protocol), the median of three, or that a third is asked for. Undefined for none, and below 0.
 */
export function readingOf(
  readings: readonly number[],
  agree = 0.01,
): { readonly value: number; readonly asksThird: boolean } | undefined {
  const [first, second, third] = readings;
  if (first === undefined || !readings.every((one) => one > 0 && one < 1e6)) return undefined;
  if (second === undefined) return { value: first, asksThird: false };
  if (third !== undefined) return { value: [first, second, third].sort((a, b) => a - b)[1] ?? first, asksThird: false };
  const value = (first + second) / 2;
  return { value, asksThird: Math.abs(first - second) > agree * value * (1 + 1e-12) };
}

/** Returns one girth over another (shoulders to waist, shoulders to hip), as a number that is kept and never graded; undefined unless both are above 0. */
export function girthRatio(over: number, under: number): number | undefined {
  return over > 0 && under > 0 ? finite(over / under) : undefined;
}

const finite = (value: number | undefined): number | undefined =>
  value !== undefined && Number.isFinite(value) ? value : undefined;
