import { useState } from 'preact/hooks';
import { type Day, instantAt } from '../../domain/day';
import type { Exercise } from '../../domain/exercise';
import type { Exposure } from '../../domain/exposure';
import { useApp, useWatch } from '../app';
import { CueTallies } from '../charts/CueTallies';
import { markedOf, storyOf } from '../charts/story';
import { TrendFigure } from '../charts/TrendFigure';
import { TrendTable } from '../charts/TrendTable';
import { frameOf, isCharted, SPANS, type Span, visitsOf, within } from '../charts/visits';
import { Chip, ChipRow } from '../parts/Chip';
import { Sheet } from '../parts/Sheet';
import { nothingText, SPAN, storyText, TREND } from '../trendWords';
import './trend.css';

type TrendSheetProps = {
  readonly place: { readonly stream: string; readonly session: string };
  readonly exercise: string;
  readonly close: () => void;
};

/** Every session of one exercise of a client's: one sentence, the chart or its table, and what the cues did. */
export function TrendSheet({ place, exercise: id, close }: TrendSheetProps) {
  const { log, views, world } = useApp();
  useWatch([`series:${place.stream}`, 'kind:session', 'kind:cue', 'status']);
  const exercise = views.exercise(log, id);
  const exposures = log.exposures(place.stream, id);
  const began = views.session(log, place.stream, place.session)?.start?.at;
  return (
    <Sheet title={exercise?.name ?? TREND.missing} onClose={close}>
      {!exercise ? (
        <p>{TREND.missingWhy}</p>
      ) : !exposures ? (
        <p class="hint">{TREND.reading}</p>
      ) : (
        <Trend
          exercise={exercise}
          exposures={exposures}
          session={place.session}
          began={began}
          today={instantAt(world.now(), world.zone()).day}
        />
      )}
    </Sheet>
  );
}

type TrendProps = {
  readonly exercise: Exercise;
  readonly exposures: readonly Exposure[];
  readonly session: string;
  readonly began: number | undefined;
  readonly today: Day;
};

function Trend({ exercise, exposures, session, began, today }: TrendProps) {
  const [span, setSpan] = useState<Span>(() => firstSpan(exposures, today));
  const [way, setWay] = useState<'chart' | 'table'>('chart');
  const frame = frameOf(exercise, exposures);
  const inSpan = within(exposures, span, today);
  const visits = visitsOf(inSpan, frame);
  const story = storyOf(visitsOf(exposures, frame), visits, session, began);
  const sentence = storyText(story, exercise, frame, today);
  const asTable = way === 'table' && visits.length > 0;
  return (
    <>
      <p class="trend-sentence">{sentence}</p>
      {asTable ? (
        <TrendTable visits={visits} exercise={exercise} frame={frame} today={today} />
      ) : visits.some(isCharted) ? (
        <TrendFigure
          visits={visits}
          exercise={exercise}
          frame={frame}
          marked={markedOf(story, session)}
          label={sentence}
          today={today}
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
      <CueTallies exposures={inSpan} from={visits[0]?.day} today={today} />
    </>
  );
}

/** Six months where they tell of more than one session, else all there is. */
const firstSpan = (exposures: readonly Exposure[], today: Day): Span =>
  within(exposures, 'months', today).length > 1 ? 'months' : 'all';
