/** A line of the record as the page showed it. `set` is its `data-set`; `text` is all it says but its label. */
export type Line = { readonly set: string; readonly saved: boolean; readonly text: string };

/**
 * What the page tells the harness. An act that changes what is there is announced, and heard, before it is tapped. `acts` counts these taps: of an
 * announcement it is the number of the tap to come, of all else the number of the last one.
 */
export type Report = { readonly acts: number; readonly place: string } & (
  | ({ readonly type: 'line' } & Line)
  /** Log is about to be tapped; not waited for. */
  | { readonly type: 'will-log' }
  | { readonly type: 'will-touch'; readonly set: string; readonly word: string }
  | { readonly type: 'will-move' | 'will-remove'; readonly set: string }
  | { readonly type: 'will-undo' }
  /** Everything in the session is saved: what is not among the lines was undone, moved or removed, and that is saved too. */
  | { readonly type: 'settled'; readonly lines: readonly Line[] }
  /** Typed at least 400 ms ago and not touched since. */
  | { readonly type: 'typed'; readonly load: string }
  | { readonly type: 'typed-is-over' }
  /** The browser made the database anew: what it says of the old one. */
  | { readonly type: 'made-anew'; readonly why: string }
  | { readonly type: 'stuck'; readonly why: string }
);

/** Which acts the driver takes more often than others. */
export type Taste = 'all' | 'moves' | 'typing';

export type DriverOptions = { readonly seed: number; readonly taste: Taste };

/** The name of the function in the page that takes reports. */
export const BINDING = 'cuewrightLab';
