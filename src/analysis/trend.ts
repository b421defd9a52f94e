import { advance, type TrendState } from './trendFilter';
import { type Band, bandAhead, chanceAhead } from './trendForecast';
import { MODEL, SAID, type TrendKind, type TrendModel } from './trendModel';
import { observe, type TrendExposure } from './trendObserve';

/*
 * The trend engine: is a capacity still growing, how sure is that, where will it be (our own simulation study, STATS.md §8 and §9).
 */

export type TrendStatus = 'none' | 'ok' | 'watch' | 'stalled';

/** What is to be reached: kg (1RM), reps or degrees, on a day counted from the exposures' own origin. */
export type TrendTarget = { readonly value: number; readonly day: number };

/** What can be said after one session, by the sessions up to it. Slopes are in units u a week (about one per cent; degrees). */
export type Judgement = {
  /** `none`: not enough data. */
  readonly status: TrendStatus;
  /** The chance that it is in a stall, 0–1. */
  readonly pStall: number;
  readonly slopePerWeek: number;
  readonly slopeSd: number;
  /** Kg, reps or degrees, with bands that hold 80 and 95 % of what is possible. From the third session that is measured by. */
  readonly level?: number;
  readonly lo80?: number;
  readonly hi80?: number;
  readonly lo95?: number;
  readonly hi95?: number;
  /** The chance of the target on its day; once its day is past, of the level now. */
  readonly pHit?: number;
  /** By weeks ahead. */
  readonly ahead?: Readonly<Record<string, Band>>;
};

export type TrendQuestion = {
  readonly kind: TrendKind;
  /** In the order of their days. */
  readonly exposures: readonly TrendExposure[];
  readonly target?: TrendTarget;
  readonly aheadWeeks?: readonly number[];
};

const AHEAD = [2, 4, 8];

/**
 * Returns a judgement for each exposure, each from those up to itself; with `last`, of the last alone (none for no exposure). Nothing in it is
 * ever NaN or infinite.
 */
export function judgeTrend(question: TrendQuestion, { last = false, model = MODEL } = {}): readonly Judgement[] {
  const { kind, exposures, ...asked } = question;
  const judged: Judgement[] = [];
  let state: TrendState | undefined;
  for (const [n, exposure] of exposures.entries()) {
    state = advance(state, kind, exposure.day, observe(kind, exposure), model);
    if (!last || n === exposures.length - 1) judged.push(judge(state, exposure.day, asked, model));
  }
  return judged;
}

/** Returns what can be said on the day of the last session; `state` is undefined before any was measured by. */
export function judge(
  state: TrendState | undefined,
  day: number,
  { target, aheadWeeks = AHEAD }: Pick<TrendQuestion, 'target' | 'aheadWeeks'> = {},
  model: TrendModel = MODEL,
): Judgement {
  const { status, ...told } = regimeIn(state, model);
  if (!state || state.used < SAID.fewestForLevel) return { status, ...told };
  const { mean: level, ...band } = bandAhead(state, 0, model);
  if (status === 'none') return { status, ...told, level, ...band };
  const pHit = target ? { pHit: chanceAhead(state, target.value, (target.day - day) / 7, model) } : {};
  const ahead = Object.fromEntries(aheadWeeks.map((weeks) => [String(weeks), bandAhead(state, weeks, model)]));
  return { status, ...told, level, ...band, ...pHit, ahead };
}

type Regime = Pick<Judgement, 'pStall' | 'slopePerWeek' | 'slopeSd'>;

/** Returns what `judge` says but for levels, bands and chances, which cost more. */
export function regimeIn(state: TrendState | undefined, model: TrendModel = MODEL): Regime & Pick<Judgement, 'status'> {
  const told = state ? regimeOf(state) : beforeAny(model);
  return { status: statusOf(state, told.pStall), ...told };
}

function regimeOf({ levels }: TrendState): Regime {
  let [pStall, slope, square] = [0, 0, 0];
  for (const level of levels) {
    for (const one of level) {
      if (one.regime === 'stall') pStall += one.weight;
      slope += one.weight * one.slope;
      square += one.weight * (one.slope ** 2 + one.ss);
    }
  }
  return { pStall: Math.min(1, pStall), slopePerWeek: slope, slopeSd: Math.sqrt(Math.max(0, square - slope ** 2)) };
}

/** What is believed of anyone before a session. */
function beforeAny({ firstProgress: progress, firstSlope, stallSlope }: TrendModel): Regime {
  const slope = progress * firstSlope.mean + (1 - progress) * stallSlope.mean;
  const square =
    progress * (firstSlope.mean ** 2 + firstSlope.sd ** 2) +
    (1 - progress) * (stallSlope.mean ** 2 + stallSlope.sd ** 2);
  return { pStall: 1 - progress, slopePerWeek: slope, slopeSd: Math.sqrt(square - slope ** 2) };
}

function statusOf(state: TrendState | undefined, pStall: number): TrendStatus {
  if (!state || state.used < SAID.fewest || (state.lastDay - state.firstDay) / 7 < SAID.weeks) return 'none';
  if (pStall >= SAID.stalled) return 'stalled';
  return pStall >= SAID.watch ? 'watch' : 'ok';
}
