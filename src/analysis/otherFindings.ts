import type { Day } from '../domain/day';
import type { Side } from '../domain/set';
import type { CameInFinding, CuesFinding, LandingsFinding, PainFinding, SidesFinding } from './clientFinding';
import type { LearningCurve } from './learningCurve';
import type { Counted, Said, TooFew } from './otherActs';
import type { Measured, RangeChange } from './realChange';
import type { LoadFinding, SetsFinding, SumFinding, TonnageFinding } from './weekFinding';

/*
 * What the methods beside the trend engine find of a client, as data: what it is, since when, on what it rests, how sure it is, and what to do next. The
 * words are the screen's. None is a diagnosis, foretells an injury, or forbids a session. Plain objects of numbers and texts, for a worker and for JSON.
 */

/** What a finding is about; the screens have a part for each. */
export const TOPICS = [
  'pain',
  'came-in',
  'sides',
  'landings',
  'cues',
  'tonnage',
  'sets',
  'carries',
  'time',
  'volume',
  'load',
  'measures',
  'learning',
] as const;
export type Topic = (typeof TOPICS)[number];

/** Degrees of a test, from the first day to the last. */
export type MeasuresFinding = Said & { readonly topic: 'measures'; readonly exercise: string; readonly side?: Side } & (
    | {
        /** `certainty`: in so many of 100 cases measuring twice is less apart than `mdc`. */
        readonly type: 'changed' | 'within-error';
        readonly certainty?: number;
        readonly unit: 'degrees';
        readonly change: RangeChange;
        readonly since: Day;
      }
    /** What measuring twice is apart by is not known for this test. */
    | (Counted & {
        readonly type: 'error-unknown';
        readonly days: number;
        /** Each the mean of the day's trials. */
        readonly first: Measured;
        readonly last: Measured;
      })
    | TooFew
  );

/** How the share of good ones grows on the weaker side. */
export type LearningFinding = Said & {
  readonly topic: 'learning';
  readonly exercise: string;
  /** The weaker side, by the last three sessions in which it was judged. */
  readonly side: Side;
  /** Sessions in which it was judged; the means of the last three of them, 0–1, of this side and the other. */
  readonly judged: number;
  readonly share: number;
  readonly other: number;
  readonly since: Day;
} & (Extract<LearningCurve, { readonly type: 'curve' }> | { readonly type: 'no-improvement' | 'no-bend' } | TooFew);

export type OtherFinding =
  | PainFinding
  | CameInFinding
  | SidesFinding
  | LandingsFinding
  | CuesFinding
  | TonnageFinding
  | SetsFinding
  | SumFinding
  | LoadFinding
  | MeasuresFinding
  | LearningFinding;
