import type { Day } from '../domain/day';
import type { Side } from '../domain/set';

/* What every finding beside the trend's has: its day, what it rests on, how sure it is, what to do next. */

/** What to do next. None of them is an order, and none takes a session away. */
export type OtherAct =
  | { readonly type: 'keep-on' | 'look-into' | 'ask-the-client' | 'note-mass' | 'note-level' | 'try-another-cue' }
  /** Of a client in pain: a licensed practitioner is to be asked; with `held`, the exercise was stopped, and is held back until a clearance is noted. */
  | { readonly type: 'refer'; readonly held?: true }
  | { readonly type: 'test-again'; readonly on: Day }
  /** How many more are needed before anything can be said. */
  | { readonly type: 'log-more'; readonly what: LoggedMore; readonly count: number }
  /** `sets` or sessions whose effort nobody told. */
  | { readonly type: 'note-effort'; readonly of: 'sets' | 'sessions'; readonly count: number }
  /** Sets that lack a load, reps, a distance, a time or a tempo. */
  | { readonly type: 'note-sets'; readonly count: number }
  | { readonly type: 'confirm-rest-days'; readonly days: readonly Day[] };

/** `trials`: of each side on one day; `uses`: of one cue, answered; `judged`: landings or tries that somebody judged. */
export type LoggedMore = 'weeks' | 'days' | 'dates' | 'trials' | 'uses' | 'judged' | 'sessions';

/** What all of them have. */
export type Said = {
  /** The day it is said of: of a week, its first day. */
  readonly day: Day;
  /** The ids of the sessions it rests on, the oldest first; the last 24 at the most. */
  readonly evidence: readonly string[];
  readonly next: OtherAct;
  readonly exercise?: string;
  readonly side?: Side;
  readonly since?: Day;
  /** How sure it is, 0–1; of what, the type says. Absent where the method has no chance to tell: its counts stand for it. */
  readonly certainty?: number;
};
/** What was noted or counted, and rests on no chance. */
export type Counted = { readonly certainty: 1 };
/** Not enough: how many there are, and how many are needed. */
export type TooFew = Counted & { readonly type: 'too-few'; readonly has: number; readonly needs: number };
