import { addDays as addDaysToDate, differenceInCalendarDays, getDay, isValid, lightFormat, parseISO } from 'date-fns';

/** A day on the wall calendar where something happened, `YYYY-MM-DD`. Never an instant: arithmetic on days is done here alone. */
export type Day = string;

/** An instant with the day and zone it had where it was logged; kept as one value, so a flight changes no old day. */
export type Instant = { readonly at: number; readonly day: Day; readonly zone: string };

/**
 * Returns the instant `at` (ms since 1970) with its day in `zone`. Nothing is refused [M4]: an unknown zone is taken as UTC, a clock
 * that tells no time as 1970, and one outside the years that a day can be written in as the nearest year that can.
 */
export function instantAt(at: number, zone: string): Instant {
  const known = reckoner(zone);
  const told = Number.isNaN(at) ? 0 : Math.min(Math.max(at, EARLIEST), LATEST);
  return { at: told, day: dayAt(known, told), zone: known.zone };
}

// two days inside the years 0001 and 9999, so that no zone moves the day out of them
const EARLIEST = Date.parse('0001-01-03T00:00Z');
const LATEST = Date.parse('9999-12-29T00:00Z');

/** Returns true for a day that exists: `2027-02-28`, not `2027-02-30`. */
export function isDay(text: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && isValid(parseISO(text));
}

/** Returns how many calendar days `to` lies after `from` (negative before). Both must be days that exist. */
export function daysBetween(from: Day, to: Day): number {
  return differenceInCalendarDays(parseISO(to), parseISO(from));
}

/** Returns the day `count` days after `day`. */
export function addDays(day: Day, count: number): Day {
  return lightFormat(addDaysToDate(parseISO(day), count), 'yyyy-MM-dd');
}

/** Returns the day of the week: Monday is 0, Sunday 6. */
export function dayOfWeek(day: Day): number {
  return (getDay(parseISO(day)) + 6) % 7;
}

/** Returns noon UTC of the day in ms, for a formatter that is told to speak UTC: never shown as an instant. */
export function noonOf(day: Day): number {
  // not Date.UTC, to which year 27 is 1927
  return Date.parse(`${day}T12:00Z`);
}

type Reckoner = {
  readonly zone: string;
  readonly format: Intl.DateTimeFormat;
  last: { slot: number; day: Day } | undefined;
};

const reckoners = new Map<string, Reckoner>();

function reckoner(zone: string): Reckoner {
  const cached = reckoners.get(zone);
  if (cached) return cached;
  const made = madeFor(zone) ?? madeFor('UTC');
  if (!made) throw new Error('this language knows no UTC');
  reckoners.set(zone, made);
  return made;
}

function madeFor(zone: string): Reckoner | undefined {
  try {
    return { zone, format: new Intl.DateTimeFormat('en-US', { ...PARTS, timeZone: zone }), last: undefined };
  } catch {
    return undefined;
  }
}

const PARTS = { year: 'numeric', month: '2-digit', day: '2-digit', calendar: 'gregory' } as const;

/** Since 1972 every zone lies whole quarters of an hour from UTC, so no day ends inside one. Formatting costs what a whole tap may. */
const SLOT_MS = 900_000;
const WHOLE_QUARTERS_SINCE = Date.parse('1973-01-01T00:00Z');

function dayAt(known: Reckoner, at: number): Day {
  const slot = Math.floor(at / SLOT_MS);
  if (known.last?.slot === slot && at >= WHOLE_QUARTERS_SINCE) return known.last.day;
  const part = new Map(known.format.formatToParts(at).map(({ type, value }) => [type, value]));
  const day = `${(part.get('year') ?? '').padStart(4, '0')}-${part.get('month')}-${part.get('day')}`;
  known.last = { slot, day };
  return day;
}
