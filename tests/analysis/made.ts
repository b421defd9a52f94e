import { type Body, NO_BODY, type Track, tracksOf } from '../../src/analysis/track';
import { addDays, type Day } from '../../src/domain/day';
import type { Exercise } from '../../src/domain/exercise';
import { type Exposure, exposureOf } from '../../src/domain/exposure';
import type { SessionRecord } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { sessionOf, set, shipped } from '../domain/made';

/* Sessions as a trainer logs them, and what the analysis makes of them. */

export const FRONT_SQUAT = shipped('lib-front-squat');
export const PULL_UP = shipped('lib-pull-up');
/** A dumbbell in each hand. */
export const PRESS = shipped('lib-dumbbell-press');
/** Degrees, each side by itself. */
export const REACH = shipped('lib-shoulder-range');

/** Returns a day counted from a Monday. */
export const dayAt = (n: number): Day => addDays('2026-01-05', n);

export type Held = Partial<SetRecord>;

let sessions = 0;

/** Returns a session on a day; without a time it begins at noon UTC. */
export function sessionOn(
  day: Day,
  exercise: Pick<Exercise, 'id'>,
  held: readonly Held[],
  { at = Date.parse(`${day}T12:00Z`), id = `r${String(++sessions).padStart(5, '0')}` } = {},
): SessionRecord {
  const start = { at, day, zone: 'UTC' };
  const sets = held.map((one, n) =>
    set({ exercise: exercise.id, at: { ...start, at: at + 60_000 * (n + 1) }, ...one }),
  );
  return { ...sessionOf({}), id, start, exercises: [exercise.id], sets };
}

/** Returns what a session shows of an exercise; fails where it shows nothing. */
export function shown(session: SessionRecord, { id }: Pick<Exercise, 'id'>): Exposure {
  const exposure = exposureOf(session, id);
  if (!exposure) throw new Error(`no set of ${id} counts`);
  return exposure;
}

/** Returns one session of an exercise as an exposure, so many days from a Monday. */
export const on = (
  n: number,
  exercise: Pick<Exercise, 'id'>,
  held: readonly Held[],
  more: Parameters<typeof sessionOn>[3] = {},
): Exposure => shown(sessionOn(dayAt(n), exercise, held, more), exercise);

/** Returns the registers of a set of so many kg and reps, with so many reps left, where that was told. */
export const lift = (value: number, reps: number, left?: number, more: Held = {}): Held => ({
  load: { value, unit: 'kg' },
  reps,
  ...(left === undefined ? {} : { effort: { value: left, as: 'left' } }),
  ...more,
});

/** Returns the same with the load in pounds. */
export const pounds = (value: number, reps: number, left?: number, more: Held = {}): Held => ({
  ...lift(0, reps, left, more),
  load: { value, unit: 'lb' },
});

/** Returns the registers of a set with one's own body and so many kg on it. */
export const added = (value: number, reps: number, left?: number): Held => {
  const { load: _, ...rest } = lift(0, reps, left);
  return { ...rest, ...(value === 0 ? {} : { added: { value, unit: 'kg' } }) };
};

export const FOUR_OR_MORE: Held = { effort: { atLeast: 4 } };

/** Returns the only track of an exercise; fails where there are more or none. */
export function trackOf(exercise: Exercise, exposures: readonly Exposure[], body: Body = NO_BODY): Track {
  const [track, ...others] = tracksOf(exercise, exposures, body);
  if (!track || others.length > 0) throw new Error(`${others.length + (track ? 1 : 0)} tracks`);
  return track;
}

/** Returns the sets that a track's session is judged by; fails where it is judged by degrees or there is none. */
export function judgedSets(track: Track, n: number) {
  const judged = track.stops[n]?.judged;
  if (!judged || 'value' in judged) throw new Error(`no sets in session ${n}`);
  return judged.sets;
}
