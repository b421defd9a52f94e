import type { Clearance } from './client';
import type { SetRecord } from './set';
import type { SignSeen } from './stopSigns';
import { toKg } from './units';

/** From this on, pain of 0–10 stops an exercise (METHODS §14, a rule of this project). */
export const STOP_AT = 4;

/** Returns whether a set stopped its exercise: pain from 4 on, or it ended in pain. */
export const isStop = ({ pain, ended }: Pick<SetRecord, 'pain' | 'ended'>): boolean =>
  (pain?.value ?? 0) >= STOP_AT || ended === 'pain';

/**
 * What pain asks for in one exercise, in three levels: it is only noted; an easier step is offered; the exercise is closed for the session,
 * and offers nothing heavier until a clearance is noted.
 */
export type PainLevel =
  | { readonly level: 'none' }
  | { readonly level: 'note'; readonly pain: number }
  | { readonly level: 'adapt'; readonly pain: number; readonly why: 'rising' | 'two-sessions' }
  | {
      readonly level: 'stop';
      readonly why: 'pain' | 'ended-in-pain' | 'sign';
      readonly pain?: number;
      readonly sign?: SignSeen;
    };

/**
 * Returns the level that today's sets of an exercise ask for. `before` are those of the session before, with pain or not. A clearance
 * noted after the set or sign lifts what went before it.
 */
export function painLevel(
  today: readonly SetRecord[],
  before: readonly SetRecord[],
  signs: readonly SignSeen[],
  clearance: Clearance | undefined,
): PainLevel {
  const since = clearance?.at ?? Number.NEGATIVE_INFINITY;
  const counted = today.filter((set) => (set.at?.at ?? 0) >= since);
  const sign = signs.findLast((one) => one.at >= since);
  if (sign) return { level: 'stop', why: 'sign', sign };
  const stopped = counted.findLast((set) => (set.pain?.value ?? 0) >= STOP_AT);
  if (stopped?.pain) return { level: 'stop', why: 'pain', pain: stopped.pain.value };
  if (counted.some((set) => set.ended === 'pain')) return { level: 'stop', why: 'ended-in-pain' };
  const told = counted.filter((set) => (set.pain?.value ?? 0) > 0);
  const last = told.at(-1)?.pain;
  if (!last) return { level: 'none' };
  if (last.rising) return { level: 'adapt', pain: last.value, why: 'rising' };
  if (before.some((set) => (set.pain?.value ?? 0) > 0 && (set.at?.at ?? 0) >= since))
    return { level: 'adapt', pain: last.value, why: 'two-sessions' };
  return { level: 'note', pain: last.value };
}

/** Returns the set that each uncleared stop sign was seen in or after: the last one before it. */
export function setsOfSigns(
  sets: readonly SetRecord[],
  signs: readonly SignSeen[],
  clearance: Clearance | undefined,
): readonly SetRecord[] {
  const since = clearance?.at ?? Number.NEGATIVE_INFINITY;
  return signs
    .filter((sign) => sign.at >= since)
    .flatMap((sign) => sets.findLast((set) => (set.at?.at ?? 0) <= sign.at) ?? sets[0] ?? []);
}

/**
 * Returns what nothing heavier than is offered of, kg: the lightest load that an uncleared stop was noted at; undefined where none is, and
 * null where the set held no load (nothing of a number can be said then). `signed` are sets that a stop sign was seen in.
 */
export function heaviestOffered(
  sets: readonly SetRecord[],
  clearance: Clearance | undefined,
  signed: readonly SetRecord[] = [],
): number | null | undefined {
  const since = clearance?.at ?? Number.NEGATIVE_INFINITY;
  const pained = sets.filter((set) => (set.at?.at ?? 0) >= since && isStop(set));
  const stops = [...pained, ...signed];
  if (stops.length === 0) return undefined;
  const loads = stops.flatMap((set) => {
    const load = set.load ?? set.added;
    return load ? [toKg(load)] : [];
  });
  return loads.length === 0 ? null : Math.min(...loads);
}
