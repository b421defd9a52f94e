import { addDays, type Day, dayOfWeek, instantAt, isDay } from '../domain/day';
import type { SessionRecord } from '../domain/session';
import type { SetRecord } from '../domain/set';
import type { Settings } from '../domain/settings';

/** The day a week begins with, as the settings have it. */
export type FirstDay = Settings['firstDay'];

/** Returns the first day of the week that a day lies in: days of the calendar alone, so that clock changes and flights move nothing. */
export function weekOf(day: Day, firstDay: FirstDay): Day {
  return addDays(day, -((dayOfWeek(day) - FIRST[firstDay] + 7) % 7));
}

const FIRST: Readonly<Record<FirstDay, number>> = { mon: 0, sat: 5, sun: 6 };

/** Returns when a session was: the day its start bears (or its first set, where the start is not noted), and the instant in ms. */
export function whenOf({
  start,
  sets,
}: Pick<SessionRecord, 'start' | 'sets'>): { readonly day: Day; readonly at: number } | undefined {
  const first = sets.reduce<SetRecord['at']>(
    (least, { at }) => (at && !(least && least.at <= at.at) ? at : least),
    undefined,
  );
  const when = start ?? first;
  if (!when) return undefined;
  return { day: isDay(when.day) ? when.day : instantAt(when.at, 'UTC').day, at: when.at };
}

/** Returns each session once, in the order of their days and instants, with when it was; one that no instant is noted of is left out. */
export function inOrder(
  sessions: readonly SessionRecord[],
): readonly { readonly session: SessionRecord; readonly day: Day; readonly at: number }[] {
  const once = new Map(sessions.map((session) => [session.id, session]));
  return [...once.values()]
    .flatMap((session) => {
      const when = whenOf(session);
      return when ? [{ session, ...when }] : [];
    })
    .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.at - b.at || (a.session.id < b.session.id ? -1 : 1)));
}
