import { type Block, type BlockKind, blockState, gridOf } from './block';
import type { Exercise } from './exercise';
import { otherSideDue } from './prefill';
import type { SetRecord } from './set';

/** Where a client stands between sets. `left` counts seconds down to 0. */
export type Rest =
  | { readonly state: 'no-set-yet' }
  | { readonly state: 'ready' }
  | { readonly state: 'other-side' }
  /** In a block: on to the next station, no rest between. */
  | { readonly state: 'next-station'; readonly station: number; readonly of: number }
  | { readonly state: 'resting'; readonly set: string; readonly left: number; readonly of: number };

/** A rest the trainer made longer or shorter: it holds for the set it was changed after. */
export type RestChange = { readonly set: string; readonly seconds: number };

const BY_CLOCK: ReadonlySet<BlockKind> = new Set(['every', 'most', 'timed']);

/**
 * Returns where a client stands, from the last set's own instant: a killed app comes back to the same clock. `now` is ms; a clock that was set
 * back shows no more than the whole rest, one set forward none.
 */
export function restOf(
  sets: readonly SetRecord[],
  exerciseOf: (id: string) => Exercise | undefined,
  change: RestChange | null,
  now: number,
  blocks: readonly Block[] = [],
): Rest {
  const last = sets.findLast((set) => !set.tally);
  if (!last?.at) return { state: 'no-set-yet' };
  const exercise = last.exercise === undefined ? undefined : exerciseOf(last.exercise);
  const own = sets.filter((set) => set.exercise === last.exercise);
  if (exercise && otherSideDue(exercise, own)) return { state: 'other-side' };
  const block = blocks.find((one) => one.id === last.in?.block);
  const stands = block && blockState(block, gridOf(block, sets, exerciseOf));
  if (stands?.state === 'working') return { state: 'next-station', station: stands.station, of: stands.of };
  // a block with a clock of its own says by that when to rest: a second clock would contradict it
  if (block && stands?.state === 'round-done' && BY_CLOCK.has(block.kind)) return { state: 'ready' };
  if (last.noRest || !exercise) return { state: 'ready' };
  const of = change?.set === last.id ? change.seconds : (block?.rest ?? exercise.rest);
  const left = Math.min(of, Math.ceil((last.at.at + of * 1000 - now) / 1000));
  return left > 0 ? { state: 'resting', set: last.id, left, of } : { state: 'ready' };
}
