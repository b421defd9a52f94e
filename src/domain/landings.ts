import type { LandingLevel } from './client';
import type { SetRecord } from './set';

/**
 * Landings (foot contacts) of one session that published ranges name for a level. Beginner: a secondary listing (S38 of the methods book);
 * intermediate and advanced: from memory, widely repeated. A guide, without any proof that it prevents injury.
 */
export const LANDING_RANGES: Readonly<Record<LandingLevel, { readonly from: number; readonly to: number }>> = {
  beginner: { from: 80, to: 100 },
  intermediate: { from: 100, to: 120 },
  advanced: { from: 120, to: 140 },
};

/** Returns how many landings sets hold, their parts included; a landing on both feet counts once (foot contacts as published ranges count them). */
export function landingsIn(sets: readonly SetRecord[]): number {
  return sets.flatMap((set) => [set, ...set.parts]).reduce((sum, held) => sum + (held.landings ?? 0), 0);
}
