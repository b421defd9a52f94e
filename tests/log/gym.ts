import { type Block, type GridCell, gridOf } from '../../src/domain/block';
import type { Entry } from '../../src/domain/entry';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import type { Plan } from '../../src/domain/plan';
import type { Fault, Result } from '../../src/domain/result';
import type { SessionRecord } from '../../src/domain/session';
import type { BlockFields } from '../../src/log/blockActs';
import type { Log } from '../../src/log/log';
import type { SessionPlace } from '../../src/log/logSet';
import type { ToLog } from '../../src/log/roundActs';
import { cellEntry, METRIC, NO_SET_UP } from '../domain/made';
import type { TestWorld } from './fakes/world';
import { entry, SQUAT } from './floor';
import type { LogRoom } from './room';

/* Blocks as a trainer makes and runs them, over any log. */

/** Where an act happens. */
export type At = { readonly log: Log; readonly place: SessionPlace; readonly world: TestWorld };

export const ROUNDS: BlockFields = {
  kind: 'rounds',
  rounds: '3',
  rest: '',
  reps: '',
  work: '',
  off: '',
  every: '',
  cap: '',
};

export const exerciseOf = (id: string) => SHIPPED_EXERCISES.find((one) => one.id === id);

/** Returns what went well; anything else is told by its type. */
export function good<T, E extends Fault>(result: Result<T, E>): T {
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.error)}`);
  return result.value;
}

/** Returns the session of a place; one that is gone is a failure of the test. */
export function sessionAt(room: LogRoom, { log, place }: At): SessionRecord {
  const read = room.session(log, place.stream, place.session);
  if (!read) throw new Error('the session is gone');
  return read;
}

/** Stations of bodyweight work planned at 8 reps. */
export const stations = (...ids: string[]): { exercise: string; plan: Plan }[] =>
  ids.map((exercise) => ({ exercise, plan: { reps: '8' } }));

/** Adds a block and returns it as it is read. */
export async function newBlock(
  room: LogRoom,
  at: At,
  fields: Partial<BlockFields>,
  of: { exercise: string; plan: Plan }[],
): Promise<Block> {
  const { id, saved } = good(room.addBlock(at.log, at.place, { ...ROUNDS, ...fields }, of, at.world));
  await saved;
  return blockAt(room, at, id);
}

/** Returns a block as it is read now. */
export function blockAt(room: LogRoom, at: At, id: string): Block {
  const read = sessionAt(room, at).blocks.find((one) => one.id === id);
  if (!read) throw new Error(`no block ${id}`);
  return read;
}

/** Returns the grid of a block as it stands. */
export const gridAt = (room: LogRoom, at: At, block: string): readonly (readonly GridCell[])[] =>
  gridOf(blockAt(room, at, block), sessionAt(room, at).sets, exerciseOf);

/** Returns the sets that are missing in a round (in all rounds: undefined), as planned. */
export function missingIn(room: LogRoom, at: At, block: string, round?: number): ToLog[] {
  const of = blockAt(room, at, block);
  const rows = gridAt(room, at, block);
  const cells = (rows[0] ?? []).flatMap((_, n) => rows.flatMap((row) => row[n] ?? []));
  return cells
    .filter((cell) => round === undefined || cell.round === round)
    .flatMap((cell) =>
      cell.missing.map((side) => {
        const exercise = exerciseOf(cell.station.exercise) ?? SQUAT;
        const past = { today: [], lastTime: [] };
        return { entry: cellEntry(of, cell, side, exercise, past, NO_SET_UP, METRIC), exercise };
      }),
    );
}

/** Returns the entry of a cell with these texts. */
export const cellOf = (block: Block, station: number, round: number, more: Partial<Entry>): Entry => {
  const at = block.stations[station];
  if (!at) throw new Error(`no station ${station}`);
  return entry('', '8', { exercise: at.exercise, in: { block: block.id, station: at.id, round }, ...more });
};

/** Returns the sets of a session, a text a set: its exercise, side, cell and reps. */
export const setsAt = (room: LogRoom, at: At): string[] =>
  sessionAt(room, at).sets.map(
    (set) => `${set.exercise?.slice(4)}${set.side?.[0] ?? ''} ${set.in ? `r${set.in.round} ` : ''}x${set.reps ?? ''}`,
  );
