import { useState } from 'preact/hooks';
import { barOf, onBar } from '../../analysis/onTime';
import { type Day, instantAt } from '../../domain/day';
import type { Exercise } from '../../domain/exercise';
import type { Exposure } from '../../domain/exposure';
import { isLoad, type TargetUnit, targetUnits } from '../../domain/target';
import { fromKg } from '../../domain/units';
import { ANSWERS } from '../answerWords';
import { useApp, useWatch } from '../app';
import { levelText } from '../findingWords';
import { Chip, ChipRow } from '../parts/Chip';
import { TargetPart } from '../people/TargetPart';
import { plainLines } from '../plainWords';
import { nothingText, SPAN, storyText, TREND } from '../trendWords';
import { AheadTable } from './AheadTable';
import { Answers } from './Answers';
import { CueTallies } from './CueTallies';
import { couldOf, inFrame } from './could';
import { overlayOf } from './overlay';
import { markedOf, storyOf } from './story';
import { TrendFigure } from './TrendFigure';
import { TrendTable } from './TrendTable';
import { type Judged, useJudged } from './useJudged';
import { dayOfFirst, frameOf, isCharted, SPANS, type Span, visitsOf, within } from './visits';
import './trend.css';

type TrendOfProps = {
  readonly stream: string;
  readonly exercise: string;
  /** The session it is looked at from; none at the desk. */
  readonly session?: string;
};

/** Every session of one exercise of a client's, and what is said of it. */
export function TrendOf({ stream, exercise: id, session = '' }: TrendOfProps) {
  const { log, views, world } = useApp();
  useWatch([`series:${stream}`, 'kind:session', 'kind:cue', 'kind:exercise', 'status']);
  const exercise = views.exercise(log, id);
  const exposures = log.exposures(stream, id);
  if (!exercise) return <p>{TREND.missingWhy}</p>;
  if (!exposures) return <p class="hint">{TREND.reading}</p>;
  const began = views.session(log, stream, session)?.start?.at;
  const today = instantAt(world.now(), world.zone()).day;
  return (
    <Trend stream={stream} exercise={exercise} exposures={exposures} session={session} began={began} today={today} />
  );
}

type TrendProps = {
  readonly stream: string;
  readonly exercise: Exercise;
  readonly exposures: readonly Exposure[];
  readonly session: string;
  readonly began: number | undefined;
  readonly today: Day;
};

function Trend({ stream, exercise, exposures, session, began, today }: TrendProps) {
  const [span, setSpan] = useState<Span>(() => firstSpan(exposures, today));
  const [way, setWay] = useState<'chart' | 'table'>('chart');
  const [shows, setShows] = useState<'could' | 'held'>('could');
  const frame = frameOf(exercise, exposures);
  const inSpan = within(exposures, span, today);
  const visits = visitsOf(inSpan, frame);
  const from = dayOfFirst(inSpan);
  const judged = useJudged(stream, exercise, exposures, { from, today });
  const { series, findings, until } = judged;
  const isJudged = series.some(({ points }) => points.some(({ measured }) => measured !== undefined));
  const could = isJudged && shows === 'could' ? couldOf(visits, series, inSpan, frame.unit) : undefined;
  const story = storyOf(visitsOf(exposures, frame), visits, session, began);
  const sentence = storyText(story, exercise, frame, today);
  const asTable = way === 'table' && visits.length > 0;
  const told = { unit: frame.unit, perHand: exercise.perHand };
  return (
    <>
      <p class="trend-sentence">{sentence}</p>
      <Answers series={series} findings={findings} told={told} today={today} />
      {series.length === 0 && exposures.length > 0 && targetUnits(exercise) ? <p class="hint">{ANSWERS.none}</p> : null}
      {judged.needsMass ? <p class="hint">{ANSWERS.needsMass}</p> : null}
      {plainLines(visits, frame).map((line) => (
        <p key={line}>{line}</p>
      ))}
      {isJudged ? (
        <ChipRow label={TREND.shows}>
          <Chip chosen={shows === 'could'} onTap={() => setShows('could')}>
            {ANSWERS.could}
          </Chip>
          <Chip chosen={shows === 'held'} onTap={() => setShows('held')}>
            {ANSWERS.held}
          </Chip>
        </ChipRow>
      ) : null}
      {asTable ? (
        <>
          <TrendTable visits={could?.visits ?? visits} exercise={exercise} frame={frame} today={today} could={could} />
          {could ? <p class="hint">{ANSWERS.columns}</p> : null}
          {could ? <AheadTable series={series} told={told} today={today} /> : null}
        </>
      ) : (could?.visits ?? visits).some(isCharted) ? (
        <TrendFigure
          visits={could?.visits ?? visits}
          exercise={exercise}
          frame={could?.frame ?? frame}
          marked={markedOf(story, session)}
          label={could ? [sentence, ...series.flatMap((one) => levelText(one, told) ?? [])].join(' ') : sentence}
          today={today}
          could={
            could && {
              ...could,
              overlay: overlayOf(series, (value) => inFrame(value, series, frame.unit), { from: from ?? today, until }),
            }
          }
        />
      ) : (
        <p class="hint">{exposures.length === 0 ? TREND.none : nothingText(span)}</p>
      )}
      {exposures.length > 0 ? (
        <div class={asTable ? 'trend-choose trend-choose-under' : 'trend-choose'}>
          <ChipRow label={TREND.choose}>
            {SPANS.map((one) => (
              <Chip key={one} chosen={span === one} onTap={() => setSpan(one)}>
                {SPAN[one]}
              </Chip>
            ))}
            <Chip onTap={() => setWay(asTable ? 'chart' : 'table')}>{asTable ? TREND.asChart : TREND.asTable}</Chip>
          </ChipRow>
        </div>
      ) : null}
      <TargetPart
        stream={stream}
        exercise={exercise}
        targets={judged.targets}
        unit={frame.unit}
        reps={series[0]?.end.reps}
        startFor={(unit, reps) => startText(judged, unit, reps)}
        today={today}
      />
      <CueTallies exposures={inSpan} from={visits[0]?.day} today={today} />
    </>
  );
}

/** Six months where they tell of more than one session, else all there is. */
const firstSpan = (exposures: readonly Exposure[], today: Day): Span =>
  within(exposures, 'months', today).length > 1 ? 'months' : 'all';

/** Where a target in a unit would start: the level of the weaker side; empty where it is not known. */
function startText({ series }: Judged, unit: TargetUnit, reps: number): string {
  const isCounted = (way: string): boolean => (isLoad(unit) ? way === 'held' || way === 'system' : way === unit);
  const levels = series.flatMap(({ end }) =>
    end.level === undefined || !isCounted(end.way) ? [] : [onBar(end.level, barOf(end, reps))],
  );
  if (levels.length === 0 || !(reps >= 1)) return '';
  const value = Math.min(...levels);
  const inUnit = unit === 'lb' ? fromKg(value, unit) : value;
  return String(Math.max(0, Math.round(inUnit * 2) / 2));
}
