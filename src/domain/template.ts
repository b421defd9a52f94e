import * as z from 'zod/mini';
import { type Day, dayOfWeek } from './day';

export const MOST_TEMPLATE_NAME = 40;

/** Days of the week a template is for, Monday first. */
export const WEEK_DAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
export type WeekDay = (typeof WEEK_DAYS)[number];

/** A session kept to be done again. What it holds stands in its row under the same paths as in a session. */
export type Template = { readonly id: string; readonly name: string; readonly days: readonly WeekDay[] };

const nameSchema = z.string().check(z.minLength(1), z.maxLength(MOST_TEMPLATE_NAME));

/** Returns the template that a row's shown values tell of; undefined for one removed, or not readable by this version. */
export function readTemplate(id: string, values: Readonly<Record<string, unknown>>): Template | undefined {
  const name = z.safeParse(nameSchema, values['name']);
  if (!name.success) return undefined;
  return { id, name: name.data, days: WEEK_DAYS.filter((day) => values[`days/${day}`] === true) };
}

/** Returns the day of the week of a day. */
export function weekDayOf(day: Day): WeekDay {
  return WEEK_DAYS[dayOfWeek(day)] as WeekDay;
}

/** Registers of a session that are its plan: what a template keeps of it, and what a session takes from a template at its start. */
const PLANNED =
  /^(exercises\/[^/]+\/(order|plan|tally)|blocks\/[^/]+\/(order|kind|name|rounds|reps|rest|work|off|every|cap|stations\/[^/]+\/(order|exercise|plan)))$/;

/** Returns of a row's shown values those that are a plan. */
export function plannedValues(values: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(values).filter(([path, value]) => value !== null && PLANNED.test(path)));
}
