import type { Answers } from '../analysis/answers';
import type { Day } from '../domain/day';

/* What the screens ask of the analysis. Main hands it in; its code is loaded when a screen first asks, and works beside the page. */

/** How many clients of how many are worked through. */
export type Told = { readonly done: number; readonly of: number };

export type Analysing = {
  /**
   * One client's answers as of a day, kept until that client's records change; undefined where the store could not be read, the client is none, it
   * could not be worked out, or `signal` called it off.
   */
  readonly client: (
    stream: string,
    asOf: Day,
    tell?: (told: Told) => void,
    signal?: AbortSignal,
  ) => Promise<Answers | undefined>;
  /**
   * One client's answers from their own records alone, which are all that is read: how cues work leans on no other client's. Kept by nobody; undefined as
   * above.
   */
  readonly alone: (stream: string, asOf: Day, signal?: AbortSignal) => Promise<Answers | undefined>;
  /** Every client's, by stream, each told as soon as it is there; one that could not be worked out is missing. Undefined as above. */
  readonly studio: (
    asOf: Day,
    each: (answers: Answers, told: Told) => void,
    signal?: AbortSignal,
  ) => Promise<readonly Answers[] | undefined>;
};
