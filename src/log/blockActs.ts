import { BLOCK_BOUNDS, type Block, type BlockKind, MOST_LISTED, MOST_STATIONS } from '../domain/block';
import { instantAt } from '../domain/day';
import { newId } from '../domain/ids';
import { type Bounds, type NumberFault, parseNumber } from '../domain/number';
import { orderBetween } from '../domain/order';
import type { Plan } from '../domain/plan';
import { fail, ok, type Result } from '../domain/result';
import type { World } from '../domain/world';
import type { Json } from '../merge/row';
import type { Log, Saving } from './log';
import type { SessionPlace } from './logSet';
import { held, orderBehind, planned } from './planActs';
import { changeSession } from './sessionActs';

/*
 * Blocks as they are made and run: stations, rounds and the clock. What is done in them are sets (`roundActs`).
 */

/** What a block is made from: texts as typed; which are asked for depends on its kind. */
export type BlockFields = {
  readonly kind: BlockKind;
  readonly rounds: string;
  readonly reps: string;
  readonly rest: string;
  readonly work: string;
  readonly off: string;
  readonly every: string;
  readonly cap: string;
};
export type BlockField = Exclude<keyof BlockFields, 'kind'>;
export type BlockFault =
  | NumberFault<BlockField>
  | { readonly type: 'not-a-list'; readonly field: 'reps'; readonly text: string }
  | { readonly type: 'too-many-stations'; readonly field: 'stations'; readonly most: number };

/** The fields a kind of block asks for. */
export const BLOCK_ASKS: Readonly<Record<BlockKind, readonly BlockField[]>> = {
  rounds: ['rounds', 'rest'],
  list: ['reps', 'rest'],
  every: ['rounds', 'every'],
  most: ['cap'],
  timed: ['rounds', 'work', 'off'],
  mobility: [],
};

/** Adds a block to today's list, at its end or behind `after`, with its stations in their order. Fails by field, storing nothing. */
export function addBlock(
  log: Log,
  place: SessionPlace,
  fields: BlockFields,
  stations: readonly { readonly exercise: string; readonly plan: Plan }[],
  world: World,
  after?: string,
): Result<{ readonly id: string; readonly saved: Saving }, BlockFault> {
  const parsed = parseBlock(fields);
  if (!parsed.ok) return parsed;
  if (stations.length > MOST_STATIONS)
    return fail({ type: 'too-many-stations', field: 'stations', most: MOST_STATIONS });
  const id = newId(world.random, 8);
  const changes: Record<string, Json> = {
    [`blocks/${id}/order`]: orderBehind(held(log, place), after, world),
    ...under(`blocks/${id}`, noted(parsed.value)),
  };
  let last: string | undefined;
  for (const { exercise, plan } of stations) {
    last = orderBetween(last, undefined, newId(world.random, 8));
    Object.assign(changes, stationChanges(id, newId(world.random, 8), last, exercise, plan));
  }
  return ok({ id, saved: changeSession(log, place, { type: 'add-block' }, changes) });
}

/** Changes what a block is; its sets and stations stay. */
export function editBlock(
  log: Log,
  place: SessionPlace,
  block: string,
  fields: BlockFields,
): Result<Saving, BlockFault> {
  const parsed = parseBlock(fields);
  if (!parsed.ok) return parsed;
  const was = held(log, place).blocks.find((one) => one.id === block);
  const next = was?.rest === undefined ? noted(parsed.value) : parsed.value;
  return ok(changeSession(log, place, { type: 'edit-block' }, under(`blocks/${block}`, next)));
}

/** Adds a station at the end of a block. */
export function addStation(
  log: Log,
  place: SessionPlace,
  block: Block,
  exercise: string,
  plan: Plan,
  world: World,
): Result<Saving, BlockFault> {
  if (block.stations.length >= MOST_STATIONS)
    return fail({ type: 'too-many-stations', field: 'stations', most: MOST_STATIONS });
  const order = orderBetween(block.stations.at(-1)?.order, undefined, newId(world.random, 8));
  const changes = stationChanges(block.id, newId(world.random, 8), order, exercise, plan);
  return ok(changeSession(log, place, { type: 'add-station' }, changes));
}

/** Starts a block's clock now, anew where it ran before. */
export function startClock(log: Log, place: SessionPlace, block: string, world: World): Saving {
  return changeSession(
    log,
    place,
    { type: 'start-clock' },
    { [`blocks/${block}/started`]: instantAt(world.now(), world.zone()), [`blocks/${block}/stopped`]: null },
  );
}

/** Stops a block's clock, and with it "as many rounds as possible". */
export function stopClock(log: Log, place: SessionPlace, block: string, world: World): Saving {
  const stopped = instantAt(world.now(), world.zone());
  return changeSession(log, place, { type: 'stop-clock' }, { [`blocks/${block}/stopped`]: stopped });
}

/** Ticks a mobility block as done, or takes the tick back. */
export function tickBlock(log: Log, place: SessionPlace, block: Block, world: World): Saving {
  const done = block.done ? null : instantAt(world.now(), world.zone());
  return changeSession(log, place, { type: 'tick' }, { [`blocks/${block.id}/done`]: done });
}

function parseBlock(fields: BlockFields): Result<Readonly<Record<string, Json>>, BlockFault> {
  const values: Record<string, Json> = { kind: fields.kind };
  for (const field of BLOCK_ASKS[fields.kind]) {
    if (field === 'reps') {
      const reps = parseList(fields.reps);
      if (!reps) return fail({ type: 'not-a-list', field, text: fields.reps });
      values['reps'] = reps;
      continue;
    }
    const bounds: Bounds = BLOCK_BOUNDS[field];
    const number = parseNumber(field, fields[field], bounds, field === 'rounds' ? '' : 's');
    // a rest that nobody set is the exercise's own
    const isOwn = !number.ok && field === 'rest' && number.error.type === 'empty';
    if (!number.ok && !isOwn) return number;
    values[field] = number.ok ? number.value : null;
  }
  return ok(values);
}

/** Returns the reps of each round from `21-15-9`; undefined where it is none. */
function parseList(text: string): readonly number[] | undefined {
  const reps = text
    .trim()
    .split(/[\s,;–-]+/)
    .filter((one) => one !== '');
  const good =
    reps.length > 0 &&
    reps.length <= MOST_LISTED &&
    reps.every((one) => /^\d{1,3}$/.test(one) && Number(one) >= 1 && Number(one) <= 500);
  return good ? reps.map(Number) : undefined;
}

function stationChanges(
  block: string,
  station: string,
  order: string,
  exercise: string,
  plan: Plan,
): Record<string, Json> {
  const path = `blocks/${block}/stations/${station}`;
  return { [`${path}/order`]: order, [`${path}/exercise`]: exercise, ...planned(`${path}/plan`, plan) };
}

/** What was not noted and still is not needs no register. */
const noted = (values: Readonly<Record<string, Json>>): Record<string, Json> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== null));

const under = (path: string, values: Readonly<Record<string, Json>>): Record<string, Json> =>
  Object.fromEntries(Object.entries(values).map(([name, value]) => [`${path}/${name}`, value]));
