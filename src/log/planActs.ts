import type { Station } from '../domain/block';
import { newId } from '../domain/ids';
import { type NumberFault, parseNumber } from '../domain/number';
import { orderBetween } from '../domain/order';
import type { Plan } from '../domain/plan';
import { ok, type Result } from '../domain/result';
import { listedThings, type SessionRecord } from '../domain/session';
import type { World } from '../domain/world';
import { removing } from '../merge/removal';
import type { Json } from '../merge/row';
import { keyOf } from './keys';
import type { Log, Saving } from './log';
import type { SessionPlace } from './logSet';
import { changeSession } from './sessionActs';
import { session } from './views';

/*
 * What today's list says: its exercises and blocks, in which order, with what is planned of them. Sets are not touched here.
 */

/** Puts an exercise on today's list: at its end, or behind `after` (an exercise or block). */
export function listExercise(
  log: Log,
  place: SessionPlace,
  exercise: string,
  world: World,
  after?: string,
  plan?: Plan,
): Saving {
  const order = orderBehind(held(log, place), after, world);
  return changeSession(
    log,
    place,
    { type: 'list-exercise', exercise },
    { ...opened(exercise), [`exercises/${exercise}/order`]: order, ...planned(`exercises/${exercise}/plan`, plan) },
  );
}

/** What is put on the list again is neither skipped nor swapped any more. */
const opened = (exercise: string): Record<string, Json> => ({
  [`exercises/${exercise}/skipped`]: null,
  [`exercises/${exercise}/swappedFor`]: null,
});

/** Leaves things on today's list out, and why: one, or all that do not fit into the time. */
export function skip(log: Log, place: SessionPlace, things: readonly Thing[], why: string): Saving {
  const changes = Object.fromEntries(things.map((thing) => [`${pathOf(thing)}/skipped`, { why }]));
  return changeSession(log, place, { type: 'skip', count: things.length }, changes);
}

/** Takes what was left out up again. */
export function takeUp(log: Log, place: SessionPlace, thing: Thing): Saving {
  const path = pathOf(thing);
  const swapped = thing.type === 'exercise' ? { [`${path}/swappedFor`]: null } : {};
  return changeSession(log, place, { type: 'take-up' }, { [`${path}/skipped`]: null, ...swapped });
}

/** Something on today's list, or a station of a block. */
export type Thing =
  | { readonly type: 'exercise' | 'block'; readonly id: string }
  | { readonly type: 'station'; readonly block: string; readonly id: string };

/** Returns the path of something on today's list. */
export function pathOf(thing: Thing): string {
  if (thing.type === 'station') return `blocks/${thing.block}/stations/${thing.id}`;
  return `${thing.type === 'block' ? 'blocks' : 'exercises'}/${thing.id}`;
}

/**
 * Puts another exercise in the place of one, for today: on the list right behind it, at a station in its stead. Sets done stay with what they
 * were done with. The pad takes the new one in hand.
 */
export function swap(
  log: Log,
  place: SessionPlace,
  thing: Thing,
  by: string,
  why: string,
  world: World,
  draft: { readonly key: string; readonly value: Json },
): Saving {
  const path = pathOf(thing);
  const record = held(log, place);
  const changes: Record<string, Json> =
    thing.type === 'station'
      ? { [`${path}/exercise`]: by, ...wasOf(stationOf(record, thing), path, by), [`${path}/plan`]: null }
      : {
          [`${path}/swappedFor`]: { exercise: by, why },
          ...opened(by),
          [`exercises/${by}/order`]: orderBehind(record, thing.id, world),
        };
  const { stream, session: id } = place;
  return log.commit({
    act: { type: 'swap', stream },
    rows: [{ name: { stream, id, kind: 'session' }, changes }],
    drafts: [draft],
  });
}

/** Moves something on today's list one place up or down; at the end of the list nothing changes. */
export function moveItem(log: Log, place: SessionPlace, id: string, by: -1 | 1, world: World): Saving | undefined {
  const { list, changes } = allPlaced(held(log, place), world);
  const at = list.findIndex((one) => one.id === id);
  const other = list[at + by];
  const one = list[at];
  if (!one || !other) return undefined;
  const [before, after] = by === 1 ? [other, list[at + 2]] : [list[at - 2], other];
  const order = orderBetween(before?.order, after?.order, newId(world.random, 8));
  return changeSession(log, place, { type: 'reorder' }, { ...changes, [`${pathOf(one)}/order`]: order });
}

/** Returns today's list with an order for all of it, and the changes that give one to what only sets tell of. */
function allPlaced(record: SessionRecord, world: World) {
  const changes: Record<string, Json> = {};
  let last: string | undefined;
  const list = listedThings(record).map((thing) => {
    if (thing.order !== undefined) {
      last = thing.order;
      return { ...thing, order: thing.order };
    }
    last = orderBetween(last, undefined, newId(world.random, 8));
    changes[`${pathOf(thing)}/order`] = last;
    return { ...thing, order: last };
  });
  return { list, changes };
}

/** Spreads an exercise over the session: so many in all, added to from anywhere; `null` ends the count, and its sets stay. */
export function spread(
  log: Log,
  place: SessionPlace,
  exercise: string,
  total: string | null,
  world: World,
): Result<Saving, NumberFault<'tally'>> {
  const count = total === null ? null : parseNumber('tally', total, { min: 1, max: 2000, step: 1 });
  if (count !== null && !count.ok) return count;
  const record = held(log, place);
  const isListed = record.items.find((item) => item.id === exercise)?.order !== undefined;
  return ok(
    changeSession(
      log,
      place,
      { type: 'tally', exercise },
      {
        [`exercises/${exercise}/tally`]: count === null ? null : count.value,
        ...(isListed ? {} : { [`exercises/${exercise}/order`]: orderBehind(record, undefined, world) }),
      },
    ),
  );
}

/** Changes what is planned of a station or an exercise. */
export function planThing(log: Log, place: SessionPlace, thing: Thing, plan: Plan): Saving {
  return changeSession(log, place, { type: 'plan' }, { [`${pathOf(thing)}/plan`]: { ...plan } as Json });
}

/** Removes a block or a station [M5]: its sets stay, in no block. */
export function removeThing(log: Log, place: SessionPlace, thing: Thing): Saving {
  const row = log.get(keyOf({ stream: place.stream, id: place.session }));
  if (!row) throw new Error(`session ${place.session} is not in memory`);
  return changeSession(log, place, { type: 'remove-thing' }, removing(row, pathOf(thing)));
}

/** Returns an order behind something on the list, or at its end. */
export function orderBehind(record: SessionRecord, after: string | undefined, world: World): string {
  const list = listedThings(record).filter((one) => one.order !== undefined);
  const at = after === undefined ? list.length - 1 : list.findIndex((one) => one.id === after);
  const before = at === -1 ? list.at(-1) : list[at];
  return orderBetween(before?.order, at === -1 ? undefined : list[at + 1]?.order, newId(world.random, 8));
}

/** Returns the register of a plan that says something. */
export const planned = (path: string, plan: Plan | undefined): Record<string, Json> =>
  plan && Object.keys(plan).length > 0 ? { [path]: { ...plan } as Json } : {};

/** Returns a session that an act is about; one that is not in memory is a bug. */
export function held(log: Log, { stream, session: id }: SessionPlace): SessionRecord {
  const record = session(log, stream, id);
  if (!record) throw new Error(`session ${stream}/${id} is not in memory`);
  return record;
}

/** What stood at a station before any swap of today; swapped back, it is as it was. */
const wasOf = ({ exercise, was = exercise }: Station, path: string, by: string): Record<string, Json> => ({
  [`${path}/was`]: was === by ? null : was,
});

function stationOf(record: SessionRecord, thing: { readonly block: string; readonly id: string }) {
  const station = record.blocks.find((one) => one.id === thing.block)?.stations.find((one) => one.id === thing.id);
  if (!station) throw new Error(`station ${thing.id} is not in block ${thing.block}`);
  return station;
}
