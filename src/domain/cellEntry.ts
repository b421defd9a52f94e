import type { Block, GridCell } from './block';
import type { Entry } from './entry';
import type { Exercise } from './exercise';
import { plannedTexts } from './plan';
import { type PadDraft, type Past, prefill } from './prefill';
import type { Side } from './set';
import type { SetUpTexts } from './setUp';
import type { LoadUnit } from './units';

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

/** Returns the set that "done as planned" logs in a cell: what the plan leaves open is as in the round before, else as last time. */
export function cellEntry(
  block: Block,
  cell: GridCell,
  side: Side | null,
  exercise: Exercise,
  past: Past,
  setUp: SetUpTexts,
  unit: LoadUnit,
): Entry {
  return prefill(exercise, cellDraft(block, cell, side), past, setUp, unit);
}
