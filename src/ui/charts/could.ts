import type { SideSeries } from '../../analysis/series';
import type { Side } from '../../domain/set';
import { type LoadUnit, toKg } from '../../domain/units';
import type { Frame, Visit } from './visits';

/*
 * Sessions as what they tell could be done: every one on one scale, so many reps with nothing left, whatever reps and effort it had.
 */

/** What a session was measured as, and what was known after it: in the chart's unit. */
export type Known = {
  readonly measured?: number;
  readonly atLeast?: true;
  readonly level?: number;
  readonly low?: number;
  readonly high?: number;
};

export type Could = {
  readonly visits: readonly Visit[];
  readonly frame: Frame;
  /** Loads are of so many reps. */
  readonly reps: number;
  readonly way: SideSeries['way'];
  readonly known: (session: string, side: Side | undefined) => Known | undefined;
};

/** Returns a value on the bar as the chart writes it: loads in the unit that is used. */
export function inFrame(value: number, series: readonly SideSeries[], unit: LoadUnit): number {
  const isLoad = series.some(({ way }) => way === 'held' || way === 'system');
  return isLoad && unit === 'lb' ? value / toKg({ value: 1, unit }) : value;
}

/** Returns visits with what each is measured as in the place of what was held; undefined where nothing is judged. */
export function couldOf(visits: readonly Visit[], series: readonly SideSeries[], unit: LoadUnit): Could | undefined {
  const [first] = series;
  if (!first) return undefined;
  const known = new Map<string, Known>();
  const read = (value: number): number => inFrame(value, series, unit);
  for (const { side, points } of series) {
    for (const { session, measured, atLeast, band } of points) {
      known.set(`${session} ${side ?? ''}`, {
        ...(measured === undefined ? {} : { measured: read(measured) }),
        ...(atLeast ? { atLeast } : {}),
        ...(band ? { level: read(band.mean), low: read(band.lo80), high: read(band.hi80) } : {}),
      });
    }
  }
  const of = (session: string, side: Side | undefined): Known | undefined => known.get(`${session} ${side ?? ''}`);
  return {
    visits: visits.map((visit) => ({
      ...visit,
      held: visit.held.map((held) => ({
        ...held,
        value: of(visit.session, held.top.side)?.measured,
      })),
    })),
    frame: { measure: MEASURE[first.way], unit },
    reps: first.reps,
    way: first.way,
    known: of,
  };
}

const MEASURE = { held: 'load', system: 'added', reps: 'reps', degrees: 'degrees' } as const;
