import type { Clearance } from './client';
import { type Day, daysBetween } from './day';
import { isStop } from './pain';
import type { SetRecord } from './set';
import type { SignSeen } from './stopSigns';

/* What was noted of pain in sessions before, as the next session has to hear it. */

/** So long after it, pain is asked about before the first set; as long as it is told of as a finding. */
const ASKED_DAYS = 42;

type Time = { readonly day: Day; readonly sets: readonly SetRecord[]; readonly signs?: readonly SignSeen[] };

/** `pain` is absent where a set only ended in it, and where it was a stop sign. */
export type PainBefore = { readonly day: Day; readonly pain?: number; readonly sign?: SignSeen };

/** Returns the pain of the last session of an exercise that is to be asked about today; undefined where none was noted, or it is cleared. */
export function askedOf(last: Time | undefined, clearance: Clearance | undefined, today: Day): PainBefore | undefined {
  if (!last || daysBetween(last.day, today) > ASKED_DAYS) return undefined;
  const pained = last.sets.filter((set) => isSince(set.at?.at, clearance) && (painIn(set) > 0 || set.ended === 'pain'));
  if (pained.length === 0) return undefined;
  return { day: last.day, ...most(pained) };
}

/** Returns the pain that a client came in with the last time, to be asked about today; undefined where none was told. */
export function arrivalAsked(
  last: { readonly day: Day; readonly pain?: number } | undefined,
  today: Day,
): PainBefore | undefined {
  if (!last?.pain || daysBetween(last.day, today) > ASKED_DAYS) return undefined;
  return { day: last.day, pain: last.pain };
}

/** Returns the latest stop that holds an exercise back until a clearance is noted: pain from 4 on, a set ended by it, or a stop sign; `times` are the newest first. */
export function heldBy(times: readonly Time[], clearance: Clearance | undefined): PainBefore | undefined {
  for (const { day, sets, signs = [] } of times) {
    const stops = sets.filter((set) => isSince(set.at?.at, clearance) && isStop(set));
    if (stops.length > 0) return { day, ...most(stops) };
    const sign = signs.findLast((one) => one.at >= (clearance?.at ?? Number.NEGATIVE_INFINITY));
    if (sign) return { day, sign };
  }
  return undefined;
}

const painIn = ({ pain }: SetRecord): number => pain?.value ?? 0;

const isSince = (at: number | undefined, clearance: Clearance | undefined): boolean =>
  (at ?? 0) >= (clearance?.at ?? Number.NEGATIVE_INFINITY);

function most(sets: readonly SetRecord[]): Pick<PainBefore, 'pain'> {
  const pain = Math.max(...sets.map(painIn));
  return pain > 0 ? { pain } : {};
}
