import type { CuesFinding } from './clientFinding';
import type { CueEffect } from './cueEffect';
import type { CueAgainstNone, FaultGone } from './cueUses';
import { evidenceOf, isWithin, type Known, LATELY_DAYS, type Visit } from './known';
import { type Beta, betaCdf } from './stats/beta';

/*
 * Which cue works best of those for one fault, which one mostly works, and which does nothing: against what became of the same fault without a cue, or where it is seldom answered
 * "better" although the set after a bad one is mostly better anyway. With fewer uses it is too few to tell.
 */

/** Below this many uses an order of cues is little more than luck, and one is not judged by itself (our own simulation study, STATS.md §6). */
const FEWEST_FOR_ONE = 8;
const FEWEST_FOR_BEST = 5;
/** A cue that adds no more than this to the share of faults that go is of no use, and how sure that has to be (our own choice). */
const WORTH = 0.1;
const SURE = 0.8;
const HALF = 0.5;
/** What lies on the near side of either end of an 80 % interval. */
const BEYOND_END = 0.9;

/** Returns what is found of the cues that were given within the last six weeks; nothing where none was. */
export function cueFindings({ others, visits, asOf }: Known): readonly CuesFinding[] {
  const { cues, bests, without, badDay } = others.cues;
  const own = visits.filter(({ session, day }) => day <= asOf && session.sets.some((set) => set.cues.length > 0));
  const last = own.at(-1);
  if (!last || !isWithin(last.day, asOf, LATELY_DAYS)) return [];
  const saidOf = (cue: string) => {
    const given = own.filter((visit) => isGiven(visit, cue));
    return { topic: 'cues', day: given.at(-1)?.day ?? last.day, evidence: evidenceOf(given) } as const;
  };
  const found = cues.flatMap((cue): readonly CuesFinding[] => {
    const { day } = saidOf(cue.cue);
    if (!isWithin(day, asOf, LATELY_DAYS)) return [];
    const against = without.find((one) => one.cue === cue.cue);
    const beside = against ? { against } : {};
    const best = bests.find((one) => one.cue === cue.cue);
    if (best) {
      const said = { ...saidOf(cue.cue), ...beside, cue, badDay, of: best.of };
      return [{ ...said, type: 'best', certainty: best.chance, next: { type: 'keep-on' } }];
    }
    if (cue.uses.used >= FEWEST_FOR_ONE && cue.low > HALF) {
      const said = { ...saidOf(cue.cue), ...beside, cue };
      return [{ ...said, type: 'often', certainty: BEYOND_END, next: { type: 'keep-on' } }];
    }
    return noHelp({ ...saidOf(cue.cue), next: { type: 'try-another-cue' } }, cue, against);
  });
  if (found.length > 0) return found;
  const has = Math.max(0, ...cues.map(({ uses }) => uses.used));
  const said = {
    topic: 'cues',
    day: last.day,
    evidence: evidenceOf(own),
    cues,
    unanswered: unansweredIn(own),
  } as const;
  // one cue alone is the best of none
  const needs = cues.length < 2 ? FEWEST_FOR_ONE : FEWEST_FOR_BEST;
  if (has >= needs) return [{ ...said, type: 'not-clear', next: { type: 'keep-on' } }];
  const next = { type: 'log-more', what: 'uses', count: needs - has } as const;
  return [{ ...said, type: 'too-few', certainty: 1, has, needs, next }];
}

const unansweredIn = (visits: readonly Visit[]): number =>
  visits.flatMap(({ session }) => session.sets.flatMap(({ cues }) => cues.filter(({ answer }) => !answer))).length;

const isGiven = ({ session }: Visit, cue: string): boolean =>
  session.sets.some((set) => set.cues.some((use) => use.cue === cue));

type Of = Pick<CuesFinding, 'topic' | 'day' | 'evidence' | 'next'>;

function noHelp(said: Of, cue: CueEffect, against: CueAgainstNone | undefined): readonly CuesFinding[] {
  if (against && against.with.of >= FEWEST_FOR_ONE && against.without.of >= FEWEST_FOR_ONE) {
    const certainty = 1 - chanceAbove(betaOf(against.with), betaOf(against.without), WORTH);
    if (certainty >= SURE) return [{ ...said, type: 'no-help', certainty, cue, against }];
  }
  if (cue.uses.used >= FEWEST_FOR_ONE && cue.high < HALF)
    return [{ ...said, type: 'seldom', certainty: BEYOND_END, cue, ...(against ? { against } : {}) }];
  return [];
}

const betaOf = ({ gone, of }: FaultGone): Beta => ({ a: 1 + gone, b: 1 + of - gone });

const CELLS = 400;

/** The chance that a share lies above another by more than so much: both as likely as what was counted makes them, by quadrature. */
function chanceAbove(one: Beta, other: Beta, by: number): number {
  let sum = 0;
  let before = 0;
  for (let n = 1; n <= CELLS; n++) {
    const below = betaCdf(n / CELLS, one);
    sum += (below - before) * betaCdf((n - 0.5) / CELLS - by, other);
    before = below;
  }
  return Math.min(1, Math.max(0, sum));
}
