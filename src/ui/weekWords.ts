import type { ClientWeek, DateNear, WeekDay, WeekSession, WeekWork } from '../analysis/clientWeek';
import { type Day, dayOfWeek, daysBetween } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import type { Told } from './analysing';
import { goalText } from './barWords';
import { countOf, dayShort, number } from './format';
import { ATTENDANCE } from './setWords';
import { dayText } from './trendWords';
import { daysTo } from './words';

/* Every English word of the studio's week. */

export const WEEK = {
  title: 'The week',
  earlier: '‹ Earlier week',
  later: 'Later week ›',
  current: 'This week',
  weeks: 'which week',
  table: 'All clients this week, a line each',
  client: 'Client',
  landings: 'Landings',
  needs: 'What needs doing',
  today: 'today',
  headsUp: 'Heads-up',
  goingWell: 'Going well',
  noClient: 'No client yet. Add one, and the week of each is here.',
  addClient: '+ client',
  noSession: 'No session this week',
  noLandings: 'none noted',
  reading: 'How the lifts stand is still being read.',
  nothing: 'Nothing found that asks for anything.',
  tooLittle: 'Too little noted yet to say anything.',
  failedOne: 'This client could not be worked out. What was logged is safe.',
  failed: 'The week could not be worked out. What was logged is safe; open the page again to try once more.',
  notLogged: 'not logged',
  nothingYet: 'nothing yet',
  restDay: 'rest day',
  workCounts: 'the work of the day counts',
  ahead: 'yet to come',
  order: 'Who needs most stands first; nobody is compared with anybody. It is no medical advice.',
} as const;

const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** Returns the name of a day of the week: `Tue`. */
export const weekday = (day: Day): string => WEEKDAYS[dayOfWeek(day)] ?? '';

/** Returns a day as the head of a column or line: `Tue 24 Nov`. */
export const dayHead = (day: Day): string => `${weekday(day)} ${dayShort(day)}`;

/** Returns which week is shown: `23 Nov to 29 Nov`. */
export const spanText = (first: Day, last: Day, today: Day): string =>
  `${dayText(first, today)} to ${dayText(last, today)}`;

/** Returns up to when it is told; empty for the week that runs. */
export const asOfText = (asOf: Day, today: Day): string =>
  asOf === today ? '' : `As of ${weekday(asOf)} ${dayText(asOf, today)}: nothing that was noted of later days is used.`;

/** Returns how far the working out is: `Looked through: 3 of 12 clients` */
export function workedOutText({ done, of }: Told): string {
  return done >= of
    ? `Looked through: ${of > 1 ? 'all ' : ''}${countOf(of, 'client')}.`
    : `Looked through: ${number(done)} of ${countOf(of, 'client')}`;
}

/** Returns what a session was, a few words each: `12 sets`, `55 min`, `effort not noted`. */
export function sessionParts(session: WeekSession, today: Day): readonly string[] {
  const { sets, minutes, effort, attendance, isDone, isOpen } = session;
  if (!isDone)
    return [attendance ? ATTENDANCE[attendance] : '', ...(sets > 0 ? [`${countOf(sets, 'set')} noted`] : [])];
  const held = sets > 0 ? countOf(sets, 'set') : 'no set noted';
  if (isOpen && session.day === today) return ['running', held];
  const time = minutes === undefined ? undefined : `${number(minutes)}\u00a0min`;
  const felt = effort === undefined ? undefined : `effort ${number(effort)}`;
  return [
    ...(attendance === 'cut-short' ? [ATTENDANCE[attendance]] : []),
    held,
    ...(time === undefined && felt === undefined
      ? [isOpen ? 'end and effort not noted' : 'time and effort not noted']
      : [time ?? (isOpen ? 'end not noted' : 'time not noted'), felt ?? 'effort not noted']),
  ];
}

/** Returns what other work was: `rehearsal`, `3 h`, `effort not noted`. */
export function workParts({ work, hours, effort }: WeekWork): readonly string[] {
  if (hours === undefined && effort === undefined) return [work, 'hours and effort not noted'];
  return [
    work,
    hours === undefined ? 'hours not noted' : `${number(hours)}\u00a0h`,
    effort === undefined ? 'effort not noted' : `effort ${number(effort)}`,
  ];
}

const isWork = ({ sessions, otherWork }: WeekDay): boolean =>
  otherWork.length > 0 || sessions.some(({ isDone }) => isDone);

/** Returns what a day had, a thing each with its parts; of a day without any, why. A day nothing is noted of may have been one of rest or not. */
export function dayThings(one: WeekDay, today: Day): readonly (readonly string[])[] {
  return [
    ...one.sessions.map((session) => sessionParts(session, today)),
    ...one.otherWork.map(workParts),
    ...(one.isRest ? [isWork(one) ? [WEEK.restDay, WEEK.workCounts] : [WEEK.restDay]] : []),
  ];
}

/** Returns what there was in all: `2 sessions, other work once, 1 rest day`; that there was no session is said. */
export function sumText({ done, otherWork, rests }: ClientWeek): string {
  return [
    done === 0 ? WEEK.noSession : countOf(done, 'session'),
    ...(otherWork > 0 ? [`other work ${otherWork === 1 ? 'once' : `${number(otherWork)} times`}`] : []),
    ...(rests > 0 ? [countOf(rests, 'rest day')] : []),
  ].join(', ');
}

/** Returns what stands for a day without anything: today is not over yet. */
export const noneText = (day: Day, today: Day): string => (day === today ? WEEK.nothingYet : WEEK.notLogged);

/** Returns the days nothing is noted of, today apart: `Not logged: Tue, Thu.`; empty for none. */
export function notLoggedText({ days }: ClientWeek, today: Day): string {
  const none = days.filter(({ kind, day }) => kind === 'not-logged' && day !== today);
  return none.length === 0 ? '' : `Not logged: ${none.map(({ day }) => weekday(day)).join(', ')}.`;
}

/** Returns the week's landings, a line each: the sum of several sessions, the range of one, the sessions; empty for none. */
export function landingLines({ landings, landed }: ClientWeek): readonly string[] {
  if (landings.length === 0) return [];
  const range = landings.find(({ against }) => against)?.against;
  const told = range
    ? `range ${number(range.from)}–${number(range.to)} a session`
    : 'no level noted to set them against';
  const sessions = landings.map(({ day, landings: count, against }) => {
    // fewer than the range is no fault
    const over = against?.type === 'above' ? `, ${number(against.off)} above the range` : '';
    return `${weekday(day)} ${number(count)}${over}`;
  });
  if (sessions.length === 1) return [...sessions, told];
  return [`${number(landed)} in ${countOf(landings.length, 'session')}`, told, ...sessions];
}

/** Returns how far off a date is: `24 days to opening`, `24 days to 95 kg × 5, front squat`. */
export function dateText(one: DateNear, exercise: Exercise | undefined): string {
  if (one.type === 'own') return daysTo(one.daysToGo, one.name);
  const goal = goalText(one.target, exercise?.perHand);
  return daysTo(one.daysToGo, exercise ? `${exercise.name} ${goal}` : goal);
}

/** Returns how far off the client's own day is, whether it is near or not; empty where none is noted, or it was before this week. */
export const ownDayText = (date: { readonly name: string; readonly day: Day } | undefined, week: ClientWeek): string =>
  date && date.day >= week.week ? daysTo(daysBetween(week.asOf, date.day), date.name) : '';
