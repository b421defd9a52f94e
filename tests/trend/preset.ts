import type { TrendKind } from '../../src/analysis/trendModel';

/*
 * The invented worlds that trends are judged in, in numbers: how capacities grow, stall and fall, how people train and how well they count what
 * was left. Units u: one per cent of a load, 1/30 of a rep more or one degree; weeks.
 */

export type Range = readonly [from: number, to: number];

export type Preset = {
  /** One in so many, in their order. */
  readonly kinds: readonly [TrendKind, ...TrendKind[]];
  readonly perWeek: readonly [number, ...number[]];
  readonly sets: readonly [number, ...number[]];
  /** Gains a week at the start, and the time constant by which they wear off. */
  readonly gain: Readonly<Record<TrendKind, Range>>;
  readonly tau: Readonly<Record<TrendKind, Range>>;
  readonly plateaus: number;
  readonly deloads: number;
  readonly layoffs: number;
  /** Of sessions. */
  readonly badDays: number;
  /** Spread of the form of a day, and how many days it takes to pass. */
  readonly form: Range;
  readonly formDays: number;
  /** Spread of the personal rep curve, as a share of the usual one. */
  readonly curve: number;
  /** Spread of what is told as left where nothing is, and what each rep left adds to it. */
  readonly miscount: Range;
  /** Spread of the start as it is guessed when a target is set for a lift. */
  readonly guess: number;
};

export type PresetName = 'base' | 'easy' | 'hard' | 'stress';

const base: Preset = {
  kinds: ['e1rm', 'e1rm', 'e1rm', 'e1rm', 'reps', 'deg'],
  perWeek: [1, 2, 2, 3, 3],
  sets: [1, 2, 3, 4, 4],
  gain: { e1rm: [0, 2], reps: [0, 1.4], deg: [0, 2.2] },
  tau: { e1rm: [12, 50], reps: [12, 50], deg: [12, 30] },
  plateaus: 0.55,
  deloads: 0.7,
  layoffs: 0.35,
  badDays: 0.06,
  form: [1, 2.5],
  formDays: 3,
  curve: 0.18,
  miscount: [0.5, 0.25],
  guess: 3,
};

/** The base world, one of disciplined people and quiet days, one of noisy ones, and one of slow gains and long moods. */
export const PRESETS: Readonly<Record<PresetName, Preset>> = {
  base,
  easy: {
    ...base,
    kinds: ['e1rm'],
    perWeek: [2],
    sets: [1, 2, 3, 4],
    gain: { ...base.gain, e1rm: [0.8, 2] },
    tau: { ...base.tau, e1rm: [30, 80] },
    deloads: 0.4,
    layoffs: 0.05,
    badDays: 0.025,
    form: [0.6, 1.2],
    curve: 0.1,
    guess: 2.5,
  },
  hard: { ...base, badDays: 0.1, form: [1.5, 3.5], formDays: 5, curve: 0.25, miscount: [0.7, 0.35], guess: 4 },
  stress: {
    ...base,
    gain: { e1rm: [0, 1.4], reps: [0, 1], deg: [0, 1.5] },
    tau: { e1rm: [6, 20], reps: [6, 20], deg: [6, 20] },
    badDays: 0.12,
    form: [1.5, 2.8],
    formDays: 8,
  },
};
