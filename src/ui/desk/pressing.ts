import { type Finding, findingsOf, headsUp, isHeadsUp, isOther, rankedAll, urgencyIn } from '../../analysis/findings';
import type { OtherFinding } from '../../analysis/otherFindings';
import { hitIn, type SideSeries, seriesOf } from '../../analysis/series';
import { bodyOf } from '../../analysis/studio';
import type { Day } from '../../domain/day';
import type { Exposure } from '../../domain/exposure';
import type { Target } from '../../domain/target';
import type { App } from '../app';
import { hitsOf } from '../charts/hits';
import { headText } from '../findingWords';
import { otherNextText, otherSureText, otherTone, type Telling, TOPIC } from '../otherWords';
import { foundWords } from '../people/topics';
import { WEEK } from '../weekWords';

/* The one thing of a client that matters most, of all that the trend engine and the other methods find. */

/** In words, with how sure it is and the next act. `urgency` puts clients in order and is never shown. */
export type Pressing = {
  readonly tone: 'look' | 'good' | 'plain';
  readonly text: string;
  readonly urgency: number;
};

type Asked = { readonly stream: string; readonly asOf: Day; readonly today: Day };

/** Returns it as of a day; undefined until the client's series are read (watch `series:…`, `kind:result`). */
export function pressingOf(
  app: App,
  asked: Asked,
  others: readonly OtherFinding[],
  telling: Telling,
): Pressing | undefined {
  const { log, acts, views } = app;
  const { asOf } = asked;
  const targets = acts.targets(log, asked.stream).filter(({ from }) => from <= asOf);
  const trend = trendsOn(app, asked, targets);
  if (!trend) return undefined;
  const all = rankedAll(trend, others, targets, asOf);
  const one = headsUp(all);
  if (!one) {
    const isKnown = trend.some(({ type }) => type !== 'not-enough' && type !== 'not-lately');
    return { tone: 'plain', text: isKnown || others.length > 0 ? WEEK.nothing : WEEK.tooLittle, urgency: 0 };
  }
  const urgency = urgencyIn(one, all, targets, asOf);
  if (isOther(one)) {
    const { number, sentence } = foundWords(one, telling);
    const words = [sentence, otherSureText(one), otherNextText(one.next, asOf)].filter((text) => text !== '');
    const tone = otherTone(one) === 'good' ? 'good' : isHeadsUp(one) ? 'look' : 'plain';
    return { tone, text: `${TOPIC[one.topic]}: ${number}. ${words.join(' ')}`, urgency };
  }
  const exercise = views.exercise(log, one.exercise);
  const text = exercise ? headText(one, exercise, trend, asOf) : '';
  return { tone: isHeadsUp(one) ? 'look' : 'good', text, urgency };
}

/** What the trend engine finds: of today by what the log keeps, of an earlier day by what was done up to then. */
function trendsOn(
  app: App,
  { stream, asOf, today }: Asked,
  targets: readonly Target[],
): readonly Finding[] | undefined {
  const { log, views } = app;
  if (asOf === today) {
    const ends = log.ends(stream)?.filter((end) => views.exercise(log, end.exercise));
    const hits = ends && hitsOf(app, stream, targets, today);
    return ends && hits && findingsOf(ends, targets, today, hits);
  }
  const series: SideSeries[] = [];
  const used = log.usedExercises(stream);
  if (!used) return undefined;
  for (const { exercise } of used) {
    const exposures = log.exposures(stream, exercise);
    if (!exposures) return undefined;
    series.push(...seriesThen(app, { stream, asOf, exercise }, exposures, targets));
  }
  return findingsOf(
    series.map(({ end }) => end),
    targets,
    asOf,
    hitIn(series),
  );
}

type Then = { readonly stream: string; readonly asOf: Day; readonly exercise: string };

function seriesThen(
  { log, acts, views }: App,
  { stream, asOf, exercise: id }: Then,
  exposures: readonly Exposure[],
  targets: readonly Target[],
): readonly SideSeries[] {
  const exercise = views.exercise(log, id);
  if (!exercise) return [];
  const masses = exercise.holds === 'body' ? acts.bodyMasses(log, stream).filter(({ day }) => day <= asOf) : [];
  const own = targets.filter((one) => one.exercise === id);
  const key = JSON.stringify([exercise.holds, asOf, own, masses]);
  const held = known.get(exposures);
  if (held?.key === key) return held.series;
  const series = seriesOf(
    { exercise, exposures: exposures.filter(({ day }) => day <= asOf), body: bodyOf(exercise, masses) },
    { targets: own, today: asOf, from: asOf, fanDays: () => [] },
  );
  known.set(exposures, { key, series });
  return series;
}

/** The page is drawn again with each client that is there: of the same sessions and day the answer is the same. */
const known = new WeakMap<readonly Exposure[], { readonly key: string; readonly series: readonly SideSeries[] }>();
