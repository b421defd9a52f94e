import { useEffect, useMemo } from 'preact/hooks';
import type { End } from '../../analysis/ends';
import { type Finding, findingsOf } from '../../analysis/findings';
import { hitIn, type SideSeries, seriesOf } from '../../analysis/series';
import { bodyOf } from '../../analysis/studio';
import { addDays, type Day, daysBetween } from '../../domain/day';
import type { Exercise } from '../../domain/exercise';
import type { Exposure } from '../../domain/exposure';
import type { Target } from '../../domain/target';
import { useApp, useWatch } from '../app';

/** What the analysis says of one exercise of a client's. */
export type Judged = {
  readonly series: readonly SideSeries[];
  readonly findings: readonly Finding[];
  readonly targets: readonly Target[];
  /** The last day that is drawn. */
  readonly until: Day;
  /** Loads were added to a body whose mass is not noted. */
  readonly needsMass: boolean;
};

/** How far a forecast is drawn, days, and in how many steps. */
const MOST_AHEAD = 56;
const LEAST_AHEAD = 21;
/** Half a year: a goal that lies further is told in words. */
const MOST_TO_TARGET = 183;
const FAN_STEPS = 8;

/** Returns what is said of an exercise as of today, from `from` on; worked out anew after each set. */
export function useJudged(
  stream: string,
  exercise: Exercise,
  exposures: readonly Exposure[],
  { from, today }: { readonly from: Day | undefined; readonly today: Day },
): Judged {
  const { log, acts } = useApp();
  useWatch(['kind:role', 'kind:result']);
  const isBody = exercise.holds === 'body';
  useEffect(() => {
    if (isBody) void log.loadResults(stream);
  }, [isBody, log, stream]);
  const targets = acts.targets(log, stream).filter((one) => one.exercise === exercise.id);
  const masses = isBody ? acts.bodyMasses(log, stream) : [];
  const isLoaded = exposures.some(({ tried }) => tried?.some(({ kg }) => kg !== undefined));
  const needsMass = isBody && isLoaded && masses.length === 0 && bodyOf(exercise, masses).share !== undefined;
  const key = JSON.stringify([targets, masses]);
  // targets and masses are read anew each time, and told apart by what they hold
  return useMemo(() => {
    let until = today;
    const fanDays = (end: End, target: Target | undefined): readonly Day[] => {
      const span = daysBetween(from ?? end.day, end.day);
      // without a target the past has more to tell than the future
      const most = target ? MOST_TO_TARGET : Math.min(MOST_AHEAD, Math.max(LEAST_AHEAD, Math.round(span / 3)));
      const last = addDays(end.day, most);
      const to = target && target.day > end.day && target.day < last ? target.day : last;
      if (to > until) until = to;
      const length = daysBetween(end.day, to);
      return Array.from({ length: FAN_STEPS + 1 }, (_, n) => addDays(end.day, Math.round((length * n) / FAN_STEPS)));
    };
    const series = seriesOf(
      { exercise, exposures, body: bodyOf(exercise, masses) },
      { targets, today, fanDays, ...(from === undefined ? {} : { from }) },
    );
    const ends = series.map(({ end }) => end);
    return { series, findings: findingsOf(ends, targets, today, hitIn(series)), targets, until, needsMass };
  }, [exercise, exposures, from, today, key, needsMass]);
}
