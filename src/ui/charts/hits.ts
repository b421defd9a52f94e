import type { HitOf } from '../../analysis/findings';
import { hitIn, seriesOf } from '../../analysis/series';
import { bodyOf } from '../../analysis/studio';
import type { Day } from '../../domain/day';
import type { Target } from '../../domain/target';
import type { App } from '../app';

/**
 * Returns what tells the chances of a client's targets; undefined until the sessions of their exercises are read (watch `series:…`). The exercises
 * without a target are not read for it.
 */
export function hitsOf(
  { log, acts, views }: App,
  stream: string,
  targets: readonly Target[],
  today: Day,
): HitOf | undefined {
  const series = [];
  for (const id of new Set(targets.map((one) => one.exercise))) {
    const exercise = views.exercise(log, id);
    if (!exercise) continue;
    const exposures = log.exposures(stream, id);
    if (!exposures) return undefined;
    const body = bodyOf(exercise, acts.bodyMasses(log, stream));
    series.push(...seriesOf({ exercise, exposures, body }, { targets, today, from: today, fanDays: () => [] }));
  }
  return hitIn(series);
}
