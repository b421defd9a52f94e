import type { Exercise } from '../domain/exercise';
import type { SessionRecord } from '../domain/session';
import { secondsOfTempo } from '../domain/setUp';
import { toKg } from '../domain/units';
import { sumOf } from './stats/spread';

/*
 * Time under tension in seconds: what was held, or repetitions × the seconds of a tempo (METHODS §3). Without a noted tempo, or with a part of it "as
 * fast as can be", nothing is taken for it.
 */

export type UnderTension = {
  readonly seconds: number;
  /** Load × time in kg·s of what was held still with a load; absent where there was none. */
  readonly kgSeconds?: number;
  /** Working sets that are counted, and those that are not, for want of time or tempo. */
  readonly sets: number;
  readonly not: number;
};

/** Returns the time under tension of one exercise over sessions, both sides added, warm-ups left out; undefined where no set could be counted. */
export function underTension(
  sessions: readonly SessionRecord[],
  exercise: Pick<Exercise, 'id' | 'holds' | 'perHand'>,
): UnderTension | undefined {
  const times: number[] = [];
  const held: number[] = [];
  let not = 0;
  for (const session of new Map(sessions.map((one) => [one.id, one])).values()) {
    for (const set of session.sets) {
      if (set.exercise !== exercise.id || set.kind === 'warm-up') continue;
      const perRep = set.tempo === undefined ? undefined : secondsOfTempo(set.tempo);
      const parts = [set, ...set.parts].map(({ seconds, reps }) =>
        exercise.holds === 'time' ? seconds : reps === undefined || perRep === undefined ? undefined : reps * perRep,
      );
      const time = parts.every((one) => one !== undefined) ? parts.reduce((sum, one) => sum + one, 0) : Number.NaN;
      if (!Number.isFinite(time) || set.unread.length > 0) {
        not += 1;
        continue;
      }
      times.push(time);
      if (exercise.holds !== 'time') continue;
      for (const { load, seconds } of [set, ...set.parts]) {
        if (load && seconds !== undefined) held.push(toKg(load) * (exercise.perHand ? 2 : 1) * seconds);
      }
    }
  }
  if (times.length === 0) return undefined;
  return {
    seconds: sumOf(times),
    ...(held.length > 0 ? { kgSeconds: sumOf(held) } : {}),
    sets: times.length,
    not,
  };
}
