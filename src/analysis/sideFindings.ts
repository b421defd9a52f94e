import { addDays, type Day } from '../domain/day';
import { SIDES, type Side } from '../domain/set';
import type { SidesFinding } from './clientFinding';
import { evidenceOf, holds, isWithin, type Known, TESTED_DAYS, type Visit } from './known';
import type { OtherAct } from './otherActs';
import type { Others } from './others';
import { gapVerdict, type SideDate, type SidesError } from './sides';
import { meanOf } from './stats/spread';

/*
 * Left and right: a gap that is beyond the test's error and repeated, one that closes, or that none can be told. No share is a limit, and no injury is
 * foretold; a difference between sides is a thing to look into, with both values in their units and each against its own best.
 */

type Compared = Others['sides'][number];

/** A test is repeated after two weeks, our own choice. */
const AGAIN_DAYS = 14;

/** Returns what is found of the sides of each exercise that has sets of each side and was tested within a quarter of a year. */
export function sideFindings({ others, visits, asOf }: Known): readonly SidesFinding[] {
  return others.sides.flatMap((compared): readonly SidesFinding[] => {
    const { exercise, dates, unit, best, error } = compared;
    const own = visits.filter(
      ({ session, day }) => holds(session, exercise) && session.sets.some(({ side }) => side) && day <= asOf,
    );
    const last = dates.at(-1);
    if (!last || !isWithin(last.day, asOf, TESTED_DAYS)) return tooFew(compared, own, asOf);
    const tested = new Set(dates.slice(-3).map(({ session }) => session));
    const said = {
      topic: 'sides',
      exercise,
      unit,
      day: last.day,
      evidence: evidenceOf(own.filter(({ session }) => tested.has(session.id))),
    } as const;
    if (!error) {
      const { has, needs } = compared.pairs ?? { has: 0, needs: 0 };
      // enough pairs without an error: all trials are alike, and were hardly measured
      const next: OtherAct =
        has < needs ? { type: 'log-more', what: 'trials', count: needs - has } : { type: 'keep-on' };
      return [{ ...said, type: 'error-unknown', certainty: 1, has, needs, last, best, next }];
    }
    const verdict = gapVerdict(dates);
    if (verdict.type === 'too-few-dates') return tooFew(compared, own, asOf);
    const gap = gapOf(dates, error);
    if (gap) {
      const since = new Set(dates.filter(({ day }) => day >= gap.since).map(({ session }) => session));
      const evidence = evidenceOf(own.filter(({ session }) => since.has(session.id)));
      return [{ ...said, ...gap, best, error, evidence }];
    }
    const again = { type: 'test-again', on: later(addDays(last.day, AGAIN_DAYS), asOf) } as const;
    const isOnce = verdict.type === 'not-repeated';
    return [{ ...said, type: isOnce ? 'once' : 'even', last, best, error, next: isOnce ? again : { type: 'keep-on' } }];
  });
}

const later = (a: Day, b: Day): Day => (a > b ? a : b);

type Gap = Pick<
  Extract<SidesFinding, { readonly type: 'gap' | 'closing' | 'closed' }>,
  'type' | 'side' | 'since' | 'times' | 'of' | 'last' | 'widest' | 'next'
>;

/** The gap that is there, or that was and has closed; undefined where none was ever repeated, or that is long ago. */
function gapOf(dates: readonly SideDate[], error: SidesError): Gap | undefined {
  const verdicts = dates.map((_, n) => gapVerdict(dates.slice(0, n + 1)));
  const at = verdicts.findLastIndex(({ type }) => type === 'repeated');
  const repeated = verdicts[at];
  const last = dates.at(-1);
  if (repeated?.type !== 'repeated' || !last) return undefined;
  const side = repeated.weaker;
  const isOwn = (one: SideDate | undefined): boolean => one?.beyond === true && one.weaker === side;
  let from = at;
  // a date or two in a row within the error end nothing: what is about as wide as the error is now within it and now beyond
  while (from > 0 && verdicts.slice(Math.max(0, from - 3), from).some((one) => isSame(one, side))) from -= 1;
  const own = dates.slice(Math.max(0, from - 2));
  const first = own.findIndex(isOwn);
  const since = own.slice(Math.max(0, first));
  const wide = since.filter(isOwn);
  const gaps = (some: readonly SideDate[]): number => meanOf(some.map((one) => signed(one, side, error))) ?? 0;
  const isNow = at === dates.length - 1;
  const lately = dates.slice(-3);
  const widest = since.reduce((most, one) => (signed(one, side, error) > signed(most, side, error) ? one : most), last);
  const gap = {
    side,
    since: since[0]?.day ?? last.day,
    times: lately.filter(isOwn).length,
    of: lately.length,
    last,
    widest,
  };
  if (isNow) {
    const by = gaps(wide.slice(0, 2)) - gaps(since.slice(-2));
    const isClosing = since.length >= FEWEST_TO_CLOSE && by > limitOf(error);
    return isClosing
      ? { ...gap, type: 'closing', next: { type: 'keep-on' } }
      : { ...gap, type: 'gap', next: { type: 'look-into' } };
  }
  const lastWide = wide.at(-1)?.day ?? last.day;
  const isClosed = !dates.slice(-2).some(isOwn) && isWithin(lastWide, last.day, TESTED_DAYS);
  return isClosed ? { ...gap, type: 'closed', next: { type: 'keep-on' } } : undefined;
}

/** Two dates at the start and two at the end. */
const FEWEST_TO_CLOSE = 4;

const isSame = (verdict: ReturnType<typeof gapVerdict> | undefined, side: Side): boolean =>
  verdict?.type === 'repeated' && verdict.weaker === side;

/** How far a side lies below the other, as the error is told: in % or in units; below 0 where it is the greater. */
function signed({ percent, apart, weaker }: SideDate, side: Side, error: SidesError): number {
  const size = 'cv' in error ? (percent ?? 0) : Math.abs(apart);
  return weaker === side ? size : -size;
}

const limitOf = (error: SidesError): number => ('cv' in error ? 100 * error.cv : error.units);

/** Sets of each side there are, and no two dates with two trials a side. */
function tooFew({ exercise, unit, dates }: Compared, own: readonly Visit[], asOf: Day): readonly SidesFinding[] {
  const near = own.filter(({ day }) => isWithin(day, asOf, TESTED_DAYS));
  const has = dates.filter(({ day }) => isWithin(day, asOf, TESTED_DAYS)).length;
  const day = near.at(-1)?.day;
  if (day === undefined) return [];
  const sets = near.flatMap(({ session }) => session.sets.filter((set) => set.exercise === exercise && set.side));
  // both sides, or there is nothing to compare
  if (!SIDES.every((side) => sets.some((set) => set.side === side))) return [];
  const untold = sets.filter(({ kind, effort, reps }) => kind !== 'warm-up' && reps !== undefined && !effort).length;
  const isUntold = has === 0 && (unit === 'kg' || unit === 'reps') && untold * 2 > sets.length;
  const next: OtherAct = isUntold
    ? { type: 'note-effort', of: 'sets', count: untold }
    : { type: 'log-more', what: 'dates', count: Math.max(1, NEEDS - has) };
  const said = { topic: 'sides', exercise, unit, day, evidence: evidenceOf(near), next } as const;
  return [{ ...said, type: 'too-few', certainty: 1, has: Math.min(has, NEEDS), needs: NEEDS }];
}

const NEEDS = 2;
