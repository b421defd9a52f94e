import { instantAt } from '../../domain/day';
import { heaviestOffered, type PainLevel, painLevel } from '../../domain/pain';
import { holdsOn, type Restriction } from '../../domain/restriction';
import type { SessionRecord } from '../../domain/session';
import type { App } from '../app';
import type { Place } from './usePad';

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

/** Returns what nothing heavier than is offered of, kg; undefined where nothing holds it back. */
export function heaviestOf({ log, views }: App, place: Place, session: SessionRecord, exercise: string) {
  const before = log.lastTimes(place.stream, exercise, session.id) ?? [];
  const sets = [...before.flatMap((time) => time.sets), ...session.sets.filter((set) => set.exercise === exercise)];
  return heaviestOffered(sets, views.client(log, place.stream)?.clearances[exercise]) ?? undefined;
}
