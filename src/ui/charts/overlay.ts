import { area, line } from 'd3-shape';
import { amountOf } from '../../analysis/onTime';
import type { SideSeries } from '../../analysis/series';
import { type Day, daysBetween } from '../../domain/day';
import type { Side } from '../../domain/set';

/*
 * What is laid over a chart of sessions: the line of what could be done with its band, the forecast from the last session on, what each day needs, and
 * the goal. Values are in the chart's own unit.
 */

type Ranged = { readonly day: Day; readonly mean: number; readonly low: number; readonly high: number };

export type Overlay = {
  readonly sides: readonly {
    readonly side: Side | undefined;
    readonly line: readonly Ranged[];
    readonly fan: readonly Ranged[];
  }[];
  readonly needed: readonly { readonly day: Day; readonly value: number }[];
  readonly goal: { readonly day: Day; readonly value: number } | undefined;
};

/** What is drawn of it, in pixels. */
export type OverlayShapes = {
  readonly sides: readonly {
    readonly side: Side | undefined;
    readonly band: string;
    readonly line: string;
    readonly fan: string;
    readonly ahead: string;
  }[];
  readonly needed: string;
  readonly goal: { readonly x: number; readonly y: number } | undefined;
};

/** Returns what is laid over, given series and how a value on the bar is written in the chart's unit; nothing before `from` or behind `until` is drawn. */
export function overlayOf(
  series: readonly SideSeries[],
  inUnit: (value: number) => number,
  { from, until }: { readonly from: Day; readonly until: Day },
): Overlay {
  const ranged = (day: Day, band: { mean: number; lo80: number; hi80: number }): Ranged => ({
    day,
    mean: inUnit(band.mean),
    low: inUnit(band.lo80),
    high: inUnit(band.hi80),
  });
  const target = series.find((one) => one.target)?.target;
  const needed = series.find((one) => one.needed.length > 1)?.needed ?? [];
  return {
    sides: series.map(({ side, points, fan }) => ({
      side,
      line: points.flatMap(({ day, band }) => (band ? [ranged(day, band)] : [])),
      fan: fan.filter(({ day }) => day <= until).map(({ day, band }) => ranged(day, band)),
    })),
    needed: clippedTo(needed, from, until).map(({ day, value }) => ({ day, value: inUnit(value) })),
    goal:
      target && target.day <= until && target.day >= from
        ? { day: target.day, value: inUnit(amountOf(target.goal)) }
        : undefined,
  };
}

/** The part of the straight line between two days. */
function clippedTo([begin, end]: SideSeries['needed'], from: Day, until: Day): SideSeries['needed'] {
  if (!begin || !end || begin.day >= end.day) return [];
  const first = begin.day < from ? from : begin.day;
  const last = end.day > until ? until : end.day;
  const at = (day: Day): number => {
    const share = daysBetween(begin.day, day) / daysBetween(begin.day, end.day);
    return begin.value + (end.value - begin.value) * share;
  };
  return first < last ? [first, last].map((day) => ({ day, value: at(day) })) : [];
}

/** Returns every value that has to have room on the axis. */
export const overlayValues = ({ sides, needed, goal }: Overlay): readonly number[] => [
  ...sides.flatMap(({ line: known, fan }) => [...known, ...fan].flatMap(({ low, high }) => [low, high])),
  ...needed.map(({ value }) => value),
  ...(goal ? [goal.value] : []),
];

/** Returns the last day that is drawn; undefined where nothing is. */
export function overlayEnd({ sides, needed, goal }: Overlay): Day | undefined {
  const days = [...sides.flatMap(({ line: known, fan }) => [...known, ...fan]), ...needed, ...(goal ? [goal] : [])].map(
    ({ day }) => day,
  );
  return days.sort().at(-1);
}

/** Returns the shapes of an overlay, given where days and values lie. */
export function overlayShapes(overlay: Overlay, x: (day: Day) => number, y: (value: number) => number): OverlayShapes {
  const range = area<Ranged>()
    .x((one) => x(one.day))
    .y0((one) => y(one.low))
    .y1((one) => y(one.high));
  const middle = line<Ranged>(
    (one) => x(one.day),
    (one) => y(one.mean),
  );
  const straight = line<{ day: Day; value: number }>(
    (one) => x(one.day),
    (one) => y(one.value),
  );
  return {
    sides: overlay.sides.map(({ side, line: known, fan }) => ({
      side,
      band: range([...known]) ?? '',
      line: middle([...known]) ?? '',
      fan: range([...fan]) ?? '',
      ahead: middle([...fan]) ?? '',
    })),
    needed: overlay.needed.length > 1 ? (straight([...overlay.needed]) ?? '') : '',
    goal: overlay.goal && { x: x(overlay.goal.day), y: y(overlay.goal.value) },
  };
}
