import type { Day } from '../domain/day';
import { toKg, toMetres } from '../domain/units';
import { sumOf } from './stats/spread';
import type { Asked } from './tonnage';
import { inOrder, weekOf } from './weeks';

/*
 * Carries: load × distance in kg·m. An index of what was carried and no work in the sense of physics; it is never added to tonnage (METHODS §3).
 */

export type CarryWeek = {
  readonly exercise: string;
  /** The first day of the week. */
  readonly week: Day;
  /** Kg × m, of a pair both hands; absent where no carry could be counted. */
  readonly kgM?: number;
  readonly metres: number;
  /** Carries that are counted, and those whose load or distance is not noted. */
  readonly sets: number;
  readonly not: number;
};

/** Returns the carries of each exercise and week in which there were any, warm-ups left out, by week, then exercise. */
export function carries({ sessions, exercises, firstDay }: Omit<Asked, 'body'>): readonly CarryWeek[] {
  const weeks = new Map<
    string,
    { exercise: string; week: Day; done: { kgM: number; metres: number }[]; not: number }
  >();
  for (const { session, day } of inOrder(sessions)) {
    for (const set of session.sets) {
      const exercise = exercises.get(set.exercise ?? '');
      if (exercise?.holds !== 'carry' || set.kind === 'warm-up') continue;
      const week = weekOf(day, firstDay);
      const key = `${week} ${exercise.id}`;
      const own = weeks.get(key) ?? { exercise: exercise.id, week, done: [], not: 0 };
      weeks.set(key, own);
      const parts = [set, ...set.parts].map(({ load, distance }) => {
        if (!load || !distance) return undefined;
        const metres = toMetres(distance);
        return { metres, kgM: toKg(load) * (exercise.perHand ? 2 : 1) * metres };
      });
      if (set.unread.length > 0 || parts.includes(undefined)) own.not += 1;
      else
        own.done.push({
          kgM: sumOf(parts.map((one) => one?.kgM ?? 0)),
          metres: sumOf(parts.map((one) => one?.metres ?? 0)),
        });
    }
  }
  return [...weeks.values()]
    .map(({ exercise, week, done, not }) => ({
      exercise,
      week,
      ...(done.length > 0 ? { kgM: sumOf(done.map((one) => one.kgM)) } : {}),
      metres: sumOf(done.map((one) => one.metres)),
      sets: done.length,
      not,
    }))
    .sort((a, b) => (a.week === b.week ? (a.exercise < b.exercise ? -1 : 1) : a.week < b.week ? -1 : 1));
}
