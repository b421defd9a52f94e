import type { Day } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import type { SessionRecord } from '../domain/session';
import { movedIn, type OwnBody } from './moved';
import { sumOf } from './stats/spread';
import { inOrder } from './weeks';

/*
 * Relative volume: repetitions, each weighed with the share of what could be lifted once ("reps at 100 %"; METHODS §3). Not to be compared between very
 * different loads. What could be lifted once is handed in: of a pair as one hand holds it, with one's own body the body's share and what is added.
 */

export type RelativeVolume = {
  /** Repetitions at 100 %; 0 and up. */
  readonly reps: number;
  /** Working sets that are counted, and those that are not, for want of kg or of a 1RM. */
  readonly sets: number;
  readonly not: number;
};

/**
 * Returns the relative volume of one exercise over sessions, warm-ups left out; undefined where no set could be counted. `maxOn` gives what could be
 * lifted once on a day, in kg.
 */
export function relativeVolume(
  sessions: readonly SessionRecord[],
  exercise: Pick<Exercise, 'id' | 'holds' | 'perHand'>,
  body: OwnBody,
  maxOn: (day: Day) => number | undefined,
): RelativeVolume | undefined {
  const weighed: number[] = [];
  let not = 0;
  for (const { session, day } of inOrder(sessions)) {
    const max = maxOn(day);
    for (const set of session.sets) {
      if (set.exercise !== exercise.id || set.kind === 'warm-up') continue;
      const moved = movedIn(set, exercise, body, day);
      const reps =
        typeof moved === 'string'
          ? Number.NaN
          : moved.parts.reduce((sum, one) => sum + (one.reps * one.held) / (max ?? 0), 0);
      if (Number.isFinite(reps) && max !== undefined && max > 0) weighed.push(reps);
      else not += 1;
    }
  }
  if (weighed.length === 0) return undefined;
  return { reps: sumOf(weighed), sets: weighed.length, not };
}
