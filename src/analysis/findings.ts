import { type Day, daysBetween } from '../domain/day';
import type { Side } from '../domain/set';
import type { Target } from '../domain/target';
import { type End, retestDay } from './ends';
import { isJudgedBy, type Standing, standingOn } from './onTime';
import { SAID } from './trendModel';

/*
 * What can be said of a client's exercises, as data: what it is, since when, on what it rests, how sure it is, and what to do next. The words are
 * the screen's. One ranking for all.
 */

/** What to do next. `retest`: a day to judge it by. */
export type NextAct =
  | { readonly type: 'change'; readonly retest: Day }
  | { readonly type: 'wait'; readonly sessions: number }
  | { readonly type: 'rethink' }
  | { readonly type: 'ease-in'; readonly until: Day }
  | { readonly type: 'log-more'; readonly sessions: number; readonly days: number }
  | { readonly type: 'note-effort' }
  | { readonly type: 'keep-on' };

type Said = {
  readonly exercise: string;
  readonly side?: Side;
  /** The day it is said of: that of the last session. */
  readonly day: Day;
  /** How sure it is, 0–1. */
  readonly certainty: number;
  /** The ids of the sessions it rests on. */
  readonly evidence: readonly string[];
  readonly next: NextAct;
};

export type Finding = Said &
  (
    | { readonly type: 'stalled'; readonly since: Day; readonly end: End }
    | { readonly type: 'maybe-stalled'; readonly since: Day; readonly end: End }
    | { readonly type: 'picking-up'; readonly since: Day; readonly end: End }
    | { readonly type: 'returning'; readonly since: Day; readonly end: End }
    | { readonly type: 'growing' | 'steady'; readonly end: End }
    /** Flat, as far as can be told; but what was left was hardly told, and the plan may have asked for no more. */
    | { readonly type: 'untold'; readonly since: Day; readonly end: End }
    | {
        readonly type: 'not-enough';
        readonly has: number;
        readonly needs: number;
        readonly days: number;
        readonly end: End;
      }
    | { readonly type: Standing['verdict']; readonly target: Target; readonly standing: Standing; readonly end: End }
  );

/** Weeks after a stall in which growth is told as such. */
const PICKING_UP_DAYS = 28;
/** An exercise that was not done for so long is not told of today. */
const STALE_DAYS = 42;
/** Days in a status's least span. */
const LEAST_DAYS = Math.ceil(SAID.weeks * 7);

/** Returns how each exercise stands, and how each target does, as of a day; the most pressing first. */
export function findingsOf(ends: readonly End[], targets: readonly Target[], today: Day): readonly Finding[] {
  const found = ends.flatMap((end) => [
    trendFinding(end, today),
    ...targets.flatMap((target) => targetFinding(target, end, today) ?? []),
  ]);
  return ranked(found, targets, today);
}

/** Returns findings in the order they matter: what is behind or stalled and has a target near first, what is well last. */
export function ranked(found: readonly Finding[], targets: readonly Target[], today: Day): readonly Finding[] {
  const urgency = (one: Finding): number =>
    rankOf(one, found) * 10 + one.certainty * 5 + nearness(one, targets, today) * 4;
  return [...found].sort(
    (a, b) =>
      urgency(b) - urgency(a) ||
      (a.exercise < b.exercise ? -1 : a.exercise > b.exercise ? 1 : (a.side ?? '') < (b.side ?? '') ? -1 : 1),
  );
}

/** What is flat where it should be needs nothing, and what is flat ahead of its time can wait. */
function rankOf(one: Finding, found: readonly Finding[]): number {
  if (one.type !== 'stalled' && one.type !== 'maybe-stalled') return RANK[one.type];
  const isAt = (verdict: Standing['verdict']): boolean =>
    found.some((other) => other.type === verdict && other.end === one.end);
  if (isAt('reached')) return RANK.steady;
  return isAt('ahead') ? Math.min(RANK.returning, RANK[one.type]) : RANK[one.type];
}

const RANK: Readonly<Record<Finding['type'], number>> = {
  stalled: 7,
  behind: 6,
  'maybe-stalled': 5,
  returning: 4,
  'picking-up': 3,
  ahead: 2,
  reached: 2,
  growing: 1,
  'on-time': 1,
  steady: 1,
  untold: 1,
  'not-enough': 0,
};

/** 1 for a target due now, 0 for none within half a year. */
function nearness(one: Finding, targets: readonly Target[], today: Day): number {
  const days = targets.filter((target) => isJudgedBy(target, one.end)).map((target) => daysBetween(today, target.day));
  const ahead = days.filter((left) => left >= 0);
  return ahead.length === 0 ? 0 : Math.max(0, 1 - Math.min(...ahead) / 182);
}

/** Returns the one that matters today: a heads-up of an exercise that is still done, else something that goes well; undefined for neither. */
export function headsUp(found: readonly Finding[], today: Day): Finding | undefined {
  const lately = found.filter((one) => daysBetween(one.day, today) <= STALE_DAYS);
  return lately.find((one) => rankOf(one, found) > RANK.steady);
}

/** Returns whether a finding is one that asks for something to be done. */
export const isHeadsUp = (one: Finding): boolean => RANK[one.type] >= 4;

function trendFinding(end: End, today: Day): Finding {
  const { exercise, side, day, pStall, status, evidence } = end;
  const said = { exercise, ...(side ? { side } : {}), day, evidence, end };
  if (status === 'none') {
    const [has, needs] = [end.used, SAID.fewest];
    const next = {
      type: 'log-more',
      sessions: Math.max(0, needs - has),
      days: Math.max(0, LEAST_DAYS - end.span),
    } as const;
    return { type: 'not-enough', ...said, certainty: 1, has, needs, days: end.span, next };
  }
  const isDoubted = status === 'stalled' || status === 'watch';
  if (isDoubted && end.returned !== undefined) {
    const next = { type: 'ease-in', until: retestDay(end, today) } as const;
    return { type: 'returning', ...said, certainty: 1, since: end.returned, next };
  }
  const since = end.since?.day ?? day;
  // a load that was not raised and an effort that nobody told: who can say that no more was possible?
  if (isDoubted && end.told * 2 < evidence.length)
    return { type: 'untold', ...said, certainty: 1, since, next: { type: 'note-effort' } };
  if (status === 'stalled') {
    const next = { type: 'change', retest: retestDay(end, today) } as const;
    return { type: 'stalled', ...said, certainty: pStall, since, next };
  }
  if (status === 'watch') {
    // two weeks at the client's own pace
    const sessions = Math.max(2, Math.min(6, Math.round(end.perWeek * 2)));
    return { type: 'maybe-stalled', ...said, certainty: pStall, since, next: { type: 'wait', sessions } };
  }
  const certainty = 1 - pStall;
  const next = { type: 'keep-on' } as const;
  const { stalledOn } = end;
  if (stalledOn !== undefined && end.slope > 0 && daysBetween(stalledOn, day) <= PICKING_UP_DAYS)
    return { type: 'picking-up', ...said, certainty, since: stalledOn, next };
  return { type: end.slope > 0 ? 'growing' : 'steady', ...said, certainty, next };
}

function targetFinding(target: Target, end: End, today: Day): Finding | undefined {
  const standing = isJudgedBy(target, end) && end.status !== 'none' ? standingOn(target, end, today) : undefined;
  if (!standing) return undefined;
  const { exercise, side, day, evidence } = end;
  const { verdict, chance } = standing;
  const certainty = verdict === 'behind' ? 1 - chance : verdict === 'on-time' ? Math.max(chance, 1 - chance) : chance;
  const next = { type: verdict === 'behind' ? 'rethink' : 'keep-on' } as const;
  return { type: verdict, exercise, ...(side ? { side } : {}), day, certainty, evidence, next, target, standing, end };
}
