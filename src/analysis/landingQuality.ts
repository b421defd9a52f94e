import type { SessionRecord } from '../domain/session';
import {
  DIRECTIONS,
  type Direction,
  goodOf,
  LANDING_SIGNS,
  type LandingSign,
  type SetRecord,
  SIDES,
  type Side,
} from '../domain/set';
import { wilson } from './stats/wilson';
import { inOrder } from './weeks';

/*
 * How many landings were good of those that were judged, by side and direction, with the interval the true share lies in (Wilson, 95 %). What was seen
 * is a matter for cues; it is no diagnosis, and no landing that nobody judged is taken for good or bad.
 */

export type LandingQuality = {
  readonly side?: Side;
  readonly direction?: Direction;
  readonly good: number;
  readonly of: number;
  /** Share of good ones, 0–1, and its 95 % interval. */
  readonly share: number;
  readonly low: number;
  readonly high: number;
  /** Of landings judged one by one: in how many each sign was missing. */
  readonly missing: { readonly [S in LandingSign]?: number };
};

export type LandingsJudged = {
  /** By side (left, right, both), then direction; what was never judged is not there. */
  readonly parts: readonly LandingQuality[];
  /** Landings that nobody judged, and sets whose numbers do not go together. */
  readonly unjudged: number;
  readonly unread: number;
};

/** Returns the quality of landings over sessions, of one exercise where that is named, warm-ups left out. */
export function landingQuality(sessions: readonly SessionRecord[], exercise?: string): LandingsJudged {
  const parts = new Map<string, Building>();
  let [unjudged, unread] = [0, 0];
  for (const set of inOrder(sessions).flatMap(({ session }) => session.sets)) {
    if (set.kind === 'warm-up' || (exercise !== undefined && set.exercise !== exercise)) continue;
    const landings = [set, ...set.parts].reduce((sum, one) => sum + (one.landings ?? 0), 0);
    if (landings === 0) continue;
    if (set.unread.length > 0) {
      unread += 1;
      continue;
    }
    const judged = goodOf(set);
    unjudged += Math.max(0, landings - (judged?.of ?? 0));
    if (judged) add(parts, set, judged);
  }
  return { parts: [...parts.values()].flatMap(finish).sort(bySide), unjudged, unread };
}

type Building = {
  side: Side | undefined;
  direction: Direction | undefined;
  good: number;
  of: number;
  missing: { [S in LandingSign]?: number };
};

function add(
  parts: Map<string, Building>,
  set: SetRecord,
  judged: { readonly good: number; readonly of: number },
): void {
  const { side, direction } = set;
  const key = `${side ?? ''} ${direction ?? ''}`;
  const own = parts.get(key) ?? { side, direction, good: 0, of: 0, missing: {} };
  parts.set(key, own);
  own.good += judged.good;
  own.of += judged.of;
  for (const mark of set.marks) {
    for (const sign of LANDING_SIGNS) if (mark[sign] === false) own.missing[sign] = (own.missing[sign] ?? 0) + 1;
  }
}

function finish({ side, direction, good, of, missing }: Building): LandingQuality[] {
  const interval = wilson(good, of);
  if (!interval) return [];
  return [
    {
      ...(side ? { side } : {}),
      ...(direction ? { direction } : {}),
      good,
      of,
      share: good / of,
      ...interval,
      missing,
    },
  ];
}

const placeOf = ({ side, direction }: LandingQuality): number =>
  (side ? SIDES.indexOf(side) : SIDES.length) * (DIRECTIONS.length + 1) +
  (direction ? DIRECTIONS.indexOf(direction) : DIRECTIONS.length);
const bySide = (a: LandingQuality, b: LandingQuality): number => placeOf(a) - placeOf(b);
