import type { Day } from '../domain/day';
import type { Area } from '../domain/muscles';
import type { NotMoved } from './moved';
import type { Counted, Said, TooFew } from './otherActs';
import type { LoadWeek } from './sessionLoad';
import type { UsualWeek } from './usualWeek';

/* What is found of the latest week that is over: tonnage, hard sets, carries, time under tension, relative volume, whole-session load. */

/** How a sum of a week stands to the usual weeks. */
type Usual = Extract<UsualWeek, { readonly type: 'below' | 'usual' | 'above' }>;
/** A week's tonnage, of one exercise or in all. */
export type TonnageFinding = Said & {
  readonly topic: 'tonnage';
  /** Absent of the total, a sum of things that are not comparable. */
  readonly exercise?: string;
  /** Counted sets of all working sets, 0–1, and the counts. */
  readonly coverage: number;
  readonly sets: number;
  readonly not: { readonly [W in NotMoved]?: number };
  /** Sets by a body mass more than 28 days off. */
  readonly stale: number;
  /** How many exercises are in it. */
  readonly exercises: number;
} & (
    | (Omit<Usual, 'week'> & {
        /** Of `above` and `below`: the share of usual weeks that would not be told of by this rule (our own simulation study). */
        readonly certainty?: number;
      })
    | (TooFew & { readonly kg: number })
    /** Too much of what is usually counted is not known, to be set against other weeks. */
    | (Counted & { readonly type: 'partly-known'; readonly kg?: number })
    /** Cut short or missed in part: no usual week. */
    | (Counted & { readonly type: 'set-apart'; readonly kg?: number })
    /** Reckoned by a mass that is old: `massDay` is the day it was noted for. */
    | (Counted & { readonly type: 'stale-mass'; readonly kg: number; readonly massDay: Day })
  );

/** A week's hard sets by area, against the median of the own weeks before; there is no plan to set them against yet. */
export type SetsFinding = Said &
  Counted & {
    readonly topic: 'sets';
    readonly hard: number;
    readonly easy: number;
    /** Sets that cannot be judged: nobody told their effort or reps. */
    readonly untold: number;
    readonly unplaced: number;
    readonly areas: readonly {
      readonly area: Area;
      readonly fractional: number;
      readonly direct: number;
      readonly indirect: number;
      /** The median of the weeks before, where there are enough. */
      readonly usual?: number;
    }[];
    /** Cut short or missed in part: no usual week. */
    readonly setApart?: true;
    /** The weeks before that it is set against. */
    readonly weeks: readonly Day[];
  } & (
    | { readonly type: 'week' | 'untold' }
    | { readonly type: 'too-few'; readonly has: number; readonly needs: number }
  );

/**
 * A week's sum of one exercise against the median of the own weeks before. Carries: kg × m. Time: seconds under tension. Volume: repetitions at 100 % of
 * what could be lifted once lately.
 */
export type SumFinding = Said &
  Counted & {
    readonly topic: 'carries' | 'time' | 'volume';
    readonly exercise: string;
    /** Sets that are counted, and those that are not. */
    readonly sets: number;
    readonly not: number;
    /** Of carries: metres. Of what was held with a load: kg·s. */
    readonly metres?: number;
    readonly kgSeconds?: number;
  } & (
    | {
        readonly type: 'week';
        readonly value: number;
        readonly usual: number;
        readonly weeks: readonly Day[];
      }
    | { readonly type: 'too-few'; readonly value: number; readonly has: number; readonly needs: number }
    /** A tenth of the sets or more could not be counted: `value`, where there is one, is the least it can have been. Not set against other weeks. */
    | { readonly type: 'partly-known'; readonly value?: number }
    /** Cut short or missed in part: no usual week. */
    | { readonly type: 'set-apart'; readonly value: number }
  );

/** The whole-session load of the latest finished week, other work included, AU. Descriptive: no ratio, and it foretells no injury. */
export type LoadFinding = Said &
  Counted & {
    readonly topic: 'load';
    /** `known`: all seven days. `days-unknown`: days without a line, which may have been of rest. `least`: something was done whose load nobody told. */
    readonly type: 'known' | 'days-unknown' | 'least' | 'untold';
    /** AU; absent of `untold`. Of `least`, the least it can have been. */
    readonly total?: number;
    readonly sessions: number;
    readonly otherWork: number;
    readonly missing: number;
    /** Days that are known, of seven, and those without any line. */
    readonly known: number;
    readonly notLogged: readonly Day[];
    readonly variation: LoadWeek['variation'];
    readonly change?: NonNullable<LoadWeek['change']>;
  };
