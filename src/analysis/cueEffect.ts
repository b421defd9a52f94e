import { type Focus, SHIPPED_CUES } from '../domain/cues';
import { againstNone, type Coached, type CueAgainstNone, type CueUses, cueUses, shippedFault } from './cueUses';
import { betaQuantile, chancesToBeBest } from './stats/beta';
import { sumOf } from './stats/spread';

/*
 * How often each cue works with a client, on a good day: what was counted, partly pooled with what the cue does with all clients, and put right for cues
 * that were given on bad days more than others. From our own simulation study (STATS.md §6): with fewer than eight uses a ranking is little more than
 * luck, so a best one is only named where it is the best with a chance of 70 % and was used five times. Where a cue sends the attention is told and never
 * scored: what is left of its effect after correction for publication bias is next to none (McKay 2024).
 */

export type CueEffect = {
  readonly cue: string;
  readonly focus?: Focus;
  readonly uses: CueUses;
  /** Share of uses that work, 0–1: the middle and the 80 % interval. */
  readonly share: number;
  readonly low: number;
  readonly high: number;
  /** The chance that it is the best of those used with this client, 0–1. */
  readonly chance: number;
};

export type CueEffects = {
  /** By the lower end of the interval, the highest first. */
  readonly cues: readonly CueEffect[];
  /** The cue that works best, where that can be told. */
  readonly best: { readonly type: 'told'; readonly cue: string } | { readonly type: 'too-few' };
  /** How much less often cues work on bad days, as it was put right, 0–0.4. */
  readonly badDay: number;
};

/** Which cues are set against each other (those for one fault, or it is no comparison; all, unless told), and where each sends the attention. */
type Asked = {
  readonly among?: (cue: string) => boolean;
  readonly focusOf?: (cue: string) => Focus | undefined;
};

/** Uses that the coach's rate weighs as much as with a client, and the rate of all cues with one cue. */
const POOLED = 8;
const OVERALL = 4;
const BAD_DAY = { shrunk: 10, most: 0.4 } as const;
const SURE = 0.7;
const FEWEST_USES = 5;

/**
 * Returns the effect of every cue that was used with a client and answered, given what was counted of each of the coach's other clients (`cueUses`); in
 * one exercise where that is named. `againstNone` tells beside it what became of faults without a cue.
 */
export function cueEffect(
  client: Coached,
  others: readonly (readonly CueUses[])[],
  { exercise, ...asked }: Asked & { readonly exercise?: string } = {},
): CueEffects & { readonly without: readonly CueAgainstNone[]; readonly bests: readonly BestCue[] } {
  const sessions = client.sessions.map((one) =>
    exercise === undefined ? one : { ...one, sets: one.sets.filter((set) => set.exercise === exercise) },
  );
  const own = cueUses(client, exercise);
  return { ...effectsOf(own, others, asked), without: againstNone(sessions), bests: bestsOf(own, others) };
}

/** The best of the cues for one fault that were used with a client: `of` so many, by a chance of 0–1. */
export type BestCue = { readonly fault: string; readonly cue: string; readonly chance: number; readonly of: number };

/** Cues for different faults are no comparison, and what an own cue is for nobody told. */
function bestsOf(own: readonly CueUses[], others: readonly (readonly CueUses[])[]): readonly BestCue[] {
  const faults = new Set(own.flatMap(({ cue }) => shippedFault(cue) ?? []));
  return [...faults].sort().flatMap((fault) => {
    const { cues, best } = effectsOf(own, others, { among: (cue) => shippedFault(cue) === fault });
    const found = best.type === 'told' ? cues.find(({ cue }) => cue === best.cue) : undefined;
    return found ? [{ fault, cue: found.cue, chance: found.chance, of: cues.length }] : [];
  });
}

const shippedFocus = (cue: string): Focus | undefined => SHIPPED_CUES.find(({ id }) => id === cue)?.focus;

/** Returns the same from what was counted, of the client and of each other one. */
export function effectsOf(
  own: readonly CueUses[],
  others: readonly (readonly CueUses[])[],
  { among = () => true, focusOf = shippedFocus }: Asked = {},
): CueEffects {
  const all = [own, ...others].flat();
  const badDay = badDayGap(all);
  const worked = ({ used, worked: k, badUsed }: CueUses): number => Math.min(used, k + badDay * badUsed);
  const rate = (some: readonly CueUses[], first: number, weight: number): number =>
    (sumOf(some.map(worked)) + weight * first) / (sumOf(some.map(({ used }) => used)) + weight);
  // one use that worked and one that did not keep it from both ends
  const overall = rate(all, 0.5, 2);
  const counted = own.filter(({ cue, used }) => used > 0 && among(cue)).toSorted((a, b) => (a.cue < b.cue ? -1 : 1));
  const betas = counted.map((uses) => {
    const pooled = rate(
      all.filter(({ cue }) => cue === uses.cue),
      overall,
      OVERALL,
    );
    const k = worked(uses);
    return { a: k + POOLED * pooled, b: uses.used - k + POOLED * (1 - pooled) };
  });
  const chances = chancesToBeBest(betas);
  const cues = counted.map((uses, n): CueEffect => {
    const beta = betas[n] ?? { a: 1, b: 1 };
    const focus = focusOf(uses.cue);
    return {
      cue: uses.cue,
      ...(focus ? { focus } : {}),
      uses,
      share: betaQuantile(0.5, beta),
      low: betaQuantile(0.1, beta),
      high: betaQuantile(0.9, beta),
      chance: chances[n] ?? 0,
    };
  });
  const best =
    cues.length > 1 ? cues.find(({ chance, uses }) => chance >= SURE && uses.used >= FEWEST_USES) : undefined;
  return {
    cues: cues.toSorted((a, b) => b.low - a.low || (a.cue < b.cue ? -1 : 1)),
    best: best ? { type: 'told', cue: best.cue } : { type: 'too-few' },
    badDay,
  };
}

/** By how much less often one and the same cue works on bad days, over all cues and clients, shrunk towards nothing. */
function badDayGap(all: readonly CueUses[]): number {
  const gaps = all.flatMap(({ used, worked, badUsed, badWorked }) => {
    const good = used - badUsed;
    if (good === 0 || badUsed === 0) return [];
    return [{ gap: (worked - badWorked) / good - badWorked / badUsed, weight: (good * badUsed) / used }];
  });
  const gap =
    sumOf(gaps.map((one) => one.gap * one.weight)) / (sumOf(gaps.map(({ weight }) => weight)) + BAD_DAY.shrunk);
  return Math.min(BAD_DAY.most, Math.max(0, gap));
}
