import { type SideSeries, seriesOf } from '../../analysis/series';
import { bodyOf } from '../../analysis/studio';
import type { Day } from '../../domain/day';
import type { Exposure } from '../../domain/exposure';
import type { Target } from '../../domain/target';
import type { App } from '../app';

/*
 * How a client's exercises stood on an earlier day, by what was done and known up to then. The log keeps only how they stand now, so it is worked out when
 * it is asked for: a long history takes tens of milliseconds an exercise, and so one at a time.
 */

/** Whose, and as of which day. */
export type Then = { readonly stream: string; readonly asOf: Day };

/** Returns a client's targets that were set by then. */
export const targetsThen = ({ log, acts }: App, { stream, asOf }: Then): readonly Target[] =>
  acts.targets(log, stream).filter(({ from }) => from <= asOf);

/** Returns how every exercise stood; undefined until their sessions are read and all of it is worked out. */
export function seriesThen(app: App, then: Then, targets: readonly Target[]): readonly SideSeries[] | undefined {
  const found: SideSeries[] = [];
  for (const exercise of app.log.usedExercises(then.stream) ?? [undefined]) {
    const asked = exercise && askedOf(app, then, exercise.exercise, targets);
    const held = asked && known.get(asked.exposures);
    if (!asked || held?.key !== asked.key) return undefined;
    found.push(...held.series);
  }
  return found;
}

/** Works out what is missing of it, an exercise at a time with room between. Tells whether there was any. */
export async function workOutThen(app: App, then: Then, signal: AbortSignal): Promise<boolean> {
  const targets = targetsThen(app, then);
  let isNew = false;
  for (const { exercise: id } of app.log.usedExercises(then.stream) ?? []) {
    const asked = askedOf(app, then, id, targets);
    if (!asked || known.get(asked.exposures)?.key === asked.key) continue;
    const { exposures, key, own, masses } = asked;
    const exercise = app.views.exercise(app.log, id);
    const series = exercise
      ? seriesOf(
          { exercise, exposures: exposures.filter(({ day }) => day <= then.asOf), body: bodyOf(exercise, masses) },
          { targets: own, today: then.asOf, from: then.asOf, fanDays: () => [] },
        )
      : [];
    known.set(exposures, { key, series });
    isNew = true;
    await new Promise((turn) => setTimeout(turn, 0));
    if (signal.aborted) return false;
  }
  return isNew;
}

/** What one exercise's series are made of; undefined until its sessions are read. */
function askedOf({ log, acts, views }: App, { stream, asOf }: Then, id: string, targets: readonly Target[]) {
  const exposures = log.exposures(stream, id);
  if (!exposures) return undefined;
  const holds = views.exercise(log, id)?.holds ?? '';
  const masses = holds === 'body' ? acts.bodyMasses(log, stream).filter(({ day }) => day <= asOf) : [];
  const own = targets.filter(({ exercise }) => exercise === id);
  return { exposures, own, masses, key: JSON.stringify([holds, asOf, own, masses]) };
}

/** Of the same sessions and day the answer is the same. */
const known = new WeakMap<readonly Exposure[], { readonly key: string; readonly series: readonly SideSeries[] }>();
