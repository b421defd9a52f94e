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
  const step = (to: number) => ask(stops[Math.max(0, Math.min(stops.length - 1, to))]?.session);
  const keys: Readonly<Record<string, number>> = {
    ArrowLeft: at - 1,
    ArrowRight: at + 1,
    Home: 0,
    End: stops.length - 1,
  };
  const notes = [
    ...(chart.lines.some(({ dots }) => dots.some(({ pain }) => pain)) ? [TREND.ring] : []),
    ...(chart.lines.some(({ gaps }) => gaps !== '') ? [TREND.dotted] : []),
    ...(held.some(({ converted }) => converted) ? [mixedText(frame)] : []),
    ...(could ? [ANSWERS.dots] : []),
    ...(could?.overlay.sides.some(({ fan }) => fan.length > 0) ? [ANSWERS.fan] : []),
    ...(could && could.overlay.needed.length > 0 ? [ANSWERS.needs] : []),
  ];
  return (
    <div class="trend-figure">
      <fieldset
        class="trend-steps"
        aria-label={TREND.stepHow}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: its arrow keys step through the points, which are too many to be stops of their own
        tabIndex={0}
        ref={ref}
        onClick={(event) => {
          // the nearest session, wherever the tap was: no point is too small for a thumb
          const { left } = event.currentTarget.getBoundingClientRect();
          ask(nearestStop(chart, event.clientX - left));
        }}
        onKeyDown={(event) => {
          const to = keys[event.key];
          if (to === undefined) return;
          event.preventDefault();
          step(to);
        }}
      >
        <TrendChart chart={chart} label={label} picked={picked.session} />
      </fieldset>
      <div class={`trend-said${sides.some(Boolean) ? ' trend-said-sides' : ''}`} role="status">
        {visitLines(picked, exercise, frame, today).map((line) => (
          <p key={line}>{line}</p>
        ))}
        {smallLines(picked, sides, could, frame).map((line) => (
          <p key={line} class="hint">
            {line}
          </p>
        ))}
      </div>
      <fieldset class="chips chips-even" aria-label={TREND.step}>
        <button type="button" class="chip" aria-disabled={at === 0} onClick={() => step(at - 1)}>
          {TREND.earlier}
        </button>
        <button type="button" class="chip" aria-disabled={at === stops.length - 1} onClick={() => step(at + 1)}>
          {TREND.later}
        </button>
      </fieldset>
      {notes.length > 0 ? <p class="hint">{notes.join(' ')}</p> : null}
    </div>
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
