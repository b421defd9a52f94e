import { useState } from 'preact/hooks';
import type { Day } from '../../domain/day';
import type { Exercise } from '../../domain/exercise';
import type { Side } from '../../domain/set';
import { ANSWERS } from '../answerWords';
import { couldCaption, knownLine } from '../couldWords';
import { singleText } from '../plainWords';
import { captionText, chartWords, mixedText, TREND, visitLines } from '../trendWords';
import type { Could } from './could';
import { chartOf, nearestStop } from './layout';
import type { Overlay } from './overlay';
import { IN_TIME, StepFigure } from './StepFigure';
import type { Marked } from './story';
import { TrendChart } from './TrendChart';
import { useWidth } from './useWidth';
import { type Frame, isCharted, type Visit } from './visits';

type TrendFigureProps = {
  readonly visits: readonly Visit[];
  readonly exercise: Exercise;
  readonly frame: Frame;
  readonly marked: Marked;
  readonly label: string;
  readonly today: Day;
  /** Where the chart shows what could be done: that, and what is laid over it. */
  readonly could: (Could & { readonly overlay: Overlay }) | undefined;
};

const HEIGHT = 230;
const WIDE = 560;
const WIDE_HEIGHT = 280;

/** The chart with the numbers of one session under it: the last one's, until another is tapped or stepped to. */
export function TrendFigure({ visits, exercise, frame, marked, label, today, could }: TrendFigureProps) {
  const { ref, width } = useWidth();
  const [asked, ask] = useState<string>();
  const stops = visits.filter(isCharted);
  const found = stops.findIndex((one) => one.session === asked);
  const at = found < 0 ? stops.length - 1 : found;
  const picked = stops[at];
  const held = stops.flatMap((one) => one.held);
  const lowest = Math.min(...held.flatMap(({ value }) => value ?? []));
  const sides = [...new Set(held.map(({ top }) => top.side))];
  const marks = [
    ...(marked.lastTime === undefined ? [] : [{ session: marked.lastTime, text: TREND.lastTime }]),
    { session: marked.thisTime, text: TREND.thisTime },
  ];
  const chart = chartOf(
    visits,
    frame.measure,
    { width, height: width < WIDE ? HEIGHT : WIDE_HEIGHT },
    chartWords(frame, could ? couldCaption(could, exercise) : captionText(frame, exercise, lowest), sides, marks),
    could?.overlay,
  );
  if (!chart || !picked) return null;
  const notes = [
    ...(chart.lines.some(({ dots }) => dots.some(({ pain }) => pain)) ? [TREND.ring] : []),
    ...(chart.lines.some(({ gaps }) => gaps !== '') ? [TREND.dotted] : []),
    ...(held.some(({ converted }) => converted) ? [mixedText(frame)] : []),
    ...(could ? [ANSWERS.dots] : []),
    ...(could?.overlay.sides.some(({ fan }) => fan.length > 0) ? [ANSWERS.fan] : []),
    ...(could && could.overlay.needed.length > 0 ? [ANSWERS.needs] : []),
  ];
  return (
    <StepFigure
      frame={ref}
      how={TREND.stepHow}
      at={at}
      count={stops.length}
      step={(to) => ask(stops[to]?.session)}
      tap={(x) => ask(nearestStop(chart, x))}
      chart={<TrendChart chart={chart} label={label} picked={picked.session} />}
      saidAs={sides.some(Boolean) ? 'trend-said-sides' : ''}
      said={
        <>
          {visitLines(picked, exercise, frame, today).map((line) => (
            <p key={line}>{line}</p>
          ))}
          {smallLines(picked, sides, could, frame).map((line) => (
            <p key={line} class="hint">
              {line}
            </p>
          ))}
        </>
      }
      buttons={IN_TIME}
      notes={notes}
    />
  );
}

/** What is reckoned of the session that is picked: what it tells could be done, or its set as a single. */
const smallLines = (
  picked: Visit,
  sides: readonly (Side | undefined)[],
  could: TrendFigureProps['could'],
  frame: Frame,
): readonly string[] =>
  (could
    ? sides.map((side) => knownLine(could, picked.session, side))
    : picked.held.map(({ top }) => singleText(top, top.side, frame))
  ).filter((line) => line !== '');
