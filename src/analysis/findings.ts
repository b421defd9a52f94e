import { type Day, daysBetween } from '../domain/day';
import type { Side } from '../domain/set';
import type { Target } from '../domain/target';
import { type End, retestDay } from './ends';
import { isJudgedBy, type Standing, standingOn } from './onTime';
import type { OtherFinding } from './otherFindings';
import { placeOfOther, rankOfOther, urgencyOfOther } from './otherRank';
import { normalCdf } from './stats/normal';
import { SAID } from './trendModel';
import { GOES_ON, HEADS_UP, nearnessOf, urgencyOf } from './urgency';

/*
 * What can be said of a client's exercises, as data: what it is, since when, on what it rests, how sure it is, and what to do next. The words are
 * the screen's. One ranking for all.
 */

/** What to do next. `retest`: the day by which a change can be judged; past, it is the next session. */
export type NextAct =
  | { readonly type: 'change'; readonly retest: Day }
  | { readonly type: 'look-into'; readonly retest: Day }
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
    | { readonly type: 'growing' | 'steady' | 'falling'; readonly end: End }
    /** Not done for so long that nothing is known of it any more. */
    | { readonly type: 'not-lately'; readonly end: End }
    /** No more was done; but what was left was hardly counted, and the plan may have asked for no more. */
    | { readonly type: 'untold'; readonly since: Day; readonly end: End }
    | {
        readonly type: 'not-enough';
        readonly has: number;
        readonly needs: number;
        readonly days: number;
        readonly end: End;
      }
    /** `past`: its day is behind us; what is needed is the goal. `unlikely`: where today needs it to be, and yet hardly to be reached at this pace. */
    | {
        readonly type: Standing['verdict'] | 'past' | 'unlikely';
        readonly target: Target;
        /** The chance of the goal on its day, 0–1; absent where it was not asked for. */
        readonly hit?: number;
        readonly standing: Standing;
        readonly end: End;
      }
  );

/** Weeks after a stall in which growth is told as such. */
const PICKING_UP_DAYS = 28;
/** Of an exercise that was not done for so long nothing is said but that. */
const STALE_DAYS = 42;
/** Days in a status's least span. */
const LEAST_DAYS = Math.ceil(SAID.weeks * 7);

/** How sure it has to be that it goes one way. */
const SURE = 0.65;

/** Tells the chance of a target on its day, 0–1; undefined where it is not known. */
export type HitOf = (target: Target, end: End) => number | undefined;

/** A goal that is reached less often than this is hardly in reach, whatever the day needs. */
const HARDLY = 0.25;

/** Returns how each exercise stands, and how each target does, as of a day; the most pressing first. */
export function findingsOf(
  ends: readonly End[],
  targets: readonly Target[],
  today: Day,
  hitOf: HitOf = () => undefined,
): readonly Finding[] {
  const found = ends.flatMap((end): readonly Finding[] =>
    daysBetween(end.day, today) > STALE_DAYS
      ? [notLately(end)]
      : [
          trendFinding(end),
          ...targets.flatMap((target) => targetFinding(target, end, today, hitOf(target, end)) ?? []),
        ],
  );
  return ranked(found, targets, today);
}

/** Returns findings in the order they matter: what is behind or stalled and has a target near first, what is well last; others by the same rule. */
export function ranked<F extends AnyFinding>(
  found: readonly F[],
  targets: readonly Target[],
  today: Day,
): readonly F[] {
  const weighed = found.map((one) => ({ one, urgency: urgencyIn(one, found, targets, today), place: placeOf(one) }));
  weighed.sort((a, b) => b.urgency - a.urgency || (a.place < b.place ? -1 : a.place > b.place ? 1 : 0));
  return weighed.map(({ one }) => one);
}

/** Returns a number that is higher the more pressing a finding is, among all that is found of its client: no figure to be shown. */
export function urgencyIn(
  one: AnyFinding,
  found: readonly AnyFinding[],
  targets: readonly Target[],
  today: Day,
): number {
  if (isOther(one)) return urgencyOfOther(one, targets, today);
  const trend = found.flatMap((other) => (isOther(other) ? [] : [other]));
  return urgencyOf(rankOf(one, trend), one.certainty, nearness(one, targets, today));
}

/** Returns what the trend engine and the other methods found of a client as one list, the most pressing first. */
export const rankedAll = (
  trend: readonly Finding[],
  others: readonly OtherFinding[],
  targets: readonly Target[],
  today: Day,
): readonly AnyFinding[] => ranked<AnyFinding>([...trend, ...others], targets, today);

/** A finding of the trend engine, or of another method. */
export type AnyFinding = Finding | OtherFinding;

/** Returns whether a finding is one of another method than the trend engine. */
export const isOther = (one: AnyFinding): one is OtherFinding => 'topic' in one;

const placeOf = (one: AnyFinding): string =>
  isOther(one) ? placeOfOther(one) : [one.exercise, one.side ?? ''].join('\n');

/** What is flat or falls where it should be needs nothing, and ahead of its time it can wait. */
function rankOf(one: Finding, found: readonly Finding[]): number {
  if (one.type !== 'stalled' && one.type !== 'maybe-stalled' && one.type !== 'falling') return RANK[one.type];
  const isAt = (verdict: Standing['verdict']): boolean =>
    found.some((other) => other.type === verdict && other.end === one.end);
  if (isAt('reached')) return RANK.steady;
  return isAt('ahead') ? Math.min(RANK.returning, RANK[one.type]) : RANK[one.type];
}

const RANK: Readonly<Record<Finding['type'], number>> = {
  stalled: 7,
  behind: 6,
  falling: 6,
  unlikely: 5,
  'maybe-stalled': 5,
  returning: 4,
  'picking-up': 3,
  ahead: 2,
  reached: 2,
  growing: 1,
  'on-time': 1,
  steady: GOES_ON,
  untold: 1,
  past: 1,
  'not-enough': 0,
  'not-lately': 0,
};

/** Of the targets that it is judged by. */
const nearness = (one: Finding, targets: readonly Target[], today: Day): number =>
  nearnessOf(
    targets.filter((target) => isJudgedBy(target, one.end)).map(({ day }) => day),
    today,
  );

/** Returns the one that matters today: a heads-up, else something that goes well; undefined for neither. */
export function headsUp<F extends AnyFinding>(found: readonly F[]): F | undefined {
  const trend = found.flatMap((one: AnyFinding) => (isOther(one) ? [] : [one]));
  return found.find((one) => (isOther(one) ? rankOfOther(one) : rankOf(one, trend)) > GOES_ON);
}

/** Returns whether a finding is one that asks for something to be done. */
export const isHeadsUp = (one: AnyFinding): boolean => (isOther(one) ? rankOfOther(one) : RANK[one.type]) >= HEADS_UP;

const saidOf = ({ exercise, side, day, evidence }: End) => ({ exercise, ...(side ? { side } : {}), day, evidence });

const notLately = (end: End): Finding => ({
  type: 'not-lately',
  ...saidOf(end),
  end,
  certainty: 1,
  next: { type: 'keep-on' },
});

function trendFinding(end: End): Finding {
  const { day, pStall, status, evidence } = end;
  const said = { ...saidOf(end), end };
  if (status === 'none') {
    const [has, needs] = [end.used, SAID.fewest];
    const [sessions, days] = [Math.max(0, needs - has), Math.max(0, LEAST_DAYS - end.span)];
    return {
      type: 'not-enough',
      ...said,
      certainty: 1,
      has,
      needs,
      days: end.span,
      next: { type: 'log-more', sessions, days },
    };
  }
  if (status === 'ok') return goingFinding(end);
  if (end.returned !== undefined)
    return {
      type: 'returning',
      ...said,
      certainty: 1,
      since: end.returned,
      next: { type: 'ease-in', until: retestDay(end) },
    };
  const since = end.since?.day ?? day;
  // a load that was not raised and an effort that nobody counted: who can say that no more was possible?
  if (end.told * 2 < evidence.length || end.measured * 2 < evidence.length)
    return { type: 'untold', ...said, certainty: 1, since, next: { type: 'note-effort' } };
  if (status === 'stalled')
    return { type: 'stalled', ...said, certainty: pStall, since, next: { type: 'change', retest: retestDay(end) } };
  // two weeks at the client's own pace
  const sessions = Math.max(2, Math.min(6, Math.round(end.perWeek * 2)));
  return { type: 'maybe-stalled', ...said, certainty: pStall, since, next: { type: 'wait', sessions } };
}

/** Of what is not flat: which way it goes, where that is sure. */
function goingFinding(end: End): Finding {
  const said = { ...saidOf(end), end };
  const up = end.slopeSd > 0 ? normalCdf(end.slope / end.slopeSd) : end.slope > 0 ? 1 : end.slope < 0 ? 0 : 0.5;
  if (1 - up >= SURE)
    return { type: 'falling', ...said, certainty: 1 - up, next: { type: 'look-into', retest: retestDay(end) } };
  const next = { type: 'keep-on' } as const;
  const { stalledOn } = end;
  if (stalledOn !== undefined && end.slope > 0 && daysBetween(stalledOn, end.day) <= PICKING_UP_DAYS)
    return { type: 'picking-up', ...said, certainty: up, since: stalledOn, next };
  if (up < SURE) return { type: 'steady', ...said, certainty: Math.max(up, 1 - up), next };
  return { type: 'growing', ...said, certainty: up, next };
}

function targetFinding(target: Target, end: End, today: Day, hit: number | undefined): Finding | undefined {
  const standing = isJudgedBy(target, end) && end.status !== 'none' ? standingOn(target, end, today) : undefined;
  if (!standing) return undefined;
  const { verdict, chance, goalChance } = standing;
  const isPast = target.day < today;
  const certainty = {
    reached: goalChance,
    ahead: chance,
    behind: 1 - chance,
    'on-time': Math.max(chance, 1 - chance),
  }[verdict];
  const isUnlikely = (verdict === 'ahead' || verdict === 'on-time') && hit !== undefined && hit < HARDLY;
  const type = isPast ? 'past' : isUnlikely ? 'unlikely' : verdict;
  const next = { type: type === 'behind' || type === 'unlikely' ? 'rethink' : 'keep-on' } as const;
  const said = { ...saidOf(end), certainty: isUnlikely ? 1 - hit : certainty, next, target, standing, end };
  return { type, ...said, ...(hit === undefined ? {} : { hit }) };
}
