import type { Entry, EntryFault } from '../../domain/entry';
import type { Exercise } from '../../domain/exercise';
import { useApp } from '../app';
import type { Pad } from './usePad';

type EachSideButtonProps = {
  readonly pad: Pad;
  readonly exercise: Exercise;
  readonly entry: Entry;
  readonly onLogged: () => void;
  readonly onRefused: (fault: EntryFault) => void;
};

/** Returns whether a round of both sides is about to begin: as many sets of the kind are done left as right. */
export function roundBegins(today: Pad['today'], entry: Entry): boolean {
  const done = (side: 'left' | 'right') => today.filter((set) => set.kind === entry.kind && set.side === side).length;
  return entry.side !== null && done('left') === done('right');
}

/** Both sides with the same numbers, in one tap and one act: the side in hand first. */
export function EachSideButton({ pad, exercise, entry, onLogged, onRefused }: EachSideButtonProps) {
  const { log, acts, world } = useApp();
  const other = entry.side === 'left' ? 'right' : 'left';
  const both = () => {
    // what was seen of one side was not seen of the other
    const second = { ...entry, side: other, marks: [], smooth: null, good: '' } as const;
    const sets = [entry, second].map((one) => ({ entry: one, exercise }));
    const logged = acts.logCells(log, pad.place, sets, world);
    if (logged.ok) onLogged();
    else onRefused(logged.error.fault);
  };
  return (
    <button type="button" class="button no-rest-button" onClick={both}>
      Each side, same
    </button>
  );
}
