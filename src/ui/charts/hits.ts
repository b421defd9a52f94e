import type { HitOf } from '../../analysis/findings';
import { hitIn, type SideSeries, seriesOf } from '../../analysis/series';
import { bodyOf } from '../../analysis/studio';
import type { Day } from '../../domain/day';
import type { Exposure } from '../../domain/exposure';
import type { Target } from '../../domain/target';
import type { App } from '../app';

/**
 * Returns what tells the chances of a client's targets; undefined until the sessions of their exercises are read (watch `series:…`, and `kind:result`
 * for body masses). The exercises without a target are not read for it.
 */
export function hitsOf(app: App, stream: string, targets: readonly Target[], today: Day): HitOf | undefined {
  const { log, views } = app;
  const series: SideSeries[] = [];
  for (const id of new Set(targets.map((one) => one.exercise))) {
    const exercise = views.exercise(log, id);
    if (!exercise) continue;
    const exposures = log.exposures(stream, id);
    if (!exposures) return undefined;
    const masses = exercise.holds === 'body' ? massesOf(app, stream) : [];
    const own = targets.filter((one) => one.exercise === id);
    const key = JSON.stringify([exercise.holds, today, own, masses]);
    const held = known.get(exposures);
    const made =
      held?.key === key
        ? held.series
        : seriesOf(
            { exercise, exposures, body: bodyOf(exercise, masses) },
            { targets: own, today, from: today, fanDays: () => [] },
          );
    known.set(exposures, { key, series: made });
    series.push(...made);
  }
  return hitIn(series);
}

/** Today asks for every client each time it is drawn: of the same sessions the answer is the same. */
const known = new WeakMap<readonly Exposure[], { readonly key: string; readonly series: readonly SideSeries[] }>();

/** Begins to read a client's results with the first question. */
function massesOf({ log, acts }: App, stream: string) {
  const asked = read.get(log) ?? new Set<string>();
  read.set(log, asked);
  if (!asked.has(stream)) void log.loadResults(stream);
  asked.add(stream);
  return acts.bodyMasses(log, stream);
}

const read = new WeakMap<App['log'], Set<string>>();
