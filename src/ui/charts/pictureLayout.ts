import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { addDays, type Day } from '../../domain/day';
import { BETWEEN, widthOf } from './labels';
import { DAY_ROOM, dayScale, dayTexts, INSET, ROW, rounded, type Text } from './layout';
import { isDrawn, type Mark, type Picture, type PicturePoint, type SeriesAs } from './picture';
import { type DayTick, dayTicks, type ValueAxis, valueAxis } from './ticks';

/** A picture in pixels. */
export type Drawn = {
  readonly width: number;
  readonly height: number;
  readonly plot: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly texts: readonly Text[];
  /** Names of rows, in ink. */
  readonly names: readonly Text[];
  readonly grid: readonly Segment[];
  readonly range: Box | undefined;
  readonly level: Segment | undefined;
  readonly bars: readonly (Box & { readonly key: string; readonly least: boolean; readonly second: boolean })[];
  readonly paths: readonly { readonly as: SeriesAs; readonly path: string }[];
  readonly whiskers: readonly { readonly as: SeriesAs; readonly key: string; readonly path: string }[];
  readonly dots: readonly {
    readonly as: 'disc' | 'square';
    readonly key: string;
    readonly x: number;
    readonly y: number;
  }[];
  readonly dense: boolean;
  /** Points that can be stepped through. */
  readonly stops: readonly { readonly key: string; readonly x: number; readonly y: number }[];
};
type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
type Segment = { readonly x1: number; readonly x2: number; readonly y1: number; readonly y2: number };

/** The words of the axes. */
export type AxisWords = { readonly value: (value: number) => string; readonly day: (tick: DayTick) => string };

/** From one row to the next: its name above, its marks below. */
const ROW_HEIGHT = 44;
const BAR = { most: 36, least: 2, share: 0.7, row: 12 } as const;
const CAP = 4;

/** Returns a picture drawn at a width; undefined where no point is drawn. `height` is that of what goes by days; rows take what they need. */
export function drawnOf(
  picture: Picture,
  { width, height }: { readonly width: number; readonly height: number },
  words: AxisWords,
): Drawn | undefined {
  const points = picture.points.filter(isDrawn);
  if (points.length === 0) return undefined;
  return picture.as === 'rows'
    ? rowsOf(picture, points, width, words)
    : timeOf(picture, points, { width, height }, words);
}

function axisOf({ measure, series, range, level, ends }: Picture, points: readonly PicturePoint[]): ValueAxis {
  const hasBars = series.includes('bar');
  const values = points.flatMap(({ marks }) =>
    marks.flatMap(({ value, low, high }) => [
      value,
      ...(low === undefined ? [] : [low]),
      ...(high === undefined ? [] : [high]),
    ]),
  );
  return valueAxis(
    [
      ...values,
      ...(range ? [range.low, range.high] : []),
      ...(level === undefined ? [] : [level]),
      ...(hasBars ? [0] : []),
      ...(ends ?? []),
    ],
    measure,
  );
}

function timeOf(
  picture: Picture,
  points: readonly PicturePoint[],
  { width, height }: { readonly width: number; readonly height: number },
  words: AxisWords,
): Drawn {
  const axis = axisOf(picture, points);
  const ticks = axis.ticks.map(words.value);
  const [left, right] = [Math.max(...ticks.map(widthOf)) + 10, width - 14];
  const [top, bottom] = [ROW + 14, height - ROW - 8];
  const y = rounded(scaleLinear([axis.from, axis.to], [bottom, top]));
  const { xs, texts, room } = acrossOf(picture, points, { left, right, width }, words);
  const bar = Math.min(BAR.most, Math.max(BAR.least, room * BAR.share));
  const at = points.map((point, n) => ({ point, x: xs[n] ?? left }));
  const marks = at.flatMap(({ point, x }) => point.marks.map((mark) => ({ mark, key: point.key, x })));
  const asOf = ({ series }: Mark): SeriesAs => picture.series[series] ?? 'disc';
  const hasSides = picture.series.includes('square');
  return {
    width,
    height,
    plot: { left, right, top, bottom },
    texts: [
      { x: 0, y: ROW - 5, anchor: 'start', text: picture.caption },
      ...axis.ticks.map((tick, n): Text => ({ x: left - 8, y: y(tick) + 4, anchor: 'end', text: ticks[n] ?? '' })),
      ...texts.map((text) => ({ ...text, y: height - 5 })),
    ],
    names: [],
    grid: axis.ticks.map((tick) => ({ x1: left, x2: right, y1: y(tick), y2: y(tick) })),
    range: picture.range && {
      x: left,
      y: y(picture.range.high),
      width: right - left,
      height: Math.max(0, y(picture.range.low) - y(picture.range.high)),
    },
    level:
      picture.level === undefined ? undefined : { x1: left, x2: right, y1: y(picture.level), y2: y(picture.level) },
    bars: marks
      .filter(({ mark }) => asOf(mark) === 'bar')
      .map(({ mark: { value, from = 0, series, least = false }, key, x }) => ({
        x: x - bar / 2,
        y: Math.min(y(from), y(value)),
        width: bar,
        height: Math.abs(y(from) - y(value)),
        key,
        least,
        second: series > 0,
      })),
    paths: picture.series.flatMap((as, n) => {
      const line = at.map((one) => ({ x: one.x, mark: one.point.marks.find(({ series }) => series === n) }));
      return as === 'bar' ? [] : [{ as, path: pathOf(line, y) }];
    }),
    whiskers: marks.flatMap(({ mark, key, x }) => {
      if (mark.low === undefined || mark.high === undefined) return [];
      const as = asOf(mark);
      // both sides of a day stand beside each other
      const beside = x + (hasSides ? (as === 'square' ? 3 : -3) : 0);
      const [low, high] = [y(mark.low), y(mark.high)];
      const caps = `M${beside - CAP},${low}H${beside + CAP}M${beside - CAP},${high}H${beside + CAP}`;
      return [{ as, key, path: `M${beside},${low}V${high}${caps}` }];
    }),
    dots: squaresFirst(marks.flatMap(({ mark, key, x }) => dotOf(asOf(mark), key, x, y(mark.value)))),
    dense: room < 7,
    stops: at.map(({ point, x }) => ({ key: point.key, x, y: top })),
  };
}

type Across = {
  readonly xs: readonly number[];
  readonly texts: readonly Omit<Text, 'y'>[];
  /** What one point has from left to right. */
  readonly room: number;
};

/** Where points stand from left to right, by day or one after the other. */
function acrossOf(
  { as, series }: Picture,
  points: readonly PicturePoint[],
  { left, right, width }: { readonly left: number; readonly right: number; readonly width: number },
  words: AxisWords,
): Across {
  const most = Math.max(2, Math.floor((right - left) / DAY_ROOM));
  const each = (right - left) / Math.max(1, points.length);
  if (as === 'counts') {
    const x = rounded(scaleLinear([1, Math.max(2, points.length)], [left + INSET, right - INSET]));
    const step = Math.max(1, Math.ceil(points.length / (2 * most)));
    const texts = points.flatMap(({ key }, n): Across['texts'] =>
      n % step === 0 ? [{ x: x(n + 1), anchor: 'middle', text: key }] : [],
    );
    return { xs: points.map((_, n) => x(n + 1)), texts, room: each };
  }
  const days = points.flatMap(({ day }) => day ?? []);
  const [first = '', last = ''] = [days[0], days.at(-1)];
  if (as === 'weeks') {
    const x = dayScale(first, addDays(last, 7), left, right);
    // a week stands in its middle
    const middle = (day: Day): number => (x(day) + x(addDays(day, 7))) / 2;
    return {
      xs: days.map(middle),
      texts: spaced(dayTexts(dayTicks(first, last, most, 7), middle, width, words)),
      room: x(addDays(first, 7)) - left,
    };
  }
  const inset = series.includes('bar') ? Math.min(BAR.most, each) / 2 : INSET;
  const x = dayScale(first, last, left + inset, right - inset);
  const xs = days.map(x);
  // bars of days that follow each other do not touch
  const room = xs.reduce((least, at, n) => Math.min(least, n > 0 ? at - (xs[n - 1] ?? 0) || least : least), each);
  return {
    xs,
    texts: spaced(dayTexts(dayTicks(first, last, most), x, width, words)),
    room: series.includes('bar') ? room : each,
  };
}

/** Without those that would run into the one before. */
function spaced(texts: Across['texts']): Across['texts'] {
  let end = Number.NEGATIVE_INFINITY;
  return texts.filter(({ x, anchor, text }) => {
    const wide = widthOf(text);
    const from = anchor === 'start' ? x : anchor === 'end' ? x - wide : x - wide / 2;
    if (from < end + BETWEEN) return false;
    end = from + wide;
    return true;
  });
}

function rowsOf(picture: Picture, points: readonly PicturePoint[], width: number, words: AxisWords): Drawn {
  const axis = axisOf(picture, points);
  const ticks = axis.ticks.map(words.value);
  const half = Math.max(...ticks.map(widthOf)) / 2;
  const [left, right] = [Math.max(INSET, half), width - Math.max(INSET, half)];
  const top = ROW + 8;
  const bottom = top + points.length * ROW_HEIGHT;
  const height = bottom + ROW + 8;
  const x = rounded(scaleLinear([axis.from, axis.to], [left, right]));
  const at = points.map((point, n) => ({ point, y: top + n * ROW_HEIGHT + 30 }));
  return {
    width,
    height,
    plot: { left, right, top, bottom },
    texts: [
      { x: 0, y: ROW - 5, anchor: 'start', text: picture.caption },
      ...axis.ticks.map((tick, n): Text => ({ x: x(tick), y: height - 5, anchor: 'middle', text: ticks[n] ?? '' })),
      ...at.map(({ point, y }): Text => ({ x: width, y: y - 15, anchor: 'end', text: point.beside ?? '' })),
    ],
    names: at.map(({ point: { name = '', beside = '' }, y }): Text => {
      const room = width - (beside === '' ? 0 : widthOf(beside) + 10);
      return { x: 0, y: y - 15, anchor: 'start', text: fitting(name, room) };
    }),
    grid: axis.ticks.map((tick) => ({ x1: x(tick), x2: x(tick), y1: top, y2: bottom })),
    range: picture.range && {
      x: x(picture.range.low),
      y: top,
      width: Math.max(0, x(picture.range.high) - x(picture.range.low)),
      height: bottom - top,
    },
    level: undefined,
    bars: at.flatMap(({ point, y }) =>
      point.marks.flatMap((mark) => {
        if (picture.series[mark.series] !== 'bar') return [];
        const [from, to] = [x(mark.from ?? 0), x(mark.value)];
        const box = { x: Math.min(from, to), y: y - BAR.row / 2, width: Math.abs(to - from), height: BAR.row };
        return [{ ...box, key: point.key, least: mark.least === true, second: mark.series > 0 }];
      }),
    ),
    paths: [],
    whiskers: at.flatMap(({ point, y }) =>
      point.marks.flatMap((mark) => {
        const as = picture.series[mark.series];
        if (!as || mark.low === undefined || mark.high === undefined) return [];
        const [low, high] = [x(mark.low), x(mark.high)];
        const caps = `M${low},${y - CAP}V${y + CAP}M${high},${y - CAP}V${y + CAP}`;
        return [{ as, key: point.key, path: `M${low},${y}H${high}${caps}` }];
      }),
    ),
    dots: squaresFirst(
      at.flatMap(({ point, y }) =>
        point.marks.flatMap((mark) => dotOf(picture.series[mark.series] ?? 'disc', point.key, x(mark.value), y)),
      ),
    ),
    dense: false,
    stops: at.map(({ point, y }) => ({ key: point.key, x: left, y: y - 6 })),
  };
}

const dotOf = (as: SeriesAs, key: string, x: number, y: number): Drawn['dots'] =>
  as === 'disc' || as === 'square' ? [{ as, key, x, y }] : [];

/** An open square is larger: where both are alike, the disc is seen inside. */
const squaresFirst = (dots: Drawn['dots']): Drawn['dots'] =>
  [...dots].sort((a, b) => Number(a.as === 'disc') - Number(b.as === 'disc'));

/** Through points that follow each other; broken where one in between has no number. */
function pathOf(
  at: readonly { readonly x: number; readonly mark: Mark | undefined }[],
  y: (value: number) => number,
): string {
  return (
    line<(typeof at)[number]>(
      (one) => one.x,
      (one) => y(one.mark?.value ?? 0),
    ).defined((one) => one.mark !== undefined)([...at]) ?? ''
  );
}

/** What of a text has room, cut where it must be. */
function fitting(text: string, room: number): string {
  if (widthOf(text) <= room) return text;
  const letters = [...text];
  while (letters.length > 1 && widthOf(`${letters.join('')}…`) > room) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}

/** Returns the point nearest to a tap: beside it, or in rows above or below it. */
export function nearestPoint({ stops }: Drawn, as: Picture['as'], x: number, y: number): string | undefined {
  const far = (stop: Drawn['stops'][number]): number => (as === 'rows' ? Math.abs(stop.y - y) : Math.abs(stop.x - x));
  return stops.reduce<Drawn['stops'][number] | undefined>(
    (near, stop) => (near && far(near) < far(stop) ? near : stop),
    undefined,
  )?.key;
}
