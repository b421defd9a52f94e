import type { NamedDay } from '../domain/client';
import { addDays, type Day, daysBetween } from '../domain/day';
import { REST_DAY, type WorkKind } from '../domain/otherWork';
import { type Attendance, clockMinutes, type SessionRecord } from '../domain/session';
import type { Target } from '../domain/target';
import { landingLoad, type SessionLandings } from './landingLoad';
import type { ClientRecord } from './studio';
import { type FirstDay, inOrder, weekOf } from './weeks';

/*
 * One client's week as it was noted: each of its seven days, its landings, and the dates that are near. Days of the calendar alone, as each thing bears
 * them, so that neither a clock change nor a flight moves anything. What nobody noted is absent: never 0, and never a day of rest.
 */

/** How far ahead a date is near. */
const NEAR_DAYS = 56;

export type WeekSession = {
  readonly id: string;
  readonly day: Day;
  /** Sets without warm-ups. */
  readonly sets: number;
  /** As the trainer set them, else by the clock less pauses; absent where no end is noted, or the clock cannot tell. */
  readonly minutes?: number;
  /** Whole-session effort, 0–10. */
  readonly effort?: number;
  readonly attendance?: Attendance;
  /** It was neither cancelled nor a no-show. */
  readonly isDone: boolean;
  /** It was begun, and nothing says that it is over. */
  readonly isOpen: boolean;
};

export type WeekWork = {
  readonly id: string;
  readonly work: Exclude<WorkKind, typeof REST_DAY>;
  readonly hours?: number;
  /** Effort of all of it, 0–10. */
  readonly effort?: number;
};

export type WeekDay = {
  readonly day: Day;
  /**
   * `done`: a session or other work. `rest`: confirmed, and nothing done. `missed`: a session that was agreed on did not happen, and no more is known.
   * `not-logged`: nothing is noted, whatever it was. `ahead`: it is yet to come.
   */
  readonly kind: 'done' | 'rest' | 'missed' | 'not-logged' | 'ahead';
  readonly sessions: readonly WeekSession[];
  readonly otherWork: readonly WeekWork[];
  /** Confirmed to be of rest, whatever else was noted of it. */
  readonly isRest: boolean;
};

/** The client's own day, or that of a target; `daysToGo` is below 0 where it is past. */
export type DateNear = { readonly day: Day; readonly daysToGo: number } & (
  | { readonly type: 'own'; readonly name: string }
  | { readonly type: 'target'; readonly target: Target }
);

export type ClientWeek = {
  /** Its first day, and the day up to which it is known. */
  readonly week: Day;
  readonly asOf: Day;
  /** All seven, in order. */
  readonly days: readonly WeekDay[];
  /** Sessions that were done, cut short or not; other work; days confirmed to be of rest with nothing done. */
  readonly done: number;
  readonly otherWork: number;
  readonly rests: number;
  /** The week's sessions with landings, each against the range of the level where one is noted; and how many landings in all. */
  readonly landings: readonly SessionLandings[];
  readonly landed: number;
  /** From the first day of the week to eight weeks ahead, the nearest first. */
  readonly dates: readonly DateNear[];
};

/** Returns the week that a day lies in, of a client as was known by then (`knownBy`): later days of it are yet to come. */
export function clientWeek(
  client: Pick<ClientRecord, 'sessions' | 'otherWork' | 'targets' | 'level' | 'date'>,
  firstDay: FirstDay,
  asOf: Day,
): ClientWeek {
  const week = weekOf(asOf, firstDay);
  const isIn = (day: Day): boolean => day >= week && day <= asOf;
  const sessions = inOrder(client.sessions)
    .filter(({ day }) => isIn(day))
    .map(({ session, day }) => weekSession(session, day));
  const noted = [...new Map(client.otherWork.map((one) => [one.id, one])).values()]
    .filter(({ day }) => isIn(day))
    .sort((a, b) => a.notedAt - b.notedAt || (a.id < b.id ? -1 : 1));
  const days = Array.from({ length: 7 }, (_, n): WeekDay => {
    const day = addDays(week, n);
    const own = sessions.filter((one) => one.day === day);
    const otherWork = noted.flatMap(({ id, work, day: on, hours, effort }): WeekWork[] =>
      on !== day || work === REST_DAY
        ? []
        : [{ id, work, ...(hours === undefined ? {} : { hours }), ...(effort === undefined ? {} : { effort }) }],
    );
    const isRest = noted.some((one) => one.day === day && one.work === REST_DAY);
    const isDone = otherWork.length > 0 || own.some((one) => one.isDone);
    const kind = day > asOf ? 'ahead' : isDone ? 'done' : isRest ? 'rest' : own.length > 0 ? 'missed' : 'not-logged';
    return { day, kind, sessions: own, otherWork, isRest };
  });
  const landings = landingLoad(client.sessions, client.level).filter(({ day }) => isIn(day));
  return {
    week,
    asOf,
    days,
    done: sessions.filter((one) => one.isDone).length,
    otherWork: days.reduce((sum, one) => sum + one.otherWork.length, 0),
    rests: days.filter(({ kind }) => kind === 'rest').length,
    landings,
    landed: landings.reduce((sum, one) => sum + one.landings, 0),
    dates: datesNear(client, week, asOf),
  };
}

function weekSession(session: SessionRecord, day: Day): WeekSession {
  const { id, end, effort, attendance, sets } = session;
  const minutes = session.minutes ?? (end ? clockMinutes(session, end.at) : undefined);
  return {
    id,
    day,
    sets: sets.filter(({ kind }) => kind !== 'warm-up').length,
    ...(minutes === undefined ? {} : { minutes }),
    ...(effort ? { effort: effort.value } : {}),
    ...(attendance ? { attendance } : {}),
    isDone: attendance !== 'cancelled' && attendance !== 'no-show',
    isOpen: session.start !== undefined && end === undefined && attendance === undefined,
  };
}

function datesNear(
  { date, targets }: { readonly date?: NamedDay; readonly targets: readonly Target[] },
  week: Day,
  asOf: Day,
): readonly DateNear[] {
  const last = addDays(asOf, NEAR_DAYS);
  const all: readonly DateNear[] = [
    ...(date ? [{ type: 'own' as const, name: date.name, day: date.day, daysToGo: daysBetween(asOf, date.day) }] : []),
    ...targets.map((target) => ({
      type: 'target' as const,
      target,
      day: target.day,
      daysToGo: daysBetween(asOf, target.day),
    })),
  ];
  return all
    .filter(({ day }) => day >= week && day <= last)
    .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
}
