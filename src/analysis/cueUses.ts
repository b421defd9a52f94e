import { SHIPPED_CUES } from '../domain/cues';
import type { Day } from '../domain/day';
import type { SessionRecord } from '../domain/session';
import type { SetRecord } from '../domain/set';
import { wilson } from './stats/wilson';
import { inOrder } from './weeks';

/*
 * What was noted of cues, counted: how often one was given and answered, how often it made the next reps better, and what became of a fault with a cue and
 * without one. Such a comparison is needed because a cue follows a bad set, and the set after a bad one is mostly better anyway.
 */

/** A client's sessions, and the days that were bad ones by how they came in (never by how the sets went). */
export type Coached = { readonly sessions: readonly SessionRecord[]; readonly badDays: ReadonlySet<Day> };

/** Uses of a cue with one client that were answered. */
export type CueUses = {
  readonly cue: string;
  readonly used: number;
  /** Answered "better"; "same" and "worse" are none. */
  readonly worked: number;
  /** Of these: on bad days. */
  readonly badUsed: number;
  readonly badWorked: number;
  /** Uses that nobody answered; they count for nothing. */
  readonly unanswered: number;
};

/** Returns the uses of each cue with a client, in one exercise where that is named, by the cue's id. A cue counts once a set. */
export function cueUses({ sessions, badDays }: Coached, exercise?: string): readonly CueUses[] {
  const all = new Map<string, { -readonly [K in keyof CueUses]: CueUses[K] }>();
  for (const { session, day } of inOrder(sessions)) {
    for (const set of session.sets) {
      if (set.unread.length > 0 || (exercise !== undefined && set.exercise !== exercise)) continue;
      for (const cue of new Set(set.cues.map((use) => use.cue))) {
        const own = all.get(cue) ?? { cue, used: 0, worked: 0, badUsed: 0, badWorked: 0, unanswered: 0 };
        all.set(cue, own);
        const answers = set.cues.flatMap((use) => (use.cue === cue && use.answer ? [use.answer] : []));
        if (answers.length === 0) {
          own.unanswered += 1;
          continue;
        }
        const worked = answers.every((answer) => answer === 'better') ? 1 : 0;
        own.used += 1;
        own.worked += worked;
        if (!badDays.has(day)) continue;
        own.badUsed += 1;
        own.badWorked += worked;
      }
    }
  }
  return [...all.values()].sort((a, b) => (a.cue < b.cue ? -1 : 1));
}

/** How often a fault that had been seen was not there or gone in the next set; the share's 95 % interval, where there were any. */
export type FaultGone = { readonly of: number; readonly gone: number; readonly low?: number; readonly high?: number };

export type CueAgainstNone = { readonly cue: string; readonly with: FaultGone; readonly without: FaultGone };

/**
 * Returns for each cue what became of faults from one set to the next of the same exercise and side: with the cue given for that next set, and with no
 * cue for either. A cue with a fault of its own is compared on that one, others on any. A fault that nobody tapped again counts as not there.
 */
export function againstNone(
  sessions: readonly SessionRecord[],
  faultOf: (cue: string) => string | undefined = shippedFault,
): readonly CueAgainstNone[] {
  const steps = inOrder(sessions).flatMap(({ session }) => stepsIn(session.sets));
  const cues = [...new Set(steps.flatMap(({ cues: given }) => given))].sort();
  return cues.map((cue) => {
    const fault = faultOf(cue);
    const own = steps.filter((step) => fault === undefined || step.fault === fault);
    return {
      cue,
      with: goneOf(own.filter((step) => step.cues.includes(cue))),
      without: goneOf(own.filter((step) => step.none)),
    };
  });
}

/** Returns the fault that a shipped cue is for; undefined for any other. */
export const shippedFault = (cue: string): string | undefined => SHIPPED_CUES.find(({ id }) => id === cue)?.fault;

type Step = {
  readonly fault: string;
  readonly cues: readonly string[];
  readonly none: boolean;
  readonly gone: boolean;
};

function stepsIn(sets: readonly SetRecord[]): readonly Step[] {
  const read = sets.filter((set) => set.unread.length === 0);
  return read.flatMap((set, n) => {
    const next = read.slice(n + 1).find((one) => one.exercise === set.exercise && one.side === set.side);
    if (!next) return [];
    const none = set.cues.length === 0 && next.cues.length === 0;
    return set.faults
      .filter(({ gone }) => !gone)
      .map(({ id }) => ({
        fault: id,
        cues: next.cues.map(({ cue }) => cue),
        none,
        gone: !next.faults.some((one) => one.id === id && !one.gone),
      }));
  });
}

function goneOf(steps: readonly Step[]): FaultGone {
  const gone = steps.filter((step) => step.gone).length;
  return { of: steps.length, gone, ...wilson(gone, steps.length) };
}
