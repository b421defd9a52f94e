import type { Day } from '../../domain/day';
import { distanceUnitOf } from '../../domain/settings';
import type { App } from '../app';
import { cueWords } from '../cueWords';
import type { Telling } from '../otherWords';
import { TREND } from '../trendWords';

/** Returns what the other answers are told in and by on a day: the units of the settings, the names of the library. */
export function tellingOf(app: App, today: Day): Telling {
  const { log, views } = app;
  const settings = views.settings(log);
  return {
    unit: settings.load,
    distance: distanceUnitOf(settings),
    today,
    exercise: (id) => views.exercise(log, id)?.name ?? TREND.missing,
    cue: (id) => cueWords(app, id) ?? TREND.cueMissing,
  };
}
