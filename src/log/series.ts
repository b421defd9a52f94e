import type { End } from '../analysis/ends';
import { type Exposure, exposureOf } from '../domain/exposure';
import { isStop } from '../domain/pain';
import type { SessionRecord } from '../domain/session';
import type { SetRecord } from '../domain/set';
import type { SignSeen } from '../domain/stopSigns';

/*
 * [M7] Series are derived: one row a client and exercise with its latest sessions whole and every session as an exposure, one a client
 * (exercise `''`) with its latest sessions of any. They can be thrown away and made again from the session rows, and are where their version differs.
 */

export const SERIES_VERSION = 6;

export type LastTime = {
  readonly session: string;
  readonly at: number;
  readonly day: string;
  /** The place it was at, where that was noted: bands and pins are its own. */
  readonly place?: string;
  /** Stop signs that were seen in the exercise: they hold it back until a clearance is noted. */
  readonly signs?: readonly SignSeen[];
  /** Of the client's own row: what was done in it, so that the usual session is known without reading any. */
  readonly exercises?: readonly string[];
  /** Of the client's own row: the pain that was told before it, where any was: the next time is to ask about it. */
  readonly pain?: number;
  readonly sets: readonly SetRecord[];
};
export type SeriesRow = {
  readonly stream: string;
  readonly exercise: string;
  readonly version: number;
  /** The latest sessions, and of those before what stopped the exercise; the newest first. Of the client's own row, `sets` are left empty. */
  readonly last: readonly LastTime[];
  /** Every session of the exercise, the oldest first; of the client's own row none. */
  readonly times: readonly Exposure[];
  /** Of the client's own row: how each exercise stands, as far as that is worked out; and those of which it is still to be. */
  readonly ends?: readonly End[];
  readonly due?: readonly string[];
};

/** "Last time" needs one session before the one on screen; two more let one be removed without a rebuild. */
const KEPT = 4;

/**
 * Returns the series row with a session folded in: put in its place by its start, replaced where it was there, taken out where it holds no
 * set of the exercise (or is gone).
 */
export function foldSession(
  row: SeriesRow | undefined,
  stream: string,
  exercise: string,
  id: string,
  session: SessionRecord | undefined,
): SeriesRow {
  const others = (row?.last ?? []).filter((time) => time.session !== id);
  const own = session && lastTimeOf(session, exercise);
  const last = [...others, ...(own ? [own] : [])].sort((a, b) => b.at - a.at || (a.session < b.session ? -1 : 1));
  return {
    stream,
    exercise,
    version: SERIES_VERSION,
    last: last.filter((time, n) => n < KEPT || isHolding(time)),
    times: foldExposure(row?.times ?? [], id, session && exercise !== '' ? exposureOf(session, exercise) : undefined),
    ...(row?.ends ? { ends: row.ends } : {}),
    ...(exercise === '' ? { due: [...new Set([...(row?.due ?? []), ...(session?.exercises ?? [])])].sort() } : {}),
  };
}

/** Whether a session stopped the exercise: it holds it back until a clearance is noted, however many sessions come after. */
const isHolding = ({ sets, signs = [] }: LastTime): boolean => signs.length > 0 || sets.some(isStop);

/** Returns exposures with that of one session put in its place, or taken out. */
export function foldExposure(
  times: readonly Exposure[],
  session: string,
  exposure: Exposure | undefined,
): readonly Exposure[] {
  const others = times.filter((time) => time.session !== session);
  return [...others, ...(exposure ? [exposure] : [])].sort((a, b) => a.at - b.at || (a.session < b.session ? -1 : 1));
}

/** Returns a session as a "last time" of one exercise (of `''`: of any), or undefined where it has no set of it. */
export function lastTimeOf(session: SessionRecord, exercise: string): LastTime | undefined {
  const sets = session.sets.filter((set) => exercise === '' || set.exercise === exercise);
  const when = session.start ?? sets[0]?.at;
  if (!when || (sets.length === 0 && exercise !== '')) return undefined;
  const { place, arrival } = session;
  const signs = session.signs.filter((sign) => sign.exercise === undefined || sign.exercise === exercise);
  return {
    session: session.id,
    at: when.at,
    day: when.day,
    ...(place === undefined ? {} : { place }),
    ...(signs.length === 0 || exercise === '' ? {} : { signs }),
    ...(exercise === '' ? { exercises: [...new Set(sets.flatMap((set) => set.exercise ?? []))] } : {}),
    ...(exercise === '' && arrival.pain ? { pain: arrival.pain } : {}),
    sets: exercise === '' ? [] : sets,
  };
}

/** Returns every series row of one client, made from all of its sessions. */
export function buildSeries(stream: string, sessions: readonly SessionRecord[]): readonly SeriesRow[] {
  const rows = new Map<string, SeriesRow>();
  for (const session of sessions) {
    for (const exercise of ['', ...session.exercises]) {
      rows.set(exercise, foldSession(rows.get(exercise), stream, exercise, session.id, session));
    }
  }
  return [...rows.values()];
}
