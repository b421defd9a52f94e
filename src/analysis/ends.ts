import { addDays, type Day, daysBetween } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import type { Exposure } from '../domain/exposure';
import type { Side } from '../domain/set';
import type { LoadUnit } from '../domain/units';
import { type Followed, type FollowedStop, follow, judgedNow, stallSince } from './follow';
import { type Body, type Coverage, currentTracks, massNotedFor, type TrackWay, tracksOf } from './track';
import type { TrendStatus } from './trend';
import { SAID } from './trendModel';

/*
 * How it stands with an exercise after its last session: all that findings are made of, small enough to be kept for every exercise of a client.
 */

/** One side of one exercise as it stands. Levels are in kg (of one rep), reps or degrees; slopes about one per cent a week, or degrees. */
export type End = {
  readonly exercise: string;
  readonly side?: Side;
  readonly way: TrackWay;
  readonly variant?: string;
  /** The last session, and its day. */
  readonly session: string;
  readonly day: Day;
  /** Sessions that were measured by, and the days they span. */
  readonly used: number;
  readonly span: number;
  readonly status: TrendStatus;
  readonly pStall: number;
  readonly slope: number;
  readonly slopeSd: number;
  readonly level?: number;
  readonly lo80?: number;
  readonly hi80?: number;
  /** Where a stall may be: the session it lasts since. */
  readonly since?: { readonly session: string; readonly day: Day };
  /** The sessions of a stall, else the latest; the last 24 at the most. */
  readonly evidence: readonly string[];
  /** In how many of these what was left was counted, and how many were measured by. */
  readonly told: number;
  readonly measured: number;
  /** The last day on which it was called stalled. */
  readonly stalledOn?: Day;
  /** The first session after a long break, while what it did is not worn off. */
  readonly returned?: Day;
  /** Sessions a week, lately. */
  readonly perWeek: number;
  /** How many reps a set has these days. */
  readonly reps?: number;
  /** The unit its loads were last logged in. */
  readonly unit: LoadUnit;
  /** Kg of one's own body that is moved, where loads are added to it. */
  readonly own?: number;
  /** The day the body mass for it was noted for. */
  readonly massFrom?: Day;
  readonly coverage: Coverage;
};

/** Days without the exercise that make a break, and days for which the first sessions after it are not called a stall (STATS.md §2c). */
const BREAK = { days: 14, muted: 21 } as const;
/** Sessions by which the pace is told, and whose reps are usual. */
const LATELY = 8;

/** Returns how each side of an exercise stands; empty where the engine judges nothing of it. */
export function endsOf(
  exercise: Pick<Exercise, 'id' | 'holds'>,
  exposures: readonly Exposure[],
  body: Body,
): readonly End[] {
  return currentTracks(tracksOf(exercise, exposures, body)).flatMap(
    (track) => endOf(exercise.id, follow(track), body) ?? [],
  );
}

/** Returns how it stands after the last session of a track; undefined for none. */
export function endOf(exercise: string, followed: Followed, body: Body): End | undefined {
  const { track, stops } = followed;
  const last = stops.at(-1);
  const judged = judgedNow(followed);
  if (!last || !judged) return undefined;
  const { side, way, variant, coverage } = track;
  const { session, day } = last.stop;
  const { level, lo80, hi80, status, pStall, slopePerWeek, slopeSd } = judged;
  const isDoubted = status === 'stalled' || status === 'watch';
  const since = isDoubted ? stallSince(followed) : undefined;
  const evidence = evidenceOf(followed, since?.session);
  const stalledOn = stops.findLast((one) => one.status === 'stalled')?.stop.day;
  const returned = returnedOn(stops.map(({ stop }) => stop.day));
  const reps = way === 'degrees' ? undefined : usualReps(followed);
  const mass = way === 'system' ? massNotedFor(body, day) : undefined;
  return {
    exercise,
    ...(side ? { side } : {}),
    way,
    ...(variant === '' ? {} : { variant }),
    session,
    day,
    used: last.state?.used ?? 0,
    span: last.state ? last.state.lastDay - last.state.firstDay : 0,
    status,
    pStall,
    slope: slopePerWeek,
    slopeSd,
    ...(level === undefined ? {} : { level }),
    ...(lo80 === undefined ? {} : { lo80 }),
    ...(hi80 === undefined ? {} : { hi80 }),
    ...(since ? { since: { session: since.session, day: since.day } } : {}),
    evidence: evidence.map(({ stop }) => stop.session),
    told: evidence.filter(({ stop }) => stop.isTold).length,
    measured: evidence.filter(({ seen }) => seen.use === 'measured').length,
    ...(stalledOn === undefined ? {} : { stalledOn }),
    ...(returned === undefined ? {} : { returned }),
    perWeek: paceOf(stops.map(({ stop }) => stop.day)),
    ...(reps === undefined ? {} : { reps }),
    unit: unitIn(followed),
    ...(mass && body.share !== undefined ? { own: mass.kg * body.share, massFrom: mass.day } : {}),
    coverage,
  };
}

/** The sessions a finding rests on: those of the stall, else the least that a status needs. */
function evidenceOf({ stops }: Followed, since: string | undefined): readonly FollowedStop[] {
  const from = since === undefined ? -1 : stops.findIndex(({ stop }) => stop.session === since);
  const own = from >= 0 ? stops.slice(from) : stops.slice(-SAID.fewest);
  return own.slice(-MOST_EVIDENCE);
}

const MOST_EVIDENCE = 24;

/** The day of the first session after the last break, while it still tells. */
function returnedOn(days: readonly Day[]): Day | undefined {
  const last = days.at(-1);
  for (let n = days.length - 1; n > 0; n -= 1) {
    const [before, day] = [days[n - 1], days[n]];
    if (before === undefined || day === undefined || last === undefined) return undefined;
    if (daysBetween(day, last) > BREAK.muted) return undefined;
    if (daysBetween(before, day) > BREAK.days) return day;
  }
  return undefined;
}

/** Sessions a week over the latest; 0 for one session. */
function paceOf(days: readonly Day[]): number {
  const latest = days.slice(-LATELY);
  const [first] = latest;
  const last = latest.at(-1);
  if (first === undefined || last === undefined) return 0;
  return latest.length < 2 ? 0 : ((latest.length - 1) * 7) / Math.max(1, daysBetween(first, last));
}

/** Kg before any load was logged. */
const unitIn = ({ stops }: Followed): LoadUnit =>
  stops.flatMap(({ stop }) => stop.exposure.tops.flatMap(({ load, added }) => (load ?? added)?.unit ?? [])).at(-1) ??
  'kg';

/** The number of reps that most of the latest sets had, of the last session where they are as many. */
function usualReps({ track, stops }: Followed): number | undefined {
  const counts = new Map<number, number>();
  for (const { stop } of stops.slice(-LATELY)) {
    for (const { side, reps } of stop.exposure.tried ?? []) {
      if (side !== track.side || reps === undefined) continue;
      const count = (counts.get(reps) ?? 0) + 1;
      // taken out first, so that what was done last stands last
      counts.delete(reps);
      counts.set(reps, count);
    }
  }
  let usual: [reps: number, count: number] | undefined;
  for (const one of counts) if (!usual || one[1] >= usual[1]) usual = one;
  return usual?.[0];
}

/** Returns the day at which a change can be judged: two weeks after the last session. */
export const retestDay = ({ day }: Pick<End, 'day'>): Day => addDays(day, RETEST_DAYS);

const RETEST_DAYS = 14;
