import type { ComponentChildren, RefObject } from 'preact';
import { TREND } from '../trendWords';

type StepFigureProps = {
  /** Measures the room for the chart. */
  readonly frame: RefObject<HTMLFieldSetElement | null>;
  /** What the chart's keys do, for those who do not see it. */
  readonly how: string;
  /** The point whose numbers stand under the chart, of how many; counted from 0. */
  readonly at: number;
  readonly count: number;
  readonly step: (to: number) => void;
  /** A tap, in pixels from the chart's corner. */
  readonly tap: (x: number, y: number) => void;
  /** True where points stand below each other: the keys up and down step too. */
  readonly isDown?: boolean;
  readonly chart: ComponentChildren;
  /** The point's numbers, and the class that keeps their room. */
  readonly said: ComponentChildren;
  readonly saidAs?: string;
  readonly buttons: Readonly<Record<'label' | 'back' | 'on', string>>;
  readonly notes: readonly string[];
};

/** A chart that is stepped through by taps, arrow keys and two buttons, with the numbers of one point in words under it. */
export function StepFigure(props: StepFigureProps) {
  const { frame, how, at, count, step, tap, isDown = false, chart, said, saidAs = '', buttons, notes } = props;
  const [back, on] = [at - 1, at + 1];
  const keys: Readonly<Record<string, number>> = {
    ArrowLeft: back,
    ArrowRight: on,
    ...(isDown ? { ArrowUp: back, ArrowDown: on } : {}),
    Home: 0,
    End: count - 1,
  };
  const stepIn = (to: number) => step(Math.max(0, Math.min(count - 1, to)));
  return (
    <div class="trend-figure">
      <fieldset
        class="trend-steps"
        aria-label={how}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: its arrow keys step through the points, which are too many to be stops of their own
        tabIndex={0}
        ref={frame}
        onClick={(event) => {
          // the nearest point, wherever the tap was: none is too small for a thumb
          const { left, top } = event.currentTarget.getBoundingClientRect();
          tap(event.clientX - left, event.clientY - top);
        }}
        onKeyDown={(event) => {
          const to = keys[event.key];
          if (to === undefined) return;
          event.preventDefault();
          stepIn(to);
        }}
      >
        {chart}
      </fieldset>
      <div class={`trend-said ${saidAs}`} role="status">
        {said}
      </div>
      {count > 1 ? (
        <fieldset class="chips chips-even" aria-label={buttons.label}>
          <button type="button" class="chip" aria-disabled={at === 0} onClick={() => stepIn(back)}>
            {buttons.back}
          </button>
          <button type="button" class="chip" aria-disabled={at === count - 1} onClick={() => stepIn(on)}>
            {buttons.on}
          </button>
        </fieldset>
      ) : null}
      {notes.length > 0 ? <p class="hint">{notes.join(' ')}</p> : null}
    </div>
  );
}

/** The words of the buttons of what is stepped through in time. */
export const IN_TIME = { label: TREND.step, back: TREND.earlier, on: TREND.later } as const;
