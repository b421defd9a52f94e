import type { Day } from '../domain/day';
import { dayNumber, type Track, type TrackStop } from './track';
import { type Judgement, judge, regimeIn, type TrendStatus, type TrendTarget } from './trend';
import { advance, type Hypothesis, type TrendState } from './trendFilter';
import { type Band, bandAhead } from './trendForecast';
import { SAID } from './trendModel';
import { type Observation, observe } from './trendObserve';

/*
 * A track followed from its first session to its last: what could be said after each, and what is said now. A session that is followed again
 * after the same sessions as before is not worked out anew.
 */

/** What could be said after one session, by the sessions up to it. */
export type FollowedStop = {
  readonly stop: TrackStop;
  readonly state: TrendState | undefined;
  readonly status: TrendStatus;
  readonly pStall: number;
  /** What the session was measured as, and whether that was more than ever before. */
  readonly seen: Observation;
  readonly isBest: boolean;
};

export type Followed = {
  readonly track: Track;
  readonly stops: readonly FollowedStop[];
};

/** Returns a track followed through all of its sessions. */
export function follow(track: Track): Followed {
  let state: TrendState | undefined;
  let best = Number.NEGATIVE_INFINITY;
  const stops = track.stops.map((stop): FollowedStop => {
    const seen = observe(track.kind, stop.judged);
    state = stateAfter(stop, track, state, seen);
    const isBest = seen.use !== 'none' && seen.y > best;
    if (isBest) best = seen.y;
    const { status, pStall } = regimeIn(state);
    return { stop, state, status, pStall, seen, isBest };
  });
  return { track, stops };
}

type Remembered = {
  readonly before: TrendState | undefined;
  readonly seen: Observation;
  readonly state: TrendState | undefined;
};
/** By exposure, and by track: the same exposure is judged on either side. */
const remembered = new WeakMap<object, Map<string, Remembered>>();

function stateAfter(
  { exposure, judged }: TrackStop,
  { side, way, variant, kind }: Track,
  before: TrendState | undefined,
  seen: Observation,
): TrendState | undefined {
  const name = `${side ?? ''}|${way}|${variant}`;
  const held = remembered.get(exposure) ?? new Map<string, Remembered>();
  const known = held.get(name);
  if (known && known.before === before && isSame(known.seen, seen)) return known.state;
  const state = advance(before, kind, judged.day, seen);
  remembered.set(exposure, held.set(name, { before, seen, state }));
  return state;
}

const isSame = (a: Observation, b: Observation): boolean =>
  a.y === b.y && a.h === b.h && a.v === b.v && a.use === b.use;

/** Returns what is said after the last session, with the chance of a target; undefined for no session. */
export function judgedNow({ stops }: Followed, target?: TrendTarget): Judgement | undefined {
  const last = stops.at(-1);
  return last && judge(last.state, last.stop.judged.day, target ? { target } : {});
}

/** Returns the level with its bands as it was known after a session; undefined while too little was known. */
export function bandAt({ state }: FollowedStop): Band | undefined {
  if (!state || state.used < SAID.fewestForLevel) return undefined;
  const known = bands.get(state) ?? bandAhead(state, 0);
  bands.set(state, known);
  return known;
}

/** By what was known: a chart that is drawn again over another time asks for the same ones. */
const bands = new WeakMap<TrendState, Band>();

/** Returns the level with its bands as it is forecast for a day after the last session; undefined while no status is told. */
export function bandOn({ stops }: Followed, day: Day): Band | undefined {
  const last = stops.at(-1);
  if (!last?.state || last.status === 'none') return undefined;
  return bandAhead(last.state, (dayNumber(day) - last.stop.judged.day) / 7);
}

/**
 * Returns since when a stall lasts: the session at which the heaviest account of one begins, but never before the second-last new best. Undefined
 * where no account of a stall is left.
 */
export function stallSince({ stops }: Followed): TrackStop | undefined {
  const last = stops.at(-1);
  if (!last?.state) return undefined;
  let heaviest: Readonly<Hypothesis> | undefined;
  for (const one of last.state.levels.flat())
    if (one.regime === 'stall' && (!heaviest || one.weight > heaviest.weight)) heaviest = one;
  if (!heaviest) return undefined;
  // the engine counts from the first session that told something
  const first = stops.findIndex(({ state }) => state);
  const bests = stops.flatMap(({ isBest }, n) => (isBest ? [n] : []));
  return stops[Math.max(first + heaviest.born, bests.at(-2) ?? 0)]?.stop;
}
