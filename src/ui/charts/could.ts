import type { SideSeries } from '../../analysis/series';
import type { Exposure, Top } from '../../domain/exposure';
import type { Side } from '../../domain/set';
import type { Tried } from '../../domain/tried';
import { fromKg, type LoadUnit } from '../../domain/units';
import type { Frame, Held, Visit } from './visits';

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
  return isLoad ? fromKg(value, unit) : value;
}

/**
 * Returns visits with what each is measured as in the place of what was held; undefined where nothing is judged. Every session that is measured by is
 * among them: also one of missed sets or back-offs alone, which stand for nothing among what was held.
 */
export function couldOf(
  visits: readonly Visit[],
  series: readonly SideSeries[],
  exposures: readonly Exposure[],
  unit: LoadUnit,
): Could | undefined {
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
    visits: visits.map((visit) => {
      const missing = series.flatMap(({ side }): readonly Held[] => {
        if (!of(visit.session, side) || visit.held.some(({ top }) => top.side === side)) return [];
        return [{ top: topOf(exposures, visit.session, side, first.way), value: undefined, converted: false }];
      });
      const held = [...visit.held, ...missing];
      return { ...visit, held: held.map((one) => ({ ...one, value: of(visit.session, one.top.side)?.measured })) };
    }),
    frame: { measure: MEASURE[first.way], unit },
    reps: first.reps,
    way: first.way,
    known: of,
  };
}

/** What stands for a session that has no set among what was held: the heaviest that it is measured by. */
function topOf(exposures: readonly Exposure[], session: string, side: Side | undefined, way: Could['way']): Top {
  const tried = exposures.find((one) => one.session === session)?.tried?.filter((one) => one.side === side) ?? [];
  const best = tried.reduce<Tried | undefined>((a, b) => (a && (a.kg ?? 0) >= (b.kg ?? 0) ? a : b), undefined);
  return {
    ...(side ? { side } : {}),
    // of one's own body it is what was added to it
    ...(best?.kg === undefined
      ? {}
      : { [way === 'held' ? 'load' : 'added']: { value: Math.round(best.kg * 100) / 100, unit: 'kg' } }),
    ...(best?.reps === undefined ? {} : { reps: best.reps }),
    ...(best?.degrees === undefined ? {} : { degrees: best.degrees }),
  };
}

const MEASURE = { held: 'load', system: 'added', reps: 'reps', degrees: 'degrees' } as const;
