import type { Day } from '../domain/day';
import type { Side } from '../domain/set';
import type { Target } from '../domain/target';
import { type End, endOf } from './ends';
import type { HitOf } from './findings';
import { bandAt, bandOn, type Followed, follow, judgedNow } from './follow';
import { barOf, engineTarget, neededOn, onBar, targetOf } from './onTime';
import type { ExerciseRecord } from './studio';
import { type Coverage, currentTracks, type TrackWay, tracksOf } from './track';
import type { TrendStatus } from './trend';
import type { Band } from './trendForecast';
import { fromUnits } from './trendModel';

/*
 * One exercise as it is drawn and written out: for each side the measured sessions, the line with its band, the fan to the day of a target and what
 * each day needs. All on the bar: kg for so many reps (without one's own body), reps, or degrees.
 */

/** What was known after one session. */
export type SeriesPoint = {
  readonly session: string;
  readonly day: Day;
  readonly status: TrendStatus;
  readonly pStall: number;
  /** What the session was measured as, on the bar; with `atLeast` it could have been more. Undefined where it is not measured by. */
  readonly measured?: number;
  readonly atLeast?: true;
  /** The level with its bands on the bar; undefined while too little was known. */
  readonly band?: Band;
};

export type SideSeries = {
  readonly side?: Side;
  readonly way: TrackWay;
  readonly variant?: string;
  /** Loads are of so many reps. */
  readonly reps: number;
  readonly end: End;
  readonly points: readonly SeriesPoint[];
  /** How the level is forecast from the last session on; empty while no status is told. */
  readonly fan: readonly { readonly day: Day; readonly band: Band }[];
  readonly target?: Target;
  /** The chance of the target on its day, 0–1. */
  readonly chance?: number;
  /** What a target's first day and its last need. */
  readonly needed: readonly { readonly day: Day; readonly value: number }[];
  readonly coverage: Coverage;
};

export type SeriesOf = {
  /** Draws bands of sessions on these days alone. */
  readonly from?: Day;
  readonly targets: readonly Target[];
  readonly today: Day;
  /** The days the fan is drawn at. */
  readonly fanDays: (end: End, target: Target | undefined) => readonly Day[];
};

/** Returns the series of each side of an exercise as it is done now; empty where the engine judges nothing of it. */
export function seriesOf(
  { exercise, exposures, body }: ExerciseRecord,
  { from, targets, today, fanDays }: SeriesOf,
): readonly SideSeries[] {
  const known = currentTracks(tracksOf(exercise, exposures, body)).flatMap((track) => {
    const followed = follow(track);
    const end = endOf(exercise.id, followed, body);
    return end ? [{ followed, end, target: targetOf(targets, end, today) }] : [];
  });
  const [first] = known;
  if (!first) return [];
  // both sides for as many reps, or they could not be set beside each other
  const reps = first.target?.reps ?? shownReps(first.end);
  return known.map(({ followed, end, target }) => sideSeries(followed, end, { from, target, reps, fanDays }));
}

/** Returns how the chance of a target is told by series: of the one that is drawn. */
export const hitIn =
  (series: readonly SideSeries[]): HitOf =>
  (target, end) =>
    series.find((one) => one.target?.id === target.id && one.end.exercise === end.exercise && one.side === end.side)
      ?.chance;

type Asked = {
  readonly reps: number;
  readonly from: Day | undefined;
  readonly target: Target | undefined;
  readonly fanDays: SeriesOf['fanDays'];
};

function sideSeries(followed: Followed, end: End, { from, target, reps, fanDays }: Asked): SideSeries {
  const { side, way, variant, coverage } = followed.track;
  const bar = barOf(end, reps);
  const read = (band: Band): Band => ({
    mean: onBar(band.mean, bar),
    lo80: onBar(band.lo80, bar),
    hi80: onBar(band.hi80, bar),
    lo95: onBar(band.lo95, bar),
    hi95: onBar(band.hi95, bar),
  });
  const chance = target && judgedNow(followed, engineTarget(target, end))?.pHit;
  return {
    ...(side ? { side } : {}),
    way,
    ...(variant === '' ? {} : { variant }),
    reps,
    end,
    points: followed.stops
      .filter(({ stop }) => from === undefined || stop.day >= from)
      .map((one): SeriesPoint => {
        const { session, day } = one.stop;
        const { seen, status, pStall } = one;
        const band = bandAt(one);
        return {
          session,
          day,
          status,
          pStall,
          ...(seen.use === 'none' ? {} : { measured: onBar(fromUnits(followed.track.kind, seen.y), bar) }),
          ...(seen.use === 'lower' ? { atLeast: true } : {}),
          ...(band ? { band: read(band) } : {}),
        };
      }),
    fan: fanDays(end, target).flatMap((day) => {
      const band = bandOn(followed, day);
      return band ? [{ day, band: read(band) }] : [];
    }),
    ...(target ? { target } : {}),
    ...(chance === undefined ? {} : { chance }),
    needed: target
      ? [target.from, target.day].flatMap((day) => {
          const value = neededOn(target, day);
          return value === undefined ? [] : [{ day, value }];
        })
      : [],
    coverage,
  };
}

/** Loads are shown for the reps that are usual, and as of one rep where sets are heavy. */
const HEAVY_REPS = 3;
const MOST_SHOWN_REPS = 12;

/** Returns for how many reps the loads of an end are shown: the usual ones; 1, an estimated 1RM, where sets have three or fewer. */
export function shownReps({ reps = 1 }: Pick<End, 'reps'>): number {
  return reps <= HEAVY_REPS ? 1 : Math.min(MOST_SHOWN_REPS, reps);
}
