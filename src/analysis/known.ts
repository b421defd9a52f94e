import { type Day, daysBetween } from '../domain/day';
import type { SessionRecord } from '../domain/session';
import type { Others } from './others';
import type { ClientRecord } from './studio';

/* What findings are made from, and what they all ask of it. */

/** A session with the day it was on. */
export type Visit = { readonly session: SessionRecord; readonly day: Day };

export type Known = {
  readonly client: ClientRecord;
  readonly others: Others;
  readonly asOf: Day;
  /** The client's sessions, each once, in the order of their days. */
  readonly visits: readonly Visit[];
};

/** What was last seen longer ago is not told of any more, as with the trend's findings; tests and gaps come around less often. */
export const LATELY_DAYS = 42;
export const TESTED_DAYS = 91;

const MOST_EVIDENCE = 24;

/** Returns the ids of sessions a finding rests on, the oldest first; the last 24 at the most. */
export const evidenceOf = (visits: readonly Visit[]): readonly string[] =>
  visits.map(({ session }) => session.id).slice(-MOST_EVIDENCE);

/** Returns whether a day lies so few days before another, or is that day. */
export const isWithin = (day: Day, asOf: Day, days: number): boolean => day <= asOf && daysBetween(day, asOf) <= days;

/** Returns whether a session holds sets of an exercise. */
export const holds = (session: SessionRecord, exercise: string): boolean =>
  session.sets.some((set) => set.exercise === exercise);
