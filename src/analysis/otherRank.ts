import type { Day } from '../domain/day';
import type { Target } from '../domain/target';
import type { OtherFinding } from './otherFindings';
import { nearnessOf, urgencyOf } from './urgency';

/* How pressing each kind of other finding is, on the scale of the trend's: 4 and above ask for something to be done. */

type TypeIn<T extends OtherFinding['topic']> = Extract<OtherFinding, { readonly topic: T }>['type'];

/** Pain that comes again is above all, and still a question to the client; a single mild note is the first of what is only shown. */
const RANKS: { readonly [T in OtherFinding['topic']]: Readonly<Record<TypeIn<T>, number>> } = {
  pain: { running: 8, again: 8, noted: 8, once: 3, 'now-and-then': 3 },
  'came-in': { below: 5, usual: 1, 'as-usual': 1, plain: 0, 'not-all': 0 },
  sides: { gap: 5, closing: 2, closed: 2, once: 1, even: 1, 'error-unknown': 0, 'too-few': 0 },
  landings: { above: 4, 'weaker-side': 4, below: 1, within: 1, good: 1, 'no-level': 0, 'too-few': 0 },
  cues: { 'no-help': 4, seldom: 4, best: 2, often: 2, 'not-clear': 0, 'too-few': 0 },
  // one ordinary week in twenty is told of: a thing to show, not to act on
  tonnage: { above: 2, below: 2, usual: 1, 'stale-mass': 1, 'set-apart': 0, 'partly-known': 0, 'too-few': 0 },
  sets: { week: 1, untold: 0, 'too-few': 0 },
  carries: { week: 1, 'too-few': 0, 'partly-known': 0, 'set-apart': 0 },
  time: { week: 1, 'too-few': 0, 'partly-known': 0, 'set-apart': 0 },
  volume: { week: 1, 'too-few': 0, 'partly-known': 0, 'set-apart': 0 },
  load: { known: 1, 'days-unknown': 0, least: 0, untold: 0 },
  measures: { changed: 2, 'within-error': 1, 'error-unknown': 0, 'too-few': 0 },
  learning: { curve: 1, 'no-improvement': 1, 'no-bend': 1, 'too-few': 0 },
};

/** Returns how pressing a finding is by what it is, 0–8. */
export function rankOfOther(one: OtherFinding): number {
  // the types of a topic are its own, which no index can tell
  const ranks: Readonly<Record<string, number>> = RANKS[one.topic];
  return ranks[one.type] ?? 0;
}

/** Returns how pressing a finding is with how sure it is, and how near the targets of its exercise are, where it is of one. */
export function urgencyOfOther(one: OtherFinding, targets: readonly Target[], today: Day): number {
  const days = targets.filter(({ exercise }) => exercise === one.exercise).map(({ day }) => day);
  return urgencyOf(rankOfOther(one), one.certainty, nearnessOf(days, today));
}

/** Returns what tells two findings of equal urgency apart, whatever order they came in. */
export const placeOfOther = (one: OtherFinding): string =>
  [one.exercise ?? '', one.side ?? '', one.topic, one.type, 'place' in one ? one.place : '', keyOf(one)].join('\n');

const keyOf = (one: OtherFinding): string => (one.topic === 'cues' && 'cue' in one ? one.cue.cue : one.day);
