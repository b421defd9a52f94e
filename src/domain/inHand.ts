import { type Block, blockState, type GridCell, gridOf, nextCell, sideDue } from './block';
import type { Exercise } from './exercise';
import type { PadDraft } from './prefill';
import { listedThings, type SessionRecord } from './session';
import type { Side } from './set';

/** What the pad has in hand: an exercise by itself, or a cell of a block. */
export type InHand =
  | { readonly type: 'nothing' }
  | { readonly type: 'exercise'; readonly exercise: string }
  | { readonly type: 'block'; readonly block: Block }
  | {
      readonly type: 'cell';
      readonly block: Block;
      readonly cell: GridCell;
      readonly side: Side | null;
      readonly exercise: string;
    };

type ExerciseOf = (id: string) => Exercise | undefined;

/**
 * Returns what the pad has in hand: what was taken in hand since the last set, else what follows on that set: the next cell of its block, what
 * stands behind a block that is done, or the same exercise; before the first set what the list begins with. A block that is gone or emptied
 * leaves its exercise.
 */
export function inHandOf(
  session: SessionRecord,
  draft: Pick<PadDraft, 'exercise' | 'in' | 'side'> | undefined,
  exerciseOf: ExerciseOf,
): InHand {
  if (draft) return drafted(session, draft, exerciseOf);
  const last = session.sets.findLast((set) => !set.tally);
  if (last?.in) {
    const block = session.blocks.find((one) => one.id === last.in?.block);
    const next = block && cellOfBlock(session, block, exerciseOf);
    if (next) return next;
    if (block) return behind(session, block.id, exerciseOf) ?? { type: 'block', block };
  }
  if (last?.exercise !== undefined) return { type: 'exercise', exercise: last.exercise };
  return behind(session, undefined, exerciseOf) ?? { type: 'nothing' };
}

/** Returns the next cell of a block as it is in hand; a mobility block as itself; undefined where nothing of it is left to do. */
export function cellOfBlock(session: SessionRecord, block: Block, exerciseOf: ExerciseOf): InHand | undefined {
  if (block.skipped) return undefined;
  // a mobility block is one tick, with stations or without
  if (block.kind === 'mobility') return block.done ? undefined : { type: 'block', block };
  if (block.stations.length === 0) return undefined;
  const grid = gridOf(block, session.sets, exerciseOf);
  const cell = blockState(block, grid).state === 'done' ? undefined : nextCell(grid);
  return cell && taken(block, cell, sideDue(cell, session.sets));
}

function drafted(
  session: SessionRecord,
  draft: Pick<PadDraft, 'exercise' | 'in' | 'side'>,
  exerciseOf: ExerciseOf,
): InHand {
  const at = draft.in;
  const block = at && session.blocks.find((one) => one.id === at.block);
  const row = block && gridOf(block, session.sets, exerciseOf).find(([cell]) => cell?.station.id === at.station);
  const cell = row?.[at ? at.round - 1 : 0];
  // the station may have been swapped since: what it is now is what is done there
  if (block && cell) return taken(block, cell, draft.side ?? sideDue(cell, session.sets));
  return { type: 'exercise', exercise: draft.exercise };
}

function behind(session: SessionRecord, after: string | undefined, exerciseOf: ExerciseOf): InHand | undefined {
  const list = listedThings(session);
  const from = after === undefined ? 0 : list.findIndex((thing) => thing.id === after) + 1;
  for (const thing of list.slice(from)) {
    const block = session.blocks.find((one) => one.id === thing.id);
    const item = session.items.find((one) => one.id === thing.id);
    if (thing.type === 'block' && block) {
      const next = cellOfBlock(session, block, exerciseOf);
      if (next) return next;
    } else if (item && !item.skipped && !item.swappedFor && item.tally === undefined) {
      return { type: 'exercise', exercise: item.id };
    }
  }
  return undefined;
}

const taken = (block: Block, cell: GridCell, side: Side | null): InHand => ({
  type: 'cell',
  block,
  cell,
  side,
  exercise: cell.station.exercise,
});
