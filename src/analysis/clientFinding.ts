import type { Day } from '../domain/day';
import type { Side } from '../domain/set';
import type { ItemStanding } from './cameIn';
import type { CueEffect, CueEffects } from './cueEffect';
import type { CueAgainstNone } from './cueUses';
import type { SessionLandings } from './landingLoad';
import type { LandingQuality } from './landingQuality';
import type { Counted, Said, TooFew } from './otherActs';
import type { OwnBest, SideDate, SidesError, SideUnit } from './sides';

/* What is found of a client on a day or over dates: pain, how they came in, left and right, landings, cues. */

/** Pain that was noted in sets of one exercise, at one place in several, or before sessions. To be asked about: what it comes from is not for us to say. */
export type PainFinding = Said &
  Counted & {
    readonly topic: 'pain';
    /**
     * `again`: after one or more sessions without a note of it. `running`: in the last two sessions or more. `noted`: once, and of such a kind that the
     * exercise was stopped. `once`: one mild note; `now-and-then`: mild before sessions, with others between: both to ask about, and no more.
     */
    readonly type: 'again' | 'running' | 'noted' | 'once' | 'now-and-then';
    readonly about: 'exercise' | 'place' | 'arrival';
    readonly exercise?: string;
    /** As it was typed, in small letters. */
    readonly place?: string;
    readonly side?: Side;
    /** The first of the notes that it rests on. */
    readonly since: Day;
    /** The sessions with pain, the oldest first: the most of each, 0–10 (absent where a set only ended in pain), and where. */
    readonly notes: readonly PainNote[];
    /** Sessions with pain that followed each other up to the last one, and the day of the first of these. */
    readonly run: { readonly sessions: number; readonly since: Day };
    /** Sessions between the last two notes, and after the last one, without a note of pain; in how many of them 0 was told. */
    readonly between: { readonly sessions: number; readonly toldNone: number };
    readonly after: { readonly sessions: number; readonly toldNone: number };
  };
export type PainNote = {
  readonly session: string;
  readonly day: Day;
  readonly value?: number;
  /** Told to be rising within a set, or a set was ended by it. */
  readonly rising: boolean;
  readonly ended: boolean;
  readonly exercises: readonly string[];
  readonly sides: readonly Side[];
  readonly places: readonly string[];
};

/** How they came in on the last day they were asked. Changes nothing by itself. */
export type CameInFinding = Said & { readonly topic: 'came-in' } & (
    | {
        readonly type: 'below' | 'usual';
        /** Of `below`: the share of usual days that would not be told of by this rule (our own simulation study). */
        readonly certainty?: number;
        /** The day's sum of five items, 5–25, and the mean of the days before. */
        readonly sum: number;
        readonly normal: number;
        readonly z: number;
        readonly days: number;
        /** The items that lie below their own mean, the furthest first; shown, and not judged one by one. */
        readonly moved: readonly ItemStanding[];
        readonly items: readonly ItemStanding[];
        /** Days in a row up to this one, of those asked, that came in below. */
        readonly running: number;
        readonly since?: Day;
      }
    /** A plain picture without a verdict. */
    | (Counted & {
        readonly type: 'plain';
        readonly sum?: number;
        readonly items: readonly ItemStanding[];
        /** Days with all five items among those looked back on, and days since the first. */
        readonly has: number;
        readonly needs: number;
        readonly span: number;
        readonly needsSpan: number;
      })
    /** Told to be as usual, without numbers, or not all five were told. */
    | (Counted & { readonly type: 'as-usual' | 'not-all'; readonly items: readonly ItemStanding[] })
  );

/** Left and right of an exercise, both in their own units. */
export type SidesFinding = Said & { readonly topic: 'sides'; readonly exercise: string; readonly unit: SideUnit } & (
    | {
        /** `gap`: beyond the test's error and repeated. `closing`: by more than the error less than it was. `closed`: it was, and is within the error now. */
        readonly type: 'gap' | 'closing' | 'closed';
        /** The weaker side, that it was where it has closed. */
        readonly side: Side;
        /** The first of the dates beyond the error. */
        readonly since: Day;
        /** Dates of the last three that lie beyond the error with this side the lesser. */
        readonly times: number;
        readonly of: number;
        readonly last: SideDate;
        /** The date with the widest gap of this side. */
        readonly widest: SideDate;
        readonly best: { readonly left?: OwnBest; readonly right?: OwnBest };
        readonly error: SidesError;
      }
    | {
        /** `even`: no date of the last three lies beyond the error; `once`: one does. */
        readonly type: 'even' | 'once';
        readonly last: SideDate;
        readonly best: { readonly left?: OwnBest; readonly right?: OwnBest };
        readonly error: SidesError;
      }
    /** What two trials of one side are apart by chance is not known for this test: both are shown, and nothing is said of them. */
    | (Counted & {
        readonly type: 'error-unknown';
        /** Pairs of trials that there are of the ten or more by which the own error can be told. */
        readonly has: number;
        readonly needs: number;
        readonly last: SideDate;
        readonly best: { readonly left?: OwnBest; readonly right?: OwnBest };
      })
    | TooFew
  );

export type LandingsFinding = Said & { readonly topic: 'landings' } & (
    | (Counted & {
        /** The latest session with landings against the range of the level. Above is worth a look, and no danger. */
        readonly type: 'below' | 'within' | 'above';
        readonly landings: number;
        readonly against: NonNullable<SessionLandings['against']>;
        readonly hoursSince?: number;
      })
    /** Landings were counted, and no level is noted to set them against. */
    | (Counted & { readonly type: 'no-level'; readonly landings: number; readonly hoursSince?: number })
    | {
        /** `good`: how many were good, by side and direction. `weaker-side`: one side is less often good; `certainty` is the chance of that. */
        readonly type: 'good' | 'weaker-side';
        readonly certainty: number;
        readonly side?: Side;
        readonly since: Day;
        /** By side over all directions, each with its 95 % interval; then by side and direction. */
        readonly sides: readonly LandingQuality[];
        readonly parts: readonly LandingQuality[];
        readonly unjudged: number;
      }
    /** Nobody judged enough landings. */
    | (TooFew & { readonly unjudged: number })
  );

export type CuesFinding = Said & { readonly topic: 'cues' } & (
    | {
        /** The cue that works best of those for one fault; `certainty` is the chance of that among those used. */
        readonly type: 'best';
        readonly certainty: number;
        readonly cue: CueEffect;
        readonly against?: CueAgainstNone;
        readonly badDay: CueEffects['badDay'];
        /** How many cues it is the best of. */
        readonly of: number;
      }
    | {
        /** A cue after which the fault went no more often than without one; `certainty` is the chance that it does not help by a tenth or more. */
        readonly type: 'no-help';
        readonly certainty: number;
        readonly cue: CueEffect;
        readonly against: CueAgainstNone;
      }
    /** A cue that is seldom or mostly answered "better"; `certainty` is the chance, at the least, that it is so in fewer, or more, than half of its uses. */
    | {
        readonly type: 'seldom' | 'often';
        readonly certainty: number;
        readonly cue: CueEffect;
        readonly against?: CueAgainstNone;
      }
    /** Used often enough, and none is clearly the best or of no use. */
    | { readonly type: 'not-clear'; readonly cues: readonly CueEffect[]; readonly unanswered: number }
    /** Too few to tell: the answered uses of the cue used most; `used` says all. */
    | (TooFew & { readonly cues: readonly CueEffect[]; readonly unanswered: number })
  );
