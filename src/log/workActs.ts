import { instantAt, isDay } from '../domain/day';
import { newId } from '../domain/ids';
import { type PlaceFault, type PlaceFields, parsePlace } from '../domain/kitFields';
import { REST_DAY, type WorkKind } from '../domain/otherWork';
import { fail, ok, type Result } from '../domain/result';
import type { World } from '../domain/world';
import { removing } from '../merge/removal';
import type { Json } from '../merge/row';
import { keyOf } from './keys';
import type { Added } from './libraryActs';
import type { Log, Saving } from './log';
import type { SessionPlace } from './logSet';
import { changeSession } from './sessionActs';

/*
 * Other work of a client, and the places where one trains with what hangs there.
 */

/** Of a day of rest hours and effort are not looked at. */
export type WorkFields = {
  readonly work: WorkKind;
  readonly day: string;
  readonly hours: number | null;
  readonly effort: number | null;
};
export type WorkFault = { readonly type: 'not-a-day'; readonly field: 'day'; readonly text: string };

/** Notes other work on a day, today or any other; or that it was of rest. Hours and effort are not noted where they are `null`, nor of a day of rest. */
export function noteOtherWork(log: Log, stream: string, fields: WorkFields, world: World): Result<Added, WorkFault> {
  if (!isDay(fields.day)) return fail({ type: 'not-a-day', field: 'day', text: fields.day });
  const id = newId(world.random, 16);
  const { hours, effort } = fields.work === REST_DAY ? { hours: null, effort: null } : fields;
  const changes: Record<string, Json> = {
    work: fields.work,
    day: fields.day,
    at: instantAt(world.now(), world.zone()),
    ...(hours === null ? {} : { hours }),
    ...(effort === null ? {} : { effort: { value: effort, as: 'session' } }),
  };
  const saved = log.commit({
    act: { type: fields.work === REST_DAY ? 'rest-day' : 'other-work', stream },
    rows: [{ name: { stream, id, kind: 'otherWork' }, changes, fresh: true }],
  });
  return ok({ id, saved });
}

/** Removes other work that was noted by mistake [M5]. */
export function removeOtherWork(log: Log, stream: string, id: string): Saving {
  const row = log.get(keyOf({ stream, id }));
  if (!row) throw new Error(`other work ${id} is not in memory`);
  return log.commit({ act: { type: 'remove-other-work', stream }, rows: [{ name: row, changes: removing(row, '') }] });
}

/** Adds a place with its kit, or changes the one named. */
export function savePlace(log: Log, fields: PlaceFields, world: World, existing?: string): Result<Added, PlaceFault> {
  const parsed = parsePlace(fields);
  if (!parsed.ok) return parsed;
  const { name, bands, unit, ...more } = parsed.value;
  const id = existing ?? newId(world.random, 16);
  // of a new place what is not noted has no register
  const noted = Object.entries(more).filter(
    ([, value]) => existing !== undefined || (value !== null && !(Array.isArray(value) && value.length === 0)),
  );
  const hasIron = noted.some(([path]) => path !== 'pins');
  const changes: Record<string, Json> = {
    name,
    bands,
    ...(hasIron ? { unit } : {}),
    ...(Object.fromEntries(noted) as Record<string, Json>),
  };
  const saved = log.commit({
    act: { type: 'place' },
    rows: [{ name: { stream: 'main', id, kind: 'kit' }, changes, fresh: existing === undefined }],
  });
  return ok({ id, saved });
}

/** Says where a session is: its bands and pins are those of that place. */
export function choosePlace(log: Log, place: SessionPlace, kit: string | null): Saving {
  return changeSession(log, place, { type: 'choose-place' }, { place: kit });
}
