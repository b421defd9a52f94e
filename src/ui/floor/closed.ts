import { instantAt } from '../../domain/day';
import type { Entry } from '../../domain/entry';
import { heaviestOffered, type PainLevel, painLevel, setsOfSigns } from '../../domain/pain';
import { holdsOn, type Restriction } from '../../domain/restriction';
import type { SessionRecord } from '../../domain/session';
import { fromKg, toKg } from '../../domain/units';
import type { App } from '../app';

type Place = { readonly stream: string; readonly session: string };

/** Why an exercise is closed in a session: pain or a stop sign, or what a professional said. */
export type Closed =
  | { readonly by: 'pain'; readonly level: Extract<PainLevel, { readonly level: 'stop' }> }
  | { readonly by: 'restriction'; readonly restriction: Restriction };

/** Returns what today's sets of an exercise ask for, given those of the session before. */
export function painOf({ log, views }: App, place: Place, session: SessionRecord, exercise: string): PainLevel {
  return painLevel(
    session.sets.filter((set) => set.exercise === exercise),
    log.lastTimes(place.stream, exercise, session.id)?.[0]?.sets ?? [],
    session.signs.filter((sign) => sign.exercise === undefined || sign.exercise === exercise),
    views.client(log, place.stream)?.clearances[exercise],
  );
}

/** Returns why an exercise is closed in a session, or undefined where it is open. */
export function closedFor(app: App, place: Place, session: SessionRecord, exercise: string): Closed | undefined {
  const level = painOf(app, place, session, exercise);
  if (level.level === 'stop') return { by: 'pain', level };
  const restriction = restrictionsNow(app, place.stream).find((one) => one.hides.includes(exercise));
  return restriction && { by: 'restriction', restriction };
}

/** Returns the restrictions of a client that hold today. */
export function restrictionsNow({ log, views, world }: App, stream: string): readonly Restriction[] {
  const { day } = instantAt(world.now(), world.zone());
  return views.restrictions(log, stream).filter((one) => holdsOn(one, day));
}

/**
 * Returns what nothing heavier than is offered of an exercise, kg, until a clearance is noted; null where the set that stopped it held no load,
 * undefined where nothing holds it back.
 */
export function heaviestOf({ log, views }: App, place: Place, session: SessionRecord, exercise: string) {
  const before = log.lastTimes(place.stream, exercise, session.id) ?? [];
  const clearance = views.client(log, place.stream)?.clearances[exercise];
  const sets = [...before.flatMap((time) => time.sets), ...session.sets.filter((set) => set.exercise === exercise)];
  const signed = before.flatMap((time) => setsOfSigns(time.sets, time.signs ?? [], clearance));
  return heaviestOffered(sets, clearance, signed);
}

/** Returns an entry that nobody typed, with no load heavier than is offered of its exercise. */
export function notHeavier(app: App, place: Place, session: SessionRecord, entry: Entry): Entry {
  const most = heaviestOf(app, place, session, entry.exercise) ?? undefined;
  // of load taken off, more is lighter
  if (most === undefined || entry.body === 'assist') return entry;
  const lighter = (load: string): string => {
    const typed = Number(load.replace(',', '.'));
    return typed > 0 && toKg({ value: typed, unit: entry.unit }) > most ? String(inUnit(entry.unit, most)) : load;
  };
  return {
    ...entry,
    load: lighter(entry.load),
    parts: entry.parts.map((part) => ({ ...part, load: lighter(part.load) })),
  };
}

/** Returns kilograms in a unit, rounded down to a tenth where that is not their own. */
export const inUnit = (unit: Entry['unit'], kg: number): number =>
  unit === 'kg' ? kg : Math.floor(fromKg(kg, unit) * 10) / 10;
