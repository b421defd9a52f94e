import type { Day } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import type { SessionRecord } from '../domain/session';
import { type SetRecord, SIDES, type Side } from '../domain/set';
import { triedIn, variantOf } from '../domain/tried';
import { oneRepMax } from './oneRepMax';
import { knownRealChange, smallestRealChange, typicalError } from './realChange';
import { meanOf } from './stats/spread';
import { inOrder } from './weeks';

/*
 * Left and right of one exercise, both in their own units and each against its own best: a difference in per cent alone hides that both have lost
 * (Wellsandt 2017). The difference is 100 − 100 × the lesser ÷ the greater (Bishop 2016, 2018; the formula from memory). It is only told where it is beyond
 * the test's own error and lies the same way on two of the last three dates. No limit of 10 or 15 % is used: none is proven, and no injury is foretold.
 */

export type SideUnit = 'kg' | 'reps' | 'seconds' | 'degrees';

/** What two trials of the same side are apart by chance: as a share of the value (a CV), or in the unit of the test. */
export type TestError = { readonly cv: number } | { readonly units: number };

/** The median CV of 1RM retests in 32 studies (Grgic 2020). */
const ONCE_CV = 0.042;

/**
 * Returns the error of an exercise's test where the client has none of their own: for kg that of a 1RM, for degrees what is published of that very test.
 * Undefined for seconds, reps and other degrees: none was found.
 */
export function knownError(exercise: string, unit: SideUnit): TestError | undefined {
  if (unit === 'kg') return { cv: ONCE_CV };
  const degrees = unit === 'degrees' ? knownRealChange(exercise) : undefined;
  return degrees === undefined ? undefined : { units: degrees };
}

/** The error a gap is set against, and whether it is a published one or the client's own. */
export type SidesError = TestError & { readonly from: 'published' | 'own' };

/** Pairs of trials that the own error of a test is told by. */
export const FEWEST_PAIRS = 10;

/**
 * Returns what two trials of one side on one day are apart by at the most, in 95 of 100 cases: from the first two trials of each side and date (their
 * typical error, Hopkins 2000), and how many such pairs there are. Without an error below ten pairs.
 */
export function ownError(
  sessions: readonly SessionRecord[],
  exercise: Pick<Exercise, 'id' | 'holds'>,
): { readonly pairs: number; readonly error?: TestError } {
  const unit = UNITS[exercise.holds];
  const pairs = !unit
    ? []
    : inOrder(sessions).flatMap(({ session }) =>
        SIDES.flatMap((side): (readonly [number, number])[] => {
          const [one, other] = trialsOf(session, exercise, unit, side);
          return one === undefined || other === undefined ? [] : [[one, other]];
        }),
      );
  const typical = pairs.length < FEWEST_PAIRS ? undefined : typicalError(pairs);
  const units = typical === undefined ? undefined : smallestRealChange(typical);
  // trials that are all alike were copied, and tell of no error
  return { pairs: pairs.length, ...(units === undefined || units === 0 ? {} : { error: { units } }) };
}

export type SideValue = { readonly value: number; readonly trials: number };

export type SideDate = {
  readonly day: Day;
  readonly session: string;
  readonly left: SideValue;
  readonly right: SideValue;
  /** Right less left, in the unit. */
  readonly apart: number;
  /** 0–100; absent where the values are no quantities from 0 up. */
  readonly percent?: number;
  /** The lesser side; absent where both are equal. */
  readonly weaker?: Side;
  readonly beyond: boolean;
};

export type OwnBest = {
  readonly value: number;
  readonly day: Day /** The last date's value as a share of it. */;
  readonly share?: number;
};

export type Sides = {
  readonly unit: SideUnit;
  /** Dates with two or more trials a side, the oldest first. */
  readonly dates: readonly SideDate[];
  readonly best: { readonly left?: OwnBest; readonly right?: OwnBest };
  readonly verdict:
    | { readonly type: 'repeated'; readonly weaker: Side; readonly times: number; readonly of: number }
    | { readonly type: 'none' | 'not-repeated' }
    | { readonly type: 'too-few-dates'; readonly has: number; readonly needs: number }
    | { readonly type: 'error-unknown' };
};

const TRIALS = 2;
const DATES = 3;
const TIMES = 2;
/** What is as far apart as the error but for the last digit is not beyond it. */
const TINY = 1e-9;

/**
 * Returns how the sides of an exercise compare, given sessions in any order: what could be lifted once (the published estimate, where reps left were
 * told), reps done and left, seconds held, or degrees; each date's mean. Undefined where it holds nothing of these. `error` is the test's own.
 */
export function sides(
  sessions: readonly SessionRecord[],
  exercise: Pick<Exercise, 'id' | 'holds'>,
  error?: TestError,
): Sides | undefined {
  const unit = UNITS[exercise.holds];
  if (!unit) return undefined;
  const known = error ?? knownError(exercise.id, unit);
  const dates: SideDate[] = [];
  const best: { left?: OwnBest; right?: OwnBest } = {};
  for (const { session, day } of inOrder(sessions)) {
    const [left, right] = SIDES.map((side) => sideValue(session, exercise, unit, side));
    for (const [side, one] of [
      ['left', left],
      ['right', right],
    ] as const) {
      if (one && !(best[side] && best[side].value >= one.value)) best[side] = { value: one.value, day };
    }
    if (!left || !right || left.trials < TRIALS || right.trials < TRIALS) continue;
    const percent = sideDifference(left.value, right.value);
    const apart = right.value - left.value;
    dates.push({
      day,
      session: session.id,
      left,
      right,
      apart,
      ...(percent === undefined ? {} : { percent }),
      ...(apart === 0 ? {} : { weaker: apart > 0 ? 'left' : 'right' }),
      beyond: known !== undefined && isBeyond(left.value, right.value, known),
    });
  }
  const last = dates.at(-1);
  for (const side of SIDES) {
    const own = best[side];
    if (own && last && own.value > 0) best[side] = { ...own, share: last[side].value / own.value };
  }
  return { unit, dates, best, verdict: known ? gapVerdict(dates) : { type: 'error-unknown' } };
}

/** Returns what the sides of an exercise are told in; undefined where it holds none of these. */
export const sideUnit = ({ holds }: Pick<Exercise, 'holds'>): SideUnit | undefined => UNITS[holds];

const UNITS: { readonly [H in Exercise['holds']]?: SideUnit } = {
  load: 'kg',
  body: 'reps',
  time: 'seconds',
  degrees: 'degrees',
};

/** The mean of a side's trials in a session. */
function sideValue(
  session: SessionRecord,
  exercise: Pick<Exercise, 'id'>,
  unit: SideUnit,
  side: Side,
): SideValue | undefined {
  const trials = trialsOf(session, exercise, unit, side);
  const value = meanOf(trials);
  return value === undefined ? undefined : { value, trials: trials.length };
}

/** A side's trials in a session: its tests where there are any, else its working sets; all of the variant done last. */
function trialsOf(session: SessionRecord, { id }: Pick<Exercise, 'id'>, unit: SideUnit, side: Side): readonly number[] {
  const all = session.sets.filter(
    (set) => set.exercise === id && set.side && set.kind !== 'warm-up' && set.unread.length === 0,
  );
  const tests = all.filter(({ kind }) => kind === 'test');
  const asked = tests.length > 0 ? tests : all;
  // the variant that both sides did last
  const variants = SIDES.map((one) => new Set(asked.filter((set) => set.side === one).map(variantOf)));
  const shared = asked.filter((set) => variants.every((of) => of.has(variantOf(set)))).at(-1) ?? asked.at(-1);
  if (!shared) return [];
  const own = asked.filter((set) => set.side === side && variantOf(set) === variantOf(shared));
  return own.flatMap((set) => trialOf(set, unit) ?? []);
}

function trialOf(set: SetRecord, unit: SideUnit): number | undefined {
  if (unit === 'seconds') return set.seconds;
  const [tried] = triedIn([set]).tried;
  if (!tried) return undefined;
  const { kg, reps, left, least, degrees } = tried;
  if (unit === 'degrees') return degrees;
  if (reps === undefined || left === undefined || least) return undefined;
  if (unit === 'reps') return kg === undefined ? reps + left : undefined;
  const once = kg === undefined ? undefined : oneRepMax({ load: kg, reps, left });
  return once?.ok ? once.value.value : undefined;
}

function isBeyond(left: number, right: number, error: TestError): boolean {
  if ('units' in error) return Math.abs(left - right) > error.units + TINY;
  const percent = sideDifference(left, right);
  return percent !== undefined && percent > 100 * error.cv + TINY;
}

/** Returns what dates, the oldest first, tell of a gap whose error is known: repeated where it lies the same way on two of the last three. */
export function gapVerdict(dates: readonly SideDate[]): Sides['verdict'] {
  const last = dates.slice(-DATES);
  if (last.length < TIMES) return { type: 'too-few-dates', has: last.length, needs: TIMES };
  const beyond = last.filter((one) => one.beyond);
  for (const side of SIDES) {
    const times = beyond.filter(({ weaker }) => weaker === side).length;
    if (times >= TIMES) return { type: 'repeated', weaker: side, times, of: last.length };
  }
  return { type: beyond.length === 0 ? 'none' : 'not-repeated' };
}

/** Returns how far the lesser side lies below the greater, 0–100 %; undefined where both are 0, either is below, or one is missing. */
export function sideDifference(left: number | undefined, right: number | undefined): number | undefined {
  if (left === undefined || right === undefined || !(left >= 0 && right >= 0)) return undefined;
  const most = Math.max(left, right);
  return most > 0 && Number.isFinite(most) ? 100 - (100 * Math.min(left, right)) / most : undefined;
}

/** Returns the limb symmetry index in %: the side in question against the other one; undefined where that is not above 0. */
export function limbIndex(inQuestion: number, other: number): number | undefined {
  const index = (100 * inQuestion) / other;
  return other > 0 && inQuestion >= 0 && Number.isFinite(index) ? index : undefined;
}

/** Returns, of a test in which both limbs work at once, how far the stronger one's part is above the other's, as % of the total; undefined without one. */
export function bilateralDifference(left: number, right: number): number | undefined {
  const share = (100 * Math.abs(left - right)) / (left + right);
  return left >= 0 && right >= 0 && Number.isFinite(share) ? share : undefined;
}
