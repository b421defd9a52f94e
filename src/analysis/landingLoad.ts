import type { LandingLevel } from '../domain/client';
import type { Day } from '../domain/day';
import { LANDING_RANGES, landingsIn } from '../domain/landings';
import type { SessionRecord } from '../domain/session';
import { type FirstDay, inOrder, weekOf } from './weeks';

/*
 * Landings of sessions against the ranges that are published for a level (domain/landings.ts says how little stands behind them): a guide to plan by,
 * without any proof that it prevents injury. Above the range is worth a look and no more. One landing on both feet counts once.
 */

export type SessionLandings = {
  readonly session: string;
  readonly day: Day;
  readonly landings: number;
  /** Where a level is noted: the range, and how the session lies to it; `off` counts landings outside, 0 within. */
  readonly against?: {
    readonly from: number;
    readonly to: number;
    readonly type: 'below' | 'within' | 'above';
    readonly off: number;
    /** How it may be marked: worth a look or not, never as a danger. */
    readonly mark: 'plain' | 'amber';
  };
  /** Whole hours since the session with landings before it (48–72 are often asked for, from memory); absent for the first. */
  readonly hoursSince?: number;
};

/** Returns the sessions with landings in the order of their days, against the level's range where one is noted. Warm-ups count: they load as well. */
export function landingLoad(
  sessions: readonly SessionRecord[],
  level: LandingLevel | undefined,
): readonly SessionLandings[] {
  let before: number | undefined;
  return inOrder(sessions).flatMap(({ session, day, at }): SessionLandings[] => {
    const landings = landingsIn(session.sets);
    if (landings === 0) return [];
    // the order of days is not that of instants after a flight
    const hoursSince = before === undefined || at < before ? undefined : Math.floor((at - before) / 3_600_000);
    before = at;
    return [
      {
        session: session.id,
        day,
        landings,
        ...(level ? { against: againstRange(landings, level) } : {}),
        ...(hoursSince === undefined ? {} : { hoursSince }),
      },
    ];
  });
}

/** Returns how a number of landings in one session lies to the range of a level. */
export function againstRange(landings: number, level: LandingLevel): NonNullable<SessionLandings['against']> {
  const { from, to } = LANDING_RANGES[level];
  if (landings > to) return { from, to, type: 'above', off: landings - to, mark: 'amber' };
  if (landings < from) return { from, to, type: 'below', off: from - landings, mark: 'plain' };
  return { from, to, type: 'within', off: 0, mark: 'plain' };
}

/** Returns how many landings each week had in which there were any, and in how many sessions; by week. */
export function landingWeeks(
  sessions: readonly SessionRecord[],
  firstDay: FirstDay,
): readonly { readonly week: Day; readonly landings: number; readonly sessions: number }[] {
  const weeks = new Map<Day, { landings: number; sessions: number }>();
  for (const { day, landings } of landingLoad(sessions, undefined)) {
    const week = weekOf(day, firstDay);
    const own = weeks.get(week) ?? { landings: 0, sessions: 0 };
    weeks.set(week, { landings: own.landings + landings, sessions: own.sessions + 1 });
  }
  return [...weeks].map(([week, own]) => ({ week, ...own }));
}
