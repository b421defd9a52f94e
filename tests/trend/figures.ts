import type { TrendKind } from '../../src/analysis/trendModel';
import type { TrendExposure } from '../../src/analysis/trendObserve';
import type { History } from './world';

/** What a world looks like from outside: to be held against what it was told to be. */
export type Figures = {
  readonly histories: number;
  readonly kinds: Readonly<Record<TrendKind, number>>;
  readonly weeks: number;
  readonly exposures: number;
  readonly states: Readonly<Record<'P' | 'G' | 'S' | 'L', number>>;
  readonly plateaus: number;
  readonly resumed: number;
  readonly deloads: number;
  readonly layoffs: number;
  /** Of exposures. */
  readonly badDays: number;
  readonly hit: number;
  /** From the true start to the target, u: the 10th, 50th and 90th of a hundred. */
  readonly target: readonly number[];
  /** Spread within a lift's history about the truth, u: of the best set, and of all sets together less the rep curve. */
  readonly noiseBest: readonly number[];
  readonly noiseAll: readonly number[];
  /** Sets to the limit, and what is told as left on average. */
  readonly toTheLimit: number;
  readonly left: number;
};

/** Returns the figures of some histories; shares are 0–1, and lists are the 10th, 50th and 90th of a hundred. */
export function figuresOf(histories: readonly History[]): Figures {
  const kinds = { e1rm: 0, reps: 0, deg: 0 };
  for (const { kind } of histories) kinds[kind] += 1;
  const truths = histories.map(({ truth }) => truth);
  const states = truths.map(({ state }) => state).join('');
  const lifts = histories.filter(({ kind }) => kind === 'e1rm');
  const sets = lifts.flatMap(({ exposures }) => exposures.flatMap((each) => ('sets' in each ? each.sets : [])));
  const stalls = truths.filter((truth) => truth.plateau_day !== null);
  return {
    histories: histories.length,
    kinds,
    weeks: mean(truths.map(({ level }) => (level.length - 1) / 7)),
    exposures: mean(histories.map(({ exposures }) => exposures.length)),
    states: {
      P: share([...states], (state) => state === 'P'),
      G: share([...states], (state) => state === 'G'),
      S: share([...states], (state) => state === 'S'),
      L: share([...states], (state) => state === 'L'),
    },
    plateaus: stalls.length / histories.length,
    resumed: share(stalls, ({ resume_day }) => resume_day !== null),
    deloads: share(truths, (truth) => truth.deload_weeks.length > 0),
    layoffs: share(truths, ({ layoff }) => layoff !== null),
    badDays: mean(histories.map(({ exposures, truth }) => share(exposures, ({ day }) => truth.bad_days.includes(day)))),
    hit: share(truths, ({ hit }) => hit),
    target: tenths(histories.map(targetDistance)),
    noiseBest: tenths(lifts.flatMap((history) => noise(history, bestSet))),
    noiseAll: tenths(lifts.flatMap((history) => noise(history, allSets))),
    toTheLimit: share(sets, ({ rir }) => rir === 0),
    left: mean(sets.map(({ rir }) => rir)),
  };
}

const mean = (of: readonly number[]): number => of.reduce((sum, each) => sum + each, 0) / of.length;
const share = <T>(of: readonly T[], is: (each: T) => boolean): number => of.filter(is).length / of.length;

function tenths(of: readonly number[]): number[] {
  const sorted = of.toSorted((a, b) => a - b);
  return [0.1, 0.5, 0.9].map((part) => sorted[Math.floor(part * (sorted.length - 1))] ?? Number.NaN);
}

function targetDistance({ kind, target, truth }: History): number {
  const start = truth.level[0]!;
  if (kind === 'deg') return target.value - start;
  const more = kind === 'reps' ? 30 : 0;
  return 100 * Math.log((more + target.value) / (more + start));
}

type Estimate = (exposure: TrendExposure, kappa: number) => number | undefined;

/** Lighter weeks left out, whether noted or not: they are no measurement. */
function noise({ exposures, truth }: History, estimate: Estimate): number[] {
  const off = exposures
    .filter(({ day }) => !truth.deload_weeks.includes(Math.floor(day / 7)))
    .flatMap((exposure) => {
      const estimated = estimate(exposure, truth.kappa);
      return estimated === undefined ? [] : [estimated - 100 * Math.log(truth.level[exposure.day]!)];
    });
  if (off.length < 5) return [];
  const middle = mean(off);
  return [Math.sqrt(off.reduce((sum, each) => sum + (each - middle) ** 2, 0) / (off.length - 1))];
}

/** As any simple tool would: load times 1 + (reps and what was left)/30. */
function bestSet(exposure: TrendExposure): number | undefined {
  if (!('sets' in exposure)) return undefined;
  return Math.max(...exposure.sets.map(({ load, reps, rir }) => 100 * Math.log(load * (1 + (reps + rir) / 30))));
}

/** By the true rep curve, fatigue taken out. */
function allSets(exposure: TrendExposure, kappa: number): number | undefined {
  if (!('sets' in exposure)) return undefined;
  return mean(
    exposure.sets.map(({ load, reps, rir }, before) => {
      const most = Math.max(1, reps + rir + 0.4 * before + (rir === 0 ? 0.5 : 0));
      return 100 * Math.log(load * (1 + (kappa * (most - 1)) / 28));
    }),
  );
}
