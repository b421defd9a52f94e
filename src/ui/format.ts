import { noonOf } from '../domain/day';

const numbers = new Intl.NumberFormat(undefined, { maximumFractionDigits: 3 });
const longDay = new Intl.DateTimeFormat(undefined, { weekday: 'long', day: 'numeric', month: 'long', timeZone: 'UTC' });
const shortDay = new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short', timeZone: 'UTC' });
const times = new Map<string, Intl.DateTimeFormat>();

/** Returns a number as the phone's language writes it, never rounded below three decimals. */
export const number = (value: number): string => numbers.format(value);

/** Returns a typed text as a number where it is one, else as it is. */
export function typedNumber(text: string): string {
  const value = Number(text.trim().replace(',', '.'));
  return text.trim() === '' || Number.isNaN(value) ? text : number(value);
}

/** Returns `1 day`, `3 days`: English plurals. */
export const countOf = (count: number, noun: string): string => `${number(count)} ${noun}${count === 1 ? '' : 's'}`;

/** Returns seconds as a clock: `1:12`. */
export function duration(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** Returns a day as `Tuesday, 24 November`, in the phone's language. */
export const dayLong = (day: string): string => longDay.format(noonOf(day));

/** Returns a day as `24 Nov`. */
export const dayShort = (day: string): string => shortDay.format(noonOf(day));

/** Returns the time of day of an instant in a zone, `14:05`. */
export function timeOfDay(at: number, zone: string): string {
  let format = times.get(zone);
  if (!format) {
    format = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', timeZone: zone });
    times.set(zone, format);
  }
  return format.format(at);
}

/** Returns a text short enough to stand in a sentence. */
export const clipped = (text: string): string => (text.length > 24 ? `${text.slice(0, 23)}…` : text);
