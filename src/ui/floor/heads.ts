import { findingsOf, headsUp, isHeadsUp } from '../../analysis/findings';
import type { Day } from '../../domain/day';
import type { App } from '../app';
import { hitsOf } from '../charts/hits';
import { headText } from '../findingWords';
import type { Head } from './todayLines';

/** Returns the one thing that matters of a client today; undefined while it is worked out, null for none. */
export function headOf(app: App, stream: string, today: Day): Head | null | undefined {
  const { log, acts, views } = app;
  const ends = log.ends(stream);
  if (!ends) return undefined;
  const known = ends.filter((end) => views.exercise(log, end.exercise));
  const targets = acts.targets(log, stream);
  const hits = hitsOf(app, stream, targets, today);
  if (!hits) return undefined;
  const found = findingsOf(known, targets, today, hits);
  const one = headsUp(found);
  const exercise = one && views.exercise(log, one.exercise);
  return one && exercise
    ? { text: headText(one, exercise, found, today), isHeadsUp: isHeadsUp(one), day: today }
    : null;
}
