import {
  type AnyFinding,
  type Finding,
  findingsOf,
  headsUp,
  isHeadsUp,
  isOther,
  rankedAll,
  urgencyIn,
} from '../../analysis/findings';
import type { OtherFinding } from '../../analysis/otherFindings';
import { hitIn } from '../../analysis/series';
import type { Day } from '../../domain/day';
import type { Target } from '../../domain/target';
import type { App } from '../app';
import { hitsOf } from '../charts/hits';
import { headText } from '../findingWords';
import { otherNextText, otherSureText, otherTone, type Telling, TOPIC } from '../otherWords';
import { foundWords } from '../people/topics';
import { WEEK } from '../weekWords';
import { seriesThen, targetsThen } from './seriesThen';

/* The one thing of a client that matters most, of all that the trend engine and the other methods find. */

/** In words, with how sure it is and the next act. `urgency` puts clients in order and is never shown. */
export type Pressing = {
  readonly tone: 'look' | 'good' | 'plain';
  readonly text: string;
  readonly urgency: number;
};

type Asked = { readonly stream: string; readonly asOf: Day; readonly today: Day };

/** Returns it as of a day; undefined until the client's series are read (watch `series:…`), and, of an earlier day, worked out (`workOutThen`). */
export function pressingOf(
  app: App,
  asked: Asked,
  others: readonly OtherFinding[],
  telling: Telling,
): Pressing | undefined {
  const { log, views } = app;
  const { asOf } = asked;
  const targets = targetsThen(app, asked);
  const trend = trendsOn(app, asked, targets);
  if (!trend) return undefined;
  const all = rankedAll(trend, others, targets, asOf);
  // what is only shown stands behind what goes well
  const one = headsUp(all.filter(isToned)) ?? headsUp(all);
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

const isToned = (one: AnyFinding): boolean => !isOther(one) || otherTone(one) !== 'plain';

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
  const series = seriesThen(app, { stream, asOf }, targets);
  return (
    series &&
    findingsOf(
      series.map(({ end }) => end),
      targets,
      asOf,
      hitIn(series),
    )
  );
}
