import type { Effort, SetRecord, Side } from './set';
import { toKg } from './units';

/*
 * The sets of one exercise in one session as a trend takes them: what was moved, how often, and what was left. Warm-ups and assisted sets never
 * count, nor what a band changed (a band is no number); of drop sets and clusters the first part tells the least that could be done.
 */

/** One set, or one side of it. */
export type Tried = {
  readonly side?: Side;
  /** Kg that were held (of a pair: in each hand); with one's own body: added to it, absent where nothing was. */
  readonly kg?: number;
  readonly reps?: number;
  readonly degrees?: number;
  /** Reps left as they were told; absent where nobody told. */
  readonly left?: number;
  /** Could have been more: what was left is the least, and where nothing was told, at least what was done was possible. */
  readonly least?: true;
};

/** Below this RPE nothing is estimated (common practice; Zourdos 2016, Helms 2016, from memory): nobody can count what is left. */
const LEAST_RPE = 5;

/** Returns the sets that tell something, in their order, and how many of the session's other working sets tell nothing. */
export function triedIn(sets: readonly SetRecord[]): { readonly tried: readonly Tried[]; readonly untried: number } {
  const working = sets.filter((set) => set.kind !== 'warm-up');
  const tries = working.map((set) => ({ set, tried: triedOf(set) }));
  const told = tries.filter(({ tried }) => tried);
  // a back-off tells how tired one is; it counts where nothing else was done on that side
  const used = told.filter(
    ({ set }) =>
      set.kind !== 'back-off' || told.every((one) => one.set.kind === 'back-off' || one.set.side !== set.side),
  );
  return { tried: used.flatMap(({ tried }) => tried ?? []), untried: working.length - used.length };
}

function triedOf(set: SetRecord): Tried | undefined {
  if (set.kind === 'assisted' || set.tally || set.unread.length > 0) return undefined;
  if (set.assist?.value || set.band !== undefined || set.pin !== undefined) return undefined;
  const side = set.side ? { side: set.side } : {};
  if (set.degrees !== undefined) return { ...side, degrees: set.degrees };
  const left = set.reps ? leftIn(set) : undefined;
  if (!left || set.reps === undefined || set.load?.value === 0) return undefined;
  const held = set.load ?? (set.added?.value ? set.added : undefined);
  return { ...side, ...(held ? { kg: toKg(held) } : {}), reps: set.reps, ...left };
}

/** What was left after a set; undefined where it was told in a way that nothing can be reckoned from. */
function leftIn({ kind, ended, effort }: SetRecord): Pick<Tried, 'left' | 'least'> | undefined {
  // the effort told of these is that of their end, long after the first part
  if (kind === 'drop' || kind === 'cluster') return { least: true };
  if (ended === 'missed') return { left: 0 };
  if (!effort) return ended === 'stopped' || ended === 'pain' ? { least: true } : {};
  return leftOf(effort);
}

function leftOf(effort: Effort): Pick<Tried, 'left' | 'least'> | undefined {
  if ('atLeast' in effort) return { left: effort.atLeast, least: true };
  if (effort.as === 'left') return { left: effort.value };
  return effort.value < LEAST_RPE ? undefined : { left: 10 - effort.value };
}

/**
 * Returns what makes sets of one exercise another thing to do: height, tempo and pause (what is said in words is not compared). Sets that share it
 * can be set against each other. Empty where none is noted.
 */
export function variantOf({ height, tempo, pause }: SetRecord): string {
  const mm = height && Math.round(height.value * (height.unit === 'cm' ? 10 : 25.4));
  const parts = [
    mm === undefined ? '' : `${mm} mm`,
    tempo?.replaceAll('-', '').toLowerCase() ?? '',
    pause ? `${pause} s` : '',
  ];
  return parts.some((part) => part !== '') ? parts.join('|') : '';
}
