import { addDays, type Day, daysBetween } from '../domain/day';
import { type OtherWork, REST_DAY } from '../domain/otherWork';
import { clockMinutes, type SessionRecord } from '../domain/session';
import { ewma, weightOfDays } from './stats/ewma';
import { sampleSd, sumOf } from './stats/spread';
import { type FirstDay, inOrder, weekOf } from './weeks';

/*
 * Whole-session load: effort 0–10 × minutes, in arbitrary units (Foster 1998, 2001), other work included; days and weeks of it, monotony and strain
 * (Foster 1998; with the sample SD, which he does not tell), lines of 7 and 28 days (Williams 2017), and the change from week to week. Descriptive: no
 * ratio of short and long is made (Lolli 2019; Impellizzeri 2020), and nothing here foretells an injury. What nobody told is missing, never 0.
 */

export type LoadRecords = {
  readonly sessions: readonly SessionRecord[];
  readonly otherWork: readonly OtherWork[];
  /** Days that were confirmed to be days of rest (`restDays`). Any other day without a line is not known. */
  readonly rests: ReadonlySet<Day>;
};

export type DayLoad = {
  readonly day: Day;
  /** `partly`: something was done whose effort or time nobody told. */
  readonly kind: 'loaded' | 'partly' | 'rest' | 'not-logged';
  /** AU; 0 on a day of rest, absent where it is not known whole. */
  readonly load?: number;
  /** AU of what was told: the least it can have been. */
  readonly told: number;
  /** Sessions and other work with a load, and without one. */
  readonly counted: number;
  readonly missing: number;
};

const MOST_DAYS = 4000;

/** Returns the load of every day from one to another, both included (the last 4000, if more). */
export function dayLoads({ sessions, otherWork, rests }: LoadRecords, from: Day, to: Day): readonly DayLoad[] {
  const done = new Map<Day, (number | undefined)[]>();
  const add = (day: Day, load: number | undefined): void => {
    const own = done.get(day);
    if (own) own.push(load);
    else done.set(day, [load]);
  };
  for (const { session, day } of inOrder(sessions)) {
    if (session.attendance !== 'cancelled' && session.attendance !== 'no-show') add(day, loadOf(session));
  }
  for (const { work, day, hours, effort } of new Map(otherWork.map((one) => [one.id, one])).values()) {
    if (work !== REST_DAY) add(day, hours === undefined || effort === undefined ? undefined : effort * hours * 60);
  }
  const count = Math.min(MOST_DAYS, daysBetween(from, to) + 1);
  return Array.from({ length: Math.max(0, count) }, (_, n): DayLoad => {
    const day = addDays(to, n + 1 - count);
    const loads = done.get(day);
    if (!loads) {
      const isRest = rests.has(day);
      return {
        day,
        kind: isRest ? 'rest' : 'not-logged',
        ...(isRest ? { load: 0 } : {}),
        told: 0,
        counted: 0,
        missing: 0,
      };
    }
    const counted = loads.filter((one) => one !== undefined);
    const told = sumOf(counted);
    const missing = loads.length - counted.length;
    const known = missing === 0 ? { load: told } : {};
    return { day, kind: missing === 0 ? 'loaded' : 'partly', ...known, told, counted: counted.length, missing };
  });
}

/** Returns the days that were confirmed to be of rest. Where there was work all the same, `dayLoads` lets the work count. */
export const restDays = (noted: readonly OtherWork[]): ReadonlySet<Day> =>
  new Set(noted.flatMap(({ work, day }) => (work === REST_DAY ? [day] : [])));

/** Returns the load of a session in AU: effort × minutes (as the trainer set them, else by the clock less pauses); undefined where either is missing. */
export function loadOf(
  session: Pick<SessionRecord, 'effort' | 'minutes' | 'start' | 'end' | 'pauses'>,
): number | undefined {
  const minutes = session.minutes ?? (session.end ? clockMinutes(session, session.end.at) : undefined);
  return session.effort === undefined || minutes === undefined ? undefined : session.effort.value * minutes;
}

export type LoadWeek = {
  /** The first day of the week. */
  readonly week: Day;
  /** AU; with `missing` the least it can have been. Absent where nothing at all was told of the week. */
  readonly total?: number;
  /** Sessions and other work whose load nobody told, and days that are known (loaded or of rest), of seven. */
  readonly missing: number;
  readonly known: number;
  /** The days to reckon with end within it. */
  readonly running: boolean;
  /** Mean of the days ÷ their sample SD, and total × that; or why there is none. */
  readonly variation:
    | { readonly type: 'told'; readonly monotony: number; readonly strain: number }
    | { readonly type: 'days-unknown' | 'no-variation' };
  /** Against the week before: in AU, and as a share of it; absent where a load of either is missing. */
  readonly change?: { readonly au: number; readonly share?: number };
};

/**
 * Returns the weeks that days lie in, given without gaps as `dayLoads` does. A first week that is cut counts the days there are, and the next one has no
 * change against it.
 */
export function loadWeeks(days: readonly DayLoad[], firstDay: FirstDay): readonly LoadWeek[] {
  const byWeek = new Map<Day, DayLoad[]>();
  for (const one of days) {
    const week = weekOf(one.day, firstDay);
    byWeek.set(week, [...(byWeek.get(week) ?? []), one]);
  }
  const end = days.at(-1)?.day ?? '';
  let before: LoadWeek | undefined;
  return [...byWeek].map(([week, own]) => {
    const told = own.some(({ kind, counted }) => kind === 'rest' || counted > 0);
    const total = sumOf(own.map((one) => one.told));
    const made: LoadWeek = {
      week,
      ...(told ? { total } : {}),
      missing: own.reduce((sum, one) => sum + one.missing, 0),
      known: own.filter(({ load }) => load !== undefined).length,
      running: end < addDays(week, 6),
      variation: variationOf(own.flatMap(({ load }) => load ?? [])),
    };
    const change = changeOf(before, made);
    before = own.length === 7 ? made : undefined;
    return { ...made, ...(change ? { change } : {}) };
  });
}

/** Returns monotony and strain of the loads of seven days (Foster 1998, with the sample SD); none for fewer, nor where all are equal. */
export function variationOf(loads: readonly number[]): LoadWeek['variation'] {
  if (loads.length !== 7) return { type: 'days-unknown' };
  const total = sumOf(loads);
  const sd = sampleSd(loads) ?? 0;
  const mean = total / 7;
  // equal but for the last digit of a product is equal
  if (!(sd > mean * 1e-9)) return { type: 'no-variation' };
  return { type: 'told', monotony: mean / sd, strain: (total * mean) / sd };
}

function changeOf(before: LoadWeek | undefined, now: LoadWeek): LoadWeek['change'] {
  if (before?.total === undefined || now.total === undefined || now.running) return undefined;
  if (before.missing > 0 || now.missing > 0) return undefined;
  const au = now.total - before.total;
  return { au, ...(before.total > 0 ? { share: au / before.total } : {}) };
}

export type LinePoint = { readonly day: Day; readonly short?: number; readonly long?: number };

/**
 * Returns the exponentially weighted means of 7 and 28 days after each day, in AU a day, begun with the first known load. A day that is not known moves
 * no line; where fewer than six in seven of the days a line looks back on are known it is not told:
 * days of training alone would make it too high.
 */
export function loadLines(days: readonly DayLoad[]): readonly LinePoint[] {
  const [short, long] = [lineOf(days, 7), lineOf(days, 28)];
  return days.map(({ day }, n) => {
    const [a, b] = [short[n], long[n]];
    return { day, ...(a === undefined ? {} : { short: a }), ...(b === undefined ? {} : { long: b }) };
  });
}

function lineOf(days: readonly DayLoad[], over: number): readonly (number | undefined)[] {
  const weight = weightOfDays(over) ?? 1;
  const means = ewma(
    days.flatMap(({ load }) => load ?? []),
    { weight },
  );
  const first = days.findIndex(({ load }) => load !== undefined);
  let seen = 0;
  return days.map((one, n) => {
    if (one.load !== undefined) seen += 1;
    if (!means.ok || seen === 0) return undefined;
    const back = days.slice(Math.max(first, n + 1 - over), n + 1);
    const known = back.filter(({ load }) => load !== undefined).length;
    return known * 7 >= back.length * 6 ? means.value[seen - 1] : undefined;
  });
}
