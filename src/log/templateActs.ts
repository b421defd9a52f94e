import { type Day, instantAt } from '../domain/day';
import { newId, plannedSessionId } from '../domain/ids';
import { orderBetween } from '../domain/order';
import { MOST_SETS, type Plan } from '../domain/plan';
import { planOfSet } from '../domain/planOf';
import { fail, ok, type Result } from '../domain/result';
import { listedThings, type SessionRecord } from '../domain/session';
import type { SetRecord } from '../domain/set';
import { MOST_TEMPLATE_NAME, plannedValues, WEEK_DAYS, type WeekDay } from '../domain/template';
import type { World } from '../domain/world';
import { removing } from '../merge/removal';
import type { Json } from '../merge/row';
import { keyOf } from './keys';
import type { Added, NameFault } from './libraryActs';
import type { Log, Saving } from './log';
import type { SessionPlace } from './logSet';
import { held } from './planActs';
import { changeSession } from './sessionActs';
import { session, shownOf } from './views';

/** Keeps what a session planned and did as a template of its client's: the list, the blocks, and what was done as what to begin with. */
export function keepTemplate(
  log: Log,
  place: SessionPlace,
  name: string,
  days: readonly WeekDay[],
  world: World,
): Result<Added, NameFault> {
  const called = name.trim();
  if (called === '') return fail({ type: 'empty', field: 'name' });
  if (called.length > MOST_TEMPLATE_NAME)
    return fail({ type: 'too-long', field: 'name', most: MOST_TEMPLATE_NAME, has: called.length });
  const id = newId(world.random, 16);
  const changes = { name: called, ...daysOf(days), ...planOfSession(log, place, world) };
  const saved = log.commit({
    act: { type: 'keep-template', stream: place.stream },
    rows: [{ name: { stream: place.stream, id, kind: 'template' }, changes, fresh: true }],
  });
  return ok({ id, saved });
}

/** Removes a template [M5]: sessions started from it stay as they are. */
export function removeTemplate(log: Log, stream: string, template: string): Saving {
  const row = log.get(keyOf({ stream, id: template }));
  if (!row) throw new Error(`template ${template} is not in memory`);
  return log.commit({ act: { type: 'remove-template', stream }, rows: [{ name: row, changes: removing(row, '') }] });
}

/**
 * [M11] Starts a session from a template, now: its id is made from client, template, day and n, so the same planned session started on two
 * devices is one row; the second of a day, or one after a removal, counts up. The plan is copied: later edits of the template touch no session.
 */
export async function startFromTemplate(
  log: Log,
  stream: string,
  template: string,
  world: World,
): Promise<SessionPlace & { readonly saved: Saving }> {
  const row = log.get(keyOf({ stream, id: template }));
  if (!row) throw new Error(`template ${template} is not in memory`);
  const start = instantAt(world.now(), world.zone());
  const id = await freeId(log, stream, template, start.day, world);
  const plan = plannedValues(shownOf(row)) as Readonly<Record<string, Json>>;
  const saved = log.commit({
    act: { type: 'start-session', stream },
    rows: [
      {
        name: { stream, id, kind: 'session' },
        changes: { start, template, plannedDay: start.day, ...plan },
        fresh: true,
      },
    ],
  });
  return { stream, session: id, saved };
}

/**
 * Returns the first planned id that no row bears. Where the store cannot be read nobody knows: a fresh id then, so that no session of the day
 * is written over.
 */
async function freeId(log: Log, stream: string, template: string, day: Day, world: World): Promise<string> {
  for (let n = 1; ; n += 1) {
    const planned = plannedSessionId(stream, template, day, n);
    const wasRead = await log.loadSession(stream, planned);
    if (log.get(keyOf({ stream, id: planned }))) continue;
    return wasRead ? planned : newId(world.random, 16);
  }
}

/**
 * Starts a session that has on its list what another one of the client's did. Where that one cannot be read any more, the session starts empty.
 */
export async function startLike(
  log: Log,
  stream: string,
  like: string,
  world: World,
): Promise<SessionPlace & { readonly saved: Saving }> {
  await log.loadSession(stream, like);
  const from = { stream, session: like };
  const plan = session(log, stream, like) ? planOfSession(log, from, world) : {};
  log.releaseSession(stream, like);
  const place = { stream, session: newId(world.random, 16) };
  const saved = log.commit({
    act: { type: 'start-session', stream },
    rows: [
      {
        name: { stream, id: place.session, kind: 'session' },
        changes: { start: instantAt(world.now(), world.zone()), ...plan },
        fresh: true,
      },
    ],
  });
  return { ...place, saved };
}

/** Puts what a client did last on an empty session's list, as what to begin with. Returns false where there is no session before. */
export async function repeatLast(log: Log, place: SessionPlace, world: World): Promise<boolean> {
  for (const { session: id } of log.lastTimes(place.stream, '', place.session) ?? []) {
    await log.loadSession(place.stream, id);
    const from = { stream: place.stream, session: id };
    const plan = session(log, place.stream, id) ? planOfSession(log, from, world) : {};
    log.releaseSession(place.stream, id);
    // one that did not happen holds nothing to repeat
    if (Object.keys(plan).length === 0) continue;
    await changeSession(log, place, { type: 'repeat-last' }, plan);
    return true;
  }
  return false;
}

const daysOf = (days: readonly WeekDay[]): Record<string, Json> =>
  Object.fromEntries(WEEK_DAYS.flatMap((day) => (days.includes(day) ? [[`days/${day}`, true]] : [])));

/** Returns the registers of a session's plan; what was done without one is what a plan would ask for. */
function planOfSession(log: Log, place: SessionPlace, world: World): Record<string, Json> {
  const record = held(log, place);
  const row = log.get(keyOf({ stream: place.stream, id: place.session }));
  const changes: Record<string, Json> = { ...(plannedValues(row ? shownOf(row) : {}) as Record<string, Json>) };
  let last = listedThings(record).findLast((thing) => thing.order !== undefined)?.order;
  for (const item of record.items) {
    if (item.order === undefined) {
      last = orderBetween(last, undefined, newId(world.random, 8));
      changes[`exercises/${item.id}/order`] = last;
    }
    const done = planOfDone(record, item.id);
    // what is counted over the session keeps its count, not the size of one handful
    if (done && item.tally === undefined) changes[`exercises/${item.id}/plan`] = { ...done } as Json;
  }
  for (const block of record.blocks) {
    for (const station of block.stations) {
      const own = record.sets.filter((set) => set.in?.block === block.id && set.in.station === station.id);
      const done = own.at(-1);
      const path = `blocks/${block.id}/stations/${station.id}/plan`;
      if (done && changes[path] === undefined) changes[path] = { ...planOfSet(done) } as Json;
    }
  }
  return changes;
}

function planOfDone(record: SessionRecord, exercise: string): Plan | undefined {
  const isInBlock = (set: SetRecord): boolean => record.blocks.some((block) => block.id === set.in?.block);
  const sets = record.sets.filter((set) => set.exercise === exercise && set.kind === 'working' && !isInBlock(set));
  const last = sets.at(-1);
  if (!last) return undefined;
  const sides = new Set(sets.map((set) => set.side)).size;
  return { ...planOfSet(last), sets: Math.min(MOST_SETS, Math.max(1, Math.round(sets.length / sides))) };
}
