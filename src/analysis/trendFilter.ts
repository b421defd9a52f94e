import { MODEL, type TrendKind, type TrendModel } from './trendModel';
import type { Observation } from './trendObserve';

/*
 * A switching Kalman filter (our own simulation study, STATS.md §8): every hypothesis is progressing or stalled since some session, and holds
 * level, slope a week and the deviation of the personal rep curve, with their covariance; four levels of noise compete. Nothing is replayed
 * for one session more.
 */

/** One account of how it went. `ll` … `cc` are the covariance of level, slope and curve; numbers in units u. */
export type Hypothesis = {
  regime: 'progress' | 'stall';
  /** The session, by its place in the history, at which the regime began. */
  born: number;
  weight: number;
  level: number;
  slope: number;
  curve: number;
  ll: number;
  ls: number;
  lc: number;
  ss: number;
  sc: number;
  cc: number;
};

/** What the engine knows after some sessions. Plain data: it can be stored, and gone on from. */
export type TrendState = {
  readonly kind: TrendKind;
  /** Sessions so far, and those that were measured by. */
  readonly sessions: number;
  readonly used: number;
  /** Days of the first and of the last session. */
  readonly firstDay: number;
  readonly lastDay: number;
  /** The hypotheses of each level of noise; all weights add up to 1. */
  readonly levels: readonly (readonly Readonly<Hypothesis>[])[];
};

/**
 * Returns what is known after one more session; `state` is undefined before the first that is measured by, and is never changed. A session on
 * the day of the one before (or on an earlier one, where clocks were wrong) comes no time later.
 */
export function advance(
  state: TrendState | undefined,
  kind: TrendKind,
  day: number,
  seen: Observation,
  model: TrendModel = MODEL,
): TrendState | undefined {
  if (!state) return seen.use === 'none' ? undefined : begin(kind, day, seen, model);
  const days = Math.max(0, day - state.lastDay);
  const levels = predictAll(state, Math.min(days, model.gap.mostDays), model);
  const isUsed = seen.use === 'measured' || (seen.use === 'lower' && seen.y > expected(levels, seen.h));
  if (isUsed) updateAll(levels, model.noise[kind], seen, model);
  for (const level of levels) while (level.length > model.kept) mergeLightest(level);
  return {
    ...state,
    sessions: state.sessions + 1,
    used: state.used + (isUsed ? 1 : 0),
    lastDay: state.lastDay + days,
    levels,
  };
}

function begin(kind: TrendKind, day: number, seen: Observation, model: TrendModel): TrendState {
  const noise = model.noise[kind];
  const start = (regime: Hypothesis['regime'], share: number, slope: TrendModel['firstSlope']): Hypothesis => ({
    regime,
    born: 0,
    weight: share / noise.length,
    level: seen.y,
    slope: slope.mean,
    curve: 0,
    ll: model.firstLevelSd ** 2,
    ls: 0,
    lc: 0,
    ss: slope.sd ** 2,
    sc: 0,
    cc: model.repCurveSd ** 2,
  });
  const levels = noise.map(() => [
    start('progress', model.firstProgress, model.firstSlope),
    start('stall', 1 - model.firstProgress, model.stallSlope),
  ]);
  updateAll(levels, noise, seen, model);
  return { kind, sessions: 1, used: 1, firstDay: day, lastDay: day, levels };
}

/** A stretch of time, and what it does to whoever lives through it. */
type Stretch = {
  readonly weeks: number;
  readonly decay: number;
  readonly carried: number;
  /** What a gap takes off the level, and adds to its variance. */
  readonly loss: number;
  readonly unsure: number;
};

function stretchOf(weeks: number, { tau }: TrendModel, loss = 0, unsure = 0): Stretch {
  const decay = Math.exp(-weeks / tau);
  return { weeks, decay, carried: tau * (1 - decay), loss, unsure };
}

/** Every hypothesis goes on as it is, less the share that switches; of each regime that share becomes one new hypothesis. */
function predictAll(state: TrendState, days: number, model: TrendModel): Hypothesis[][] {
  const weeks = days / 7;
  const beyond = Math.max(0, days - model.gap.days);
  const whole = stretchOf(weeks, model, model.gap.loss * beyond, (model.gap.sd * beyond) ** 2);
  const firstHalf = stretchOf(weeks / 2, model);
  const secondHalf = stretchOf(weeks / 2, model, whole.loss, whole.unsure);
  const ends = { progress: 1 - Math.exp(-model.toStall * weeks), stall: 1 - Math.exp(-model.toProgress * weeks) };
  return state.levels.map((level) => {
    const next: Hypothesis[] = [];
    for (const one of level) {
      const same = copyOf(one, one.weight * (1 - ends[one.regime]));
      predict(same, whole, model);
      next.push(same);
    }
    for (const regime of REGIMES) {
      const slope = regime === 'stall' ? model.stallSlope : model.resumedSlope;
      let born: Hypothesis | undefined;
      for (const one of level) {
        if (one.regime === regime || weeks === 0) continue;
        const switched = copyOf(one, one.weight * ends[one.regime]);
        predict(switched, firstHalf, model);
        switched.regime = regime;
        switched.born = state.sessions;
        switched.slope = slope.mean;
        switched.ss = slope.sd * slope.sd;
        switched.ls = 0;
        switched.sc = 0;
        predict(switched, secondHalf, model);
        if (born) mergeInto(born, switched);
        else born = switched;
      }
      if (born) next.push(born);
    }
    return next;
  });
}

/** Field by field: spread out, it would cost three times as much in the innermost loop there is. */
const copyOf = (one: Readonly<Hypothesis>, weight: number): Hypothesis => ({
  regime: one.regime,
  born: one.born,
  weight,
  level: one.level,
  slope: one.slope,
  curve: one.curve,
  ll: one.ll,
  ls: one.ls,
  lc: one.lc,
  ss: one.ss,
  sc: one.sc,
  cc: one.cc,
});

const REGIMES = ['progress', 'stall'] as const;

/** Lives through a stretch: gains wear off while progressing; the slope of a stall stays what it is. */
function predict(one: Hypothesis, { weeks, decay, carried, loss, unsure }: Stretch, model: TrendModel): void {
  const progresses = one.regime === 'progress';
  const keeps = progresses ? decay : 1;
  const carries = progresses ? carried : weeks;
  one.level += one.slope * carries - loss;
  one.slope *= keeps;
  one.ll += carries * (2 * one.ls + carries * one.ss) + model.levelDrift * weeks + unsure;
  one.lc += carries * one.sc;
  one.ls = keeps * (one.ls + carries * one.ss);
  one.sc *= keeps;
  if (progresses) one.ss = keeps * keeps * one.ss + model.slopeDrift * weeks;
}

/** What a session would be measured as, before it is. */
function expected(levels: readonly (readonly Hypothesis[])[], h: number): number {
  let sum = 0;
  for (const level of levels) for (const one of level) sum += one.weight * (one.level - h * one.curve);
  return sum;
}

function updateAll(
  levels: readonly Hypothesis[][],
  noise: readonly number[],
  seen: Observation,
  model: TrendModel,
): void {
  let total = 0;
  for (const [n, level] of levels.entries()) {
    const variance = seen.v + (noise[n] ?? 0) ** 2;
    for (const one of level) {
      one.weight *= update(one, seen, variance, model);
      total += one.weight;
    }
  }
  for (const level of levels) for (const one of level) one.weight /= total;
}

/** Takes a measurement in, as one of an ordinary day or of a bad one, and returns its likelihood. */
function update(one: Hypothesis, { y, h }: Observation, variance: number, { badDay }: TrendModel): number {
  const onLevel = one.ll - h * one.lc;
  const onSlope = one.ls - h * one.sc;
  const onCurve = one.lc - h * one.cc;
  const spread = onLevel - h * onCurve + variance;
  const badSpread = spread + badDay.sd ** 2;
  const off = y - one.level + h * one.curve;
  const badOff = off - badDay.shift;
  const ordinary = ((1 - badDay.share) * Math.exp((-0.5 * off * off) / spread)) / Math.sqrt(spread);
  const bad = (badDay.share * Math.exp((-0.5 * badOff * badOff) / badSpread)) / Math.sqrt(badSpread);
  // so far out that neither can be told: as if the day were ordinary
  const isBad = ordinary + bad > 0 ? bad / (ordinary + bad) : 0;
  const [gain, badGain] = [off / spread, badOff / badSpread];
  const by = (1 - isBad) * gain + isBad * badGain;
  const less = (1 - isBad) / spread + isBad / badSpread - isBad * (1 - isBad) * (gain - badGain) ** 2;
  one.level += onLevel * by;
  one.slope += onSlope * by;
  one.curve += onCurve * by;
  one.ll -= onLevel * onLevel * less;
  one.ls -= onLevel * onSlope * less;
  one.lc -= onLevel * onCurve * less;
  one.ss -= onSlope * onSlope * less;
  one.sc -= onSlope * onCurve * less;
  one.cc -= onCurve * onCurve * less;
  return ordinary + bad + LEAST_LIKELY;
}

/** No hypothesis dies of one session. */
const LEAST_LIKELY = 1e-9;

/** Merges the lightest hypothesis whose regime has another into the one of its regime that was born nearest. */
function mergeLightest(level: Hypothesis[]): void {
  let lightest: Hypothesis | undefined;
  for (const one of level) {
    if (lightest && one.weight >= lightest.weight) continue;
    if (level.some((other) => other !== one && other.regime === one.regime)) lightest = one;
  }
  if (!lightest) throw new Error('no two hypotheses of one regime');
  const light = lightest;
  let nearest: Hypothesis | undefined;
  for (const one of level) {
    if (one === light || one.regime !== light.regime) continue;
    if (!nearest || Math.abs(one.born - light.born) < Math.abs(nearest.born - light.born)) nearest = one;
  }
  if (nearest) mergeInto(nearest, light);
  level.splice(level.indexOf(light), 1);
}

/** Two accounts become one with their mean and spread; it is as old as the heavier. */
function mergeInto(one: Hypothesis, other: Hypothesis): void {
  const weight = one.weight + other.weight;
  const share = weight > 0 ? other.weight / weight : 0.5;
  const between = share * (1 - share);
  const [level, slope, curve] = [other.level - one.level, other.slope - one.slope, other.curve - one.curve];
  if (other.weight > one.weight) one.born = other.born;
  one.weight = weight;
  one.level += share * level;
  one.slope += share * slope;
  one.curve += share * curve;
  one.ll += share * (other.ll - one.ll) + between * level * level;
  one.ls += share * (other.ls - one.ls) + between * level * slope;
  one.lc += share * (other.lc - one.lc) + between * level * curve;
  one.ss += share * (other.ss - one.ss) + between * slope * slope;
  one.sc += share * (other.sc - one.sc) + between * slope * curve;
  one.cc += share * (other.cc - one.cc) + between * curve * curve;
}
