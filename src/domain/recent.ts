import { type Exercise, PATTERNS, type Pattern } from './exercise';

/** An exercise, and when the sessions that held it began (ms). */
export type Used = { readonly exercise: string; readonly times: readonly number[] };

/** A part of the library as one looks for it; `own` are exercises of no pattern. */
export type LibraryPart = {
  readonly title: 'today' | 'recent' | 'usual' | Pattern | 'own';
  readonly exercises: readonly Exercise[];
};

const RECENT = 6;
/** Often means often of late: what was done a season ago is not usual any more. */
const LATELY_MS = 56 * 86_400_000;

/**
 * Returns the library in the order one looks for something: today's, the client's latest, what they did most often in the last eight weeks, and
 * the rest by its pattern. Each exercise stands in one part; no part is empty.
 */
export function libraryParts(
  all: readonly Exercise[],
  today: ReadonlySet<string>,
  used: readonly Used[],
  now: number,
): readonly LibraryPart[] {
  const times = new Map(used.map((one) => [one.exercise, one.times]));
  const last = (one: Exercise): number => Math.max(...(times.get(one.id) ?? []));
  const lately = (one: Exercise): number => (times.get(one.id) ?? []).filter((at) => at > now - LATELY_MS).length;
  const todays = all.filter((one) => today.has(one.id));
  const others = all.filter((one) => !today.has(one.id));
  const recent = others
    .filter((one) => times.has(one.id))
    .sort((a, b) => last(b) - last(a))
    .slice(0, RECENT);
  const usual = others
    .filter((one) => !recent.includes(one) && lately(one) > 0)
    .sort((a, b) => lately(b) - lately(a) || last(b) - last(a));
  const rest = others.filter((one) => !recent.includes(one) && !usual.includes(one));
  const parts: readonly LibraryPart[] = [
    { title: 'today', exercises: todays },
    { title: 'recent', exercises: recent },
    { title: 'usual', exercises: usual },
    { title: 'own', exercises: rest.filter((one) => one.pattern === undefined) },
    ...PATTERNS.map((title) => ({ title, exercises: rest.filter((one) => one.pattern === title) })),
  ];
  return parts.filter((part) => part.exercises.length > 0);
}
