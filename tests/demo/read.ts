import type { Arrival } from '../../src/domain/arrival';
import { readSession, type SessionRecord } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { toKg } from '../../src/domain/units';
import type { Row } from '../../src/merge/row';
import { shown } from '../../src/merge/shown';

/* What the rows tell to someone who knows nothing of how they were made. */

/** Returns the id of the client whose alias ends in a word. */
export function clientId(rows: readonly Row[], word: string): string {
  const found = rows.find((row) => row.kind === 'client' && String(shown(row)['alias']).endsWith(word));
  if (!found) throw new Error(`no client ${word}`);
  return found.id;
}

/** Returns a client's sessions, the first first. */
export function sessionsOf(rows: readonly Row[], stream: string): readonly SessionRecord[] {
  return rows
    .filter((row) => row.kind === 'session' && row.stream === stream)
    .flatMap((row) => readSession(row.id, [{ id: row.id, values: shown(row) }]) ?? [])
    .sort((a, b) => (a.start?.at ?? 0) - (b.start?.at ?? 0));
}

/** A value of one session, with the weeks since a first instant. */
export type Point = { readonly week: number; readonly value: number };

/** Returns one value a session: the mean of what `of` reads from its sets. */
export function points(
  sessions: readonly SessionRecord[],
  exercise: string,
  of: (set: SetRecord) => number | undefined,
): readonly Point[] {
  const first = sessions[0]?.start?.at ?? 0;
  return sessions.flatMap((session) => {
    const values = session.sets.filter((set) => set.exercise === exercise).flatMap((set) => of(set) ?? []);
    const week = ((session.start?.at ?? 0) - first) / (7 * 86_400_000);
    return values.length === 0 ? [] : [{ week, value: mean(values) }];
  });
}

/** What a working set says could be lifted once: Epley's formula with the reps that were left, where that was told. */
export function couldLift(set: SetRecord): number | undefined {
  const { load, reps, effort, kind } = set;
  if (kind !== 'working' || !load || reps === undefined || !effort) return undefined;
  const left = 'atLeast' in effort ? effort.atLeast : effort.as === 'rpe' ? 10 - effort.value : effort.value;
  return toKg(load) * (1 + (reps + left) / 30);
}

/** Returns the middle one of the slopes between any two points, as a share of their mean a week: one bad day turns it little. */
export function slopeShare(all: readonly Point[]): number {
  const slopes = all.flatMap((a, n) => all.slice(n + 1).map((b) => (b.value - a.value) / (b.week - a.week)));
  return median(slopes) / mean(all.map((one) => one.value));
}

/** Returns the mean of the answers told in numbers; undefined where none were. */
export function came({ items }: Arrival): number | undefined {
  const told = Object.values(items);
  return told.length === 0 ? undefined : mean(told);
}

export const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;

/** Returns the middle one of values. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}
