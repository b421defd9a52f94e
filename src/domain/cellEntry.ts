import type { Block, GridCell } from './block';
import { plannedTexts } from './plan';
import type { PadDraft } from './prefill';
import type { Side } from './set';

/** Returns what a block asks for in one cell, as the pad would be given it: the station's plan, the list's reps, the time of the interval. */
export function cellDraft(block: Block, cell: GridCell, side: Side | null): PadDraft {
  const { station, round } = cell;
  const reps = block.kind === 'list' ? block.reps?.[round - 1] : undefined;
  const work = block.kind === 'timed' && block.work !== undefined && station.plan.seconds === undefined;
  return {
    ...plannedTexts(station.plan),
    ...(reps === undefined ? {} : { reps: String(reps) }),
    ...(work ? { seconds: String(block.work) } : {}),
    exercise: station.exercise,
    kind: 'working',
    side,
    in: { block: block.id, station: station.id, round },
  };
}
