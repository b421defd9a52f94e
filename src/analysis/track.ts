import { nearestNoted } from '../domain/bodyMass';
import { type Day, daysBetween } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import { byDay, dayOf, type Exposure } from '../domain/exposure';
import type { Side } from '../domain/set';
import type { Tried } from '../domain/tried';
import { MOST_REPS } from './repMax';
import type { TrendKind } from './trendModel';
import type { TrendExposure, TrendSet } from './trendObserve';

/*
 * From sessions of one exercise to what the trend engine judges: one track for each side, way of measuring and variant, so that nothing is set
 * against what it cannot be compared with. What a track does not take is counted, never guessed.
 */

/** What is known of the client's own body, for exercises that move it: the share of it that is moved, and masses in kg by day. */
export type Body = { readonly share?: number; readonly masses: readonly { readonly day: Day; readonly kg: number }[] };

export const NO_BODY: Body = { masses: [] };

/** How a track measures: kg held, kg of one's own body and what is added to it, reps, or degrees. */
export type TrackWay = 'held' | 'system' | 'reps' | 'degrees';

/** One session of a track. */
export type TrackStop = {
  readonly session: string;
  readonly day: Day;
  readonly exposure: Exposure;
  readonly judged: TrendExposure;
  /** Whether what was left was counted in its last set, or in half of its sets; degrees need no counting. */
  readonly isTold: boolean;
};

export type Track = {
  readonly side: Side | undefined;
  readonly way: TrackWay;
  readonly kind: TrendKind;
  /** Height, tempo and pause, where one was noted. */
  readonly variant: string;
  readonly stops: readonly TrackStop[];
  readonly coverage: Coverage;
};

/** What stands behind a track, and what does not. */
export type Coverage = {
  /** Sets it is judged by, and how many of them the effort was told of. */
  readonly sets: number;
  readonly told: number;
  /** Sets of more reps than a 1RM can be told by. */
  readonly tooMany: number;
  /** Sets with load added to the body of a client whose body mass is not noted. */
  readonly noMass: number;
};

/** Reps that are taken to be left where nobody told, until enough was told to know what is usual here; and how many told ones that weighs. */
const USUAL_LEFT = { reps: 2, weight: 3 } as const;
/** How far what was left may lie from what is usual, reps (our own choice). */
const UNTOLD_SD = 1.5;
/** Days are counted from here. */
const ORIGIN: Day = '2000-01-01';

/** Returns a day as the engine counts it. */
export function dayNumber(day: Day): number {
  const known = dayNumbers.get(day) ?? daysBetween(ORIGIN, day);
  dayNumbers.set(day, known);
  return known;
}

/** Counting days by the calendar is most of what a long history would cost; there are but so many. */
const dayNumbers = new Map<Day, number>();

/**
 * Returns the tracks of an exercise, given its exposures: those whose last session is the latest come first. Empty where what it holds is no
 * capacity that the engine knows (seconds, bands, pins, landings, tries, carries).
 */
export function tracksOf(
  exercise: Pick<Exercise, 'holds'>,
  exposures: readonly Exposure[],
  body: Body,
): readonly Track[] {
  const tracks = new Map<string, Building>();
  for (const exposure of byDay(exposures)) {
    const sides = new Set((exposure.tried ?? []).map(({ side }) => side));
    for (const side of sides) {
      const tried = (exposure.tried ?? []).filter((one) => one.side === side);
      for (const way of WAYS[exercise.holds] ?? []) {
        const key = `${side ?? ''}|${way}|${exposure.variant ?? ''}`;
        const track = tracks.get(key) ?? begin(side, way, exposure.variant ?? '');
        add(track, exposure, tried, body);
        tracks.set(key, track);
      }
    }
  }
  const built = [...tracks.values()].filter((track) => track.stops.length > 0 || track.coverage.tooMany > 0);
  return built.sort(byLast);
}

const WAYS: { readonly [H in Exercise['holds']]?: readonly TrackWay[] } = {
  load: ['held'],
  body: ['system', 'reps'],
  degrees: ['degrees'],
};

const KINDS: Readonly<Record<TrackWay, TrendKind>> = { held: 'e1rm', system: 'e1rm', reps: 'reps', degrees: 'deg' };

type Building = Omit<Track, 'stops' | 'coverage'> & {
  stops: TrackStop[];
  coverage: { -readonly [K in keyof Coverage]: number };
  /** What was told as left so far: of how many sets, and in all. */
  left: { count: number; sum: number };
};

const begin = (side: Side | undefined, way: TrackWay, variant: string): Building => ({
  side,
  way,
  kind: KINDS[way],
  variant,
  stops: [],
  coverage: { sets: 0, told: 0, tooMany: 0, noMass: 0 },
  left: { count: 0, sum: 0 },
});

/** Below 0 where the last session of `a` is the later one, be it on the same day. */
function byLast(a: Track, b: Track): number {
  const [one, other] = [a.stops.at(-1), b.stops.at(-1)];
  return (other?.judged.day ?? 0) - (one?.judged.day ?? 0) || (other?.exposure.at ?? 0) - (one?.exposure.at ?? 0);
}

function add(track: Building, exposure: Exposure, tried: readonly Tried[], body: Body): void {
  const day = dayOf(exposure);
  const stop = { session: exposure.session, day, exposure };
  if (track.way === 'degrees') {
    const degrees = tried.flatMap((one) => one.degrees ?? []);
    if (degrees.length === 0) return;
    track.coverage.sets += degrees.length;
    const value = degrees.reduce((sum, one) => sum + one, 0) / degrees.length;
    track.stops.push({ ...stop, judged: { day: dayNumber(day), deload: false, value }, isTold: true });
    return;
  }
  const counted = tried.flatMap((one) => {
    const set = setOf(track, one, day, body);
    return set ? [{ set, isNoted: one.left !== undefined }] : [];
  });
  // a set that could have been more tells less than those that were told
  const exact = counted.filter(({ set }) => !set.atLeast);
  const used = exact.length > 0 ? exact : counted;
  if (used.length === 0) return;
  const sets = used.map(({ set }) => set);
  track.coverage.sets += sets.length;
  track.coverage.told += used.filter(({ isNoted }) => isNoted).length;
  const isTold = sets.filter(isCounted).length * 2 >= sets.length || sets.slice(-1).some(isCounted);
  for (const { left, least } of tried) {
    if (left === undefined || least) continue;
    track.left.count += 1;
    track.left.sum += left;
  }
  track.stops.push({ ...stop, judged: { day: dayNumber(day), deload: false, sets }, isTold });
}

/** Neither a guess nor a least. */
const isCounted = ({ unsure, atLeast }: TrendSet): boolean => unsure === undefined && !atLeast;

function setOf(track: Building, one: Tried, day: Day, body: Body): TrendSet | undefined {
  const { kg, reps, left, least } = one;
  if (reps === undefined) return undefined;
  const load = loadOf(track, kg, day, body);
  if (load === undefined) return undefined;
  const rir = left ?? (least ? 0 : usualLeft(track));
  if (track.kind === 'e1rm' && reps + rir > MOST_REPS) {
    track.coverage.tooMany += 1;
    return undefined;
  }
  if (least) return { load, reps, rir, atLeast: true };
  return { load, reps, rir, ...(left === undefined ? { unsure: UNTOLD_SD } : {}) };
}

/** Kg as the track counts them; 0 where it counts reps, undefined where it does not count the set. */
function loadOf({ way, coverage }: Building, kg: number | undefined, day: Day, body: Body): number | undefined {
  if (way === 'held') return kg;
  const mass = massOn(body, day);
  if (way === 'reps') {
    // where nothing is known of the body there is no other track that could tell of it
    if (kg !== undefined && body.share !== undefined && mass === undefined) coverage.noMass += 1;
    return kg === undefined ? 0 : undefined;
  }
  return mass === undefined || body.share === undefined ? undefined : body.share * mass + (kg ?? 0);
}

/** What was left before, on the whole; as a half, as it is told. */
function usualLeft({ left }: Building): number {
  const mean = (USUAL_LEFT.weight * USUAL_LEFT.reps + left.sum) / (USUAL_LEFT.weight + left.count);
  // never nothing: that is told where it is so
  return Math.max(0.5, Math.round(mean * 2) / 2);
}

/** Returns the body mass in kg on a day: the latest noted by then, or the first one noted later; undefined where none is. */
export const massOn = (body: Body, day: Day): number | undefined => massNotedFor(body, day)?.kg;

/** Returns what `massOn` tells with the day it was noted for; of one day the last in the list. */
export const massNotedFor = ({ masses }: Body, day: Day): Body['masses'][number] | undefined =>
  nearestNoted(masses, day, () => true);

/** How many of the latest sessions tell whether load is added to the body these days. */
const THESE_DAYS = 6;

/**
 * Returns the track of each side that tells how it goes now, left before right: of the variant that was done last, and with one's own body by what
 * is moved where load is added these days, else by reps.
 */
export function currentTracks(tracks: readonly Track[]): readonly Track[] {
  const sides = SIDES.map((side) => {
    const own = tracks.filter((track) => track.side === side);
    return own.filter((track) => track.variant === own[0]?.variant);
  });
  // both sides by one scale, or they could not be set beside each other
  const isLoaded = sides.some((own) => own.some(isLoadedLately));
  return sides.flatMap((own) => own.find(({ way }) => (way === 'system') === isLoaded) ?? []);
}

const isLoadedLately = ({ way, side, stops }: Track): boolean =>
  way === 'system' &&
  stops
    .slice(-THESE_DAYS)
    .some(({ exposure }) => exposure.tried?.some((one) => one.side === side && one.kg !== undefined));

const SIDES = ['left', 'right', undefined] as const;
