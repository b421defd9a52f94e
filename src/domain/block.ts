import * as z from 'zod/mini';
import type { Exercise } from './exercise';
import { type Plan, planSchema } from './plan';
import { instantSchema, type SetRecord, SIDES, type Side, type Unread } from './set';

/*
 * A block: stations done in turn, in rounds. Its sets are ordinary sets that say in which cell they were done; the grid is derived. So a block
 * that is changed or gone takes no set with it [M5].
 */

/** Rounds; a list of reps that differ by round; one round every so many seconds; as many rounds as possible; work and rest by the clock; mobility. */
export const BLOCK_KINDS = ['rounds', 'list', 'every', 'most', 'timed', 'mobility'] as const;
export type BlockKind = (typeof BLOCK_KINDS)[number];

export const BLOCK_BOUNDS = {
  rounds: { min: 1, max: 40, step: 1 },
  rest: { min: 0, max: 1800, step: 1 },
  work: { min: 5, max: 1800, step: 1 },
  off: { min: 0, max: 1800, step: 1 },
  every: { min: 10, max: 1800, step: 1 },
  cap: { min: 30, max: 7200, step: 1 },
} as const;
export const MOST_STATIONS = 12;
export const MOST_LISTED = 20;

const whole = ({ min, max }: { readonly min: number; readonly max: number }) => z.int().check(z.gte(min), z.lte(max));

/** Why something planned was left out today. */
export const skippedSchema = z.looseObject({ why: z.string().check(z.maxLength(200)) });

const blockSchemas = {
  order: z.string(),
  kind: z.enum(BLOCK_KINDS),
  name: z.string().check(z.maxLength(60)),
  rounds: whole(BLOCK_BOUNDS.rounds),
  /** Reps of each round, of a list. */
  reps: z.array(z.int().check(z.gte(1), z.lte(500))).check(z.minLength(1), z.maxLength(MOST_LISTED)),
  /** Seconds: rest after a round; work and rest of one interval; one round every; as many rounds as possible in. */
  rest: whole(BLOCK_BOUNDS.rest),
  work: whole(BLOCK_BOUNDS.work),
  off: whole(BLOCK_BOUNDS.off),
  every: whole(BLOCK_BOUNDS.every),
  cap: whole(BLOCK_BOUNDS.cap),
  started: instantSchema,
  stopped: instantSchema,
  /** The one tick of a mobility block. */
  done: instantSchema,
  skipped: skippedSchema,
} as const;
type BlockRegisters = { readonly [K in keyof typeof blockSchemas]?: z.infer<(typeof blockSchemas)[K]> };

const stationSchemas = {
  order: z.string(),
  exercise: z.string().check(z.minLength(1)),
  plan: planSchema,
  /** The exercise it was before it was swapped today. */
  was: z.string(),
  skipped: skippedSchema,
} as const;

export type Station = {
  readonly id: string;
  readonly order?: string;
  readonly exercise: string;
  readonly plan: Plan;
  readonly was?: string;
  readonly skipped?: { readonly why: string };
};

export type Block = Omit<BlockRegisters, 'kind' | 'rounds'> & {
  readonly id: string;
  readonly kind: BlockKind;
  /** Rounds planned; of a list, as many as it has; of "as many as possible", none. */
  readonly rounds: number;
  readonly stations: readonly Station[];
};

/** Returns the blocks that a session's or template's shown values tell of, in their order, and what of them this version cannot read. */
export function readBlocks(values: Readonly<Record<string, unknown>>): {
  readonly blocks: readonly Block[];
  readonly unread: readonly Unread[];
} {
  const found = new Map<
    string,
    { registers: Record<string, unknown>; stations: Map<string, Record<string, unknown>> }
  >();
  const unread: Unread[] = [];
  const keep = (into: Record<string, unknown>, schema: z.ZodMiniType<unknown>, name: string, path: string): void => {
    const value = values[path];
    if (value === null) return;
    const parsed = z.safeParse(schema, value);
    if (parsed.success) into[name] = parsed.data;
    else unread.push({ type: 'from-a-newer-app', path, value });
  };
  for (const path of Object.keys(values)) {
    const [head, id = '', name = '', station = '', inner = '', more] = path.split('/');
    if (head !== 'blocks' || more !== undefined) continue;
    const block = found.get(id) ?? { registers: {}, stations: new Map() };
    found.set(id, block);
    if (name === 'stations' && Object.hasOwn(stationSchemas, inner)) {
      const registers = block.stations.get(station) ?? {};
      block.stations.set(station, registers);
      keep(registers, stationSchemas[inner as keyof typeof stationSchemas], inner, path);
    } else if (station === '' && Object.hasOwn(blockSchemas, name)) {
      keep(block.registers, blockSchemas[name as keyof typeof blockSchemas], name, path);
    }
  }
  const blocks = [...found].flatMap(([id, { registers, stations }]) => blockOf(id, registers, stations) ?? []);
  return { blocks: blocks.sort(byOrder), unread };
}

/** Returns a number below, at or above 0: by order, then by id [M11]. */
export function byOrder(
  a: { readonly id: string; readonly order?: string | undefined },
  b: { readonly id: string; readonly order?: string | undefined },
): number {
  const [one, other] = [a.order ?? '', b.order ?? ''];
  return one === other ? (a.id < b.id ? -1 : a.id > b.id ? 1 : 0) : one < other ? -1 : 1;
}

function blockOf(
  id: string,
  registers: BlockRegisters,
  stations: ReadonlyMap<string, Record<string, unknown>>,
): Block | undefined {
  if (registers.kind === undefined) return undefined;
  const read = [...stations].flatMap(([station, own]) => {
    const { exercise, plan = {}, ...rest } = own as Partial<Station>;
    return exercise === undefined ? [] : [{ ...rest, id: station, exercise, plan }];
  });
  return {
    ...registers,
    id,
    kind: registers.kind,
    rounds:
      registers.kind === 'list'
        ? (registers.reps?.length ?? 1)
        : registers.kind === 'most'
          ? 0
          : (registers.rounds ?? 1),
    stations: read.sort(byOrder),
  };
}

/** One cell of the grid: the sets done in it. `missing` are the sides still to do; `[null]` where sides do not count. */
export type GridCell = {
  readonly station: Station;
  readonly round: number;
  readonly done: readonly SetRecord[];
  readonly missing: readonly (Side | null)[];
};

/**
 * Returns a block's grid, a row a station and a cell a round: as many rounds as are planned, and of "as many as possible" one more than was
 * begun. Skipped stations have a row without anything missing. `eachSide` tells whether an exercise counts sides apart.
 */
export function gridOf(
  block: Block,
  sets: readonly SetRecord[],
  exerciseOf: (id: string) => Exercise | undefined,
): readonly (readonly GridCell[])[] {
  const own = sets.filter((set) => set.in?.block === block.id);
  const begun = Math.max(0, ...own.map((set) => set.in?.round ?? 0));
  const rounds = block.kind === 'most' ? roundsOfMost(block, own, exerciseOf, begun) : Math.max(block.rounds, begun);
  return block.stations.map((station) =>
    Array.from({ length: rounds }, (_, index) => cellOf(station, index + 1, own, exerciseOf(station.exercise))),
  );
}

function roundsOfMost(
  block: Block,
  own: readonly SetRecord[],
  exerciseOf: (id: string) => Exercise | undefined,
  begun: number,
): number {
  const isFull = block.stations.every(
    (station) => cellOf(station, begun, own, exerciseOf(station.exercise)).missing.length === 0,
  );
  return begun === 0 ? 1 : isFull && !block.stopped ? begun + 1 : begun;
}

function cellOf(station: Station, round: number, own: readonly SetRecord[], exercise: Exercise | undefined): GridCell {
  const done = own.filter((set) => set.in?.station === station.id && set.in.round === round);
  if (station.skipped) return { station, round, done, missing: [] };
  if (exercise?.sides !== 'each') return { station, round, done, missing: done.length > 0 ? [] : [null] };
  return { station, round, done, missing: SIDES.filter((side) => !done.some((set) => set.side === side)) };
}

/** Where a block stands: at a station of a round, with a round behind it, all done, or empty. */
export type BlockState =
  | { readonly state: 'empty' }
  | { readonly state: 'working'; readonly round: number; readonly station: number; readonly of: number }
  | { readonly state: 'round-done'; readonly round: number; readonly next: number }
  | { readonly state: 'done'; readonly rounds: number };

/** Returns where a block stands. A round is the first that something is missing of. */
export function blockState(block: Block, grid: readonly (readonly GridCell[])[]): BlockState {
  const active = grid.filter((row) => row[0]?.station.skipped === undefined);
  if (active.length === 0) return { state: 'empty' };
  const next = nextCell(grid);
  const over = block.kind === 'most' && block.stopped !== undefined;
  if (!next || over) return { state: 'done', rounds: fullRounds(grid) };
  const begun = active.some((row) => (row[next.round - 1]?.done.length ?? 0) > 0);
  if (!begun && next.round > 1) return { state: 'round-done', round: next.round - 1, next: next.round };
  const at = active.findIndex((row) => row[next.round - 1] === next);
  return { state: 'working', round: next.round, station: at + 1, of: active.length };
}

/** Returns the first cell, round by round, that something is missing of. */
export function nextCell(grid: readonly (readonly GridCell[])[]): GridCell | undefined {
  const rounds = grid[0]?.length ?? 0;
  for (let round = 0; round < rounds; round += 1) {
    const cell = grid.map((row) => row[round]).find((one) => one && one.missing.length > 0);
    if (cell) return cell;
  }
  return undefined;
}

/** Returns how many rounds nothing is missing of, counted from the first. */
export function fullRounds(grid: readonly (readonly GridCell[])[]): number {
  const rounds = grid[0]?.length ?? 0;
  let full = 0;
  while (full < rounds && grid.every((row) => row[full]?.missing.length === 0)) full += 1;
  return full;
}

/** Returns the side a cell is due on: the one missing, and of two the one that this station's sets began with. */
export function sideDue(cell: GridCell, sets: readonly SetRecord[]): Side | null {
  const [first = null, second] = cell.missing;
  if (second === undefined) return first;
  return sets.find((set) => set.exercise === cell.station.exercise && set.side)?.side ?? first;
}

/** Returns the letter of the block at a place from 0: A to Z, then AA. */
export function letterOf(place: number): string {
  const letter = String.fromCharCode(65 + (place % 26));
  return place < 26 ? letter : letterOf(Math.floor(place / 26) - 1) + letter;
}
