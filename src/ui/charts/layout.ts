import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { type Day, daysBetween } from '../../domain/day';
import type { Measure } from '../../domain/measure';
import type { Side } from '../../domain/set';
import { apart, BETWEEN, inRow, widthOf } from './labels';
import { type Overlay, type OverlayShapes, overlayEnd, overlayShapes, overlayValues } from './overlay';
import { type DayTick, dayTicks, valueAxis } from './ticks';
import { isCharted, type Visit } from './visits';

/** The words of a chart. The layout makes room for them; what they say is said elsewhere. */
export type ChartWords = {
  readonly caption: string;
  readonly value: (value: number) => string;
  readonly day: (tick: DayTick) => string;
  /** What stands at the end of a side's line; nothing where there is one line that needs no name. */
  readonly side: (side: Side | undefined) => string;
  /** Sessions that are marked in words. */
  readonly marks: readonly { readonly session: string; readonly text: string }[];
};

export type Shape = 'disc' | 'square' | 'diamond';
export type Dot = { readonly session: string; readonly x: number; readonly y: number; readonly pain: boolean };
export type Text = {
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly text: string;
};
export type Line = {
  readonly side: Side | undefined;
  readonly shape: Shape;
  readonly dots: readonly Dot[];
  /** Through sessions that follow each other. */
  readonly path: string;
  /** Across long times without one. */
  readonly gaps: string;
  /** Its word beside its end; `x` and `y` are where its shape is repeated. */
  readonly end: Text | undefined;
};

/** Everything that is drawn, in pixels. */
export type Chart = {
  readonly width: number;
  readonly height: number;
  readonly plot: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  /** True where sessions stand so close that points and lines are drawn finer. */
  readonly dense: boolean;
  readonly caption: Text;
  readonly values: readonly (Text & { readonly zero: boolean })[];
  readonly days: readonly Text[];
  readonly lines: readonly Line[];
  /** A word over a session, with the line that leads down from it (`head`) to the session's points (`at`, `foot`). */
  readonly marks: readonly (Text & {
    readonly session: string;
    readonly head: number;
    readonly at: number;
    readonly foot: number;
  })[];
  /** What is laid over the sessions. */
  readonly overlay: OverlayShapes | undefined;
  /** Sessions that can be stepped through, from left to right. */
  readonly stops: readonly { readonly session: string; readonly x: number }[];
};

const SHAPES: Readonly<Record<'left' | 'right' | 'both', Shape>> = { left: 'disc', right: 'square', both: 'diamond' };
export const ROW = 18;
/** Between points and the plot's edge, so that none is cut. */
export const INSET = 8;
/** Room for two labelled days side by side. */
export const DAY_ROOM = 62;
/** Points that are further apart are not joined by a whole line: nobody knows what lay between. */
export const GAP_DAYS = 56;

/** Returns the chart of visits at a size; undefined where none has a number. */
export function chartOf(
  visits: readonly Visit[],
  measure: Measure,
  size: { readonly width: number; readonly height: number },
  words: ChartWords,
  overlay?: Overlay,
): Chart | undefined {
  const stops = visits.filter(isCharted);
  const [first] = stops;
  const last = stops.at(-1);
  if (!first || !last) return undefined;
  const { width, height } = size;
  const sides = (['left', 'right', undefined] as const).filter((side) => stops.some((one) => numberOf(one, side)));
  const axis = valueAxis(
    [
      ...stops.flatMap((one) => one.held.flatMap(({ value }) => value ?? [])),
      ...(overlay ? overlayValues(overlay) : []),
    ],
    measure,
  );

  const valueTexts = axis.ticks.map(words.value);
  const left = Math.max(...valueTexts.map(widthOf)) + 10;
  const endWidth = Math.max(...sides.map((side) => widthOf(words.side(side))));
  const right = width - (endWidth > 0 ? endWidth + 30 : 14);
  const lastDay = [last.day, (overlay && overlayEnd(overlay)) ?? last.day].sort().at(-1) ?? last.day;
  const x = dayScale(first.day, lastDay, left + INSET, right - INSET);

  const marked = words.marks
    .flatMap(({ session, text }) => {
      const stop = stops.find((one) => one.session === session);
      return stop ? [{ session, text, x: x(stop.day), width: widthOf(text) }] : [];
    })
    .sort((a, b) => a.x - b.x);
  const markedFrom = inRow(marked, width);
  const beside = (markedFrom[0] ?? width) >= widthOf(words.caption) + BETWEEN;
  const markRow = beside ? 1 : 2;
  const top = ROW * markRow + 14;
  const bottom = height - ROW - 8;
  const y = rounded(scaleLinear([axis.from, axis.to], [bottom, top]));

  const lines = sides.map((side): Omit<Line, 'end'> => {
    const own = stops.filter((one) => numberOf(one, side));
    const dots = own.map((one): Dot => {
      const value = numberOf(one, side)?.value ?? 0;
      return { session: one.session, x: x(one.day), y: y(value), pain: one.pain !== undefined };
    });
    const shape = sides.length === 1 ? 'disc' : SHAPES[side ?? 'both'];
    return { side, shape, dots, ...pathsOf(own, dots) };
  });
  const ends = apart(
    lines.map(({ dots }) => dots.at(-1)?.y ?? bottom),
    ROW,
    [top, bottom],
  );

  return {
    width,
    height,
    plot: { left, right, top, bottom },
    dense: (right - left) / stops.length < 7,
    caption: { x: 0, y: ROW - 5, anchor: 'start', text: words.caption },
    values: axis.ticks.map((tick, index) => ({
      x: left - 8,
      y: y(tick),
      anchor: 'end',
      text: valueTexts[index] ?? '',
      zero: tick === 0 && axis.from < 0,
    })),
    days: dayTexts(
      dayTicks(first.day, lastDay, Math.max(2, Math.floor((right - left) / DAY_ROOM))),
      x,
      width,
      words,
    ).map((text) => ({ ...text, y: height - 5 })),
    lines: lines.map((one, index) => {
      const text = words.side(one.side);
      return { ...one, end: text === '' ? undefined : { x: right + 10, y: ends[index] ?? top, anchor: 'start', text } };
    }),
    marks: marked.map(({ session, text, ...mark }, index) => {
      const from = markedFrom[index] ?? 0;
      const ys = lines.flatMap(({ dots }) => dots.flatMap((dot) => (dot.session === session ? dot.y : [])));
      const head = Math.max(from + 3, Math.min(mark.x, from + mark.width - 3));
      return { session, text, x: from, y: ROW * markRow - 5, anchor: 'start', head, at: mark.x, foot: Math.min(...ys) };
    }),
    overlay: overlay && overlayShapes(overlay, x, y),
    stops: stops.map((one) => ({ session: one.session, x: x(one.day) })),
  };
}

/** Returns the session nearest to a place from the left; of two on one day the later. */
export function nearestStop({ stops }: Chart, x: number): string | undefined {
  const best = stops.reduce<Chart['stops'][number] | undefined>(
    (near, stop) => (near && Math.abs(near.x - x) < Math.abs(stop.x - x) ? near : stop),
    undefined,
  );
  return best?.session;
}

const numberOf = (visit: Visit, side: Side | undefined) =>
  visit.held.find(({ top, value }) => top.side === side && value !== undefined);

/** Returns the scale from days to pixels; a single day stands in the middle. */
export function dayScale(from: Day, to: Day, left: number, right: number): (day: Day) => number {
  const span = daysBetween(from, to);
  const scale = rounded(scaleLinear(span > 0 ? [0, span] : [-1, 1], [left, Math.max(left, right)]));
  return (day) => scale(daysBetween(from, day));
}

/** Returns a scale in tenths of a pixel: as fine as is seen. */
export const rounded =
  (scale: (value: number) => number): ((value: number) => number) =>
  (value) =>
    Math.round(scale(value) * 10) / 10;

/** Returns the words of days at their places, none cut at a side. */
export function dayTexts(
  ticks: readonly DayTick[],
  x: (day: Day) => number,
  width: number,
  words: Pick<ChartWords, 'day'>,
): readonly Omit<Text, 'y'>[] {
  return ticks.map((tick) => {
    const text = words.day(tick);
    const at = x(tick.day);
    const half = widthOf(text) / 2;
    if (at + half > width) return { x: width, anchor: 'end', text };
    return at - half < 0 ? { x: 0, anchor: 'start', text } : { x: at, anchor: 'middle', text };
  });
}

function pathsOf(visits: readonly Visit[], dots: readonly Dot[]): { readonly path: string; readonly gaps: string } {
  const draw = line<Dot>(
    (dot) => dot.x,
    (dot) => dot.y,
  );
  const runs: Dot[][] = [];
  const gaps: string[] = [];
  for (const [index, dot] of dots.entries()) {
    const before = visits[index - 1];
    const here = visits[index];
    const from = dots[index - 1];
    if (before && here && from && daysBetween(before.day, here.day) <= GAP_DAYS) {
      runs.at(-1)?.push(dot);
      continue;
    }
    if (from) gaps.push(draw([from, dot]) ?? '');
    runs.push([dot]);
  }
  const path = runs.filter((run) => run.length > 1).map((run) => draw(run) ?? '');
  return { path: path.join(''), gaps: gaps.join('') };
}
