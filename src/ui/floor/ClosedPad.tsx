import { sideDue } from '../../domain/block';
import type { Exercise } from '../../domain/exercise';
import { type App, useApp } from '../app';
import { dayShort } from '../format';
import { closedSentence } from '../painWords';
import { go } from '../routes';
import { type Closed, closedFor } from './closed';
import { gridNow } from './rounds';
import type { Pad } from './usePad';

/** An exercise that is closed: why, and the ways on. Nothing can be logged to it from here. */
export function ClosedPad({ pad, exercise, closed }: { pad: Pad; exercise: Exercise; closed: Closed }) {
  const app = useApp();
  const { place } = pad;
  return (
    <div class="closed">
      <p class="fault" role="alert">
        <b dir="auto">{exercise.name}</b>.{' '}
        {closed.by === 'pain'
          ? closedSentence(closed.level)
          : `Hidden by a restriction: ${closed.restriction.what} (${closed.restriction.who}${
              closed.restriction.until ? `, until ${dayShort(closed.restriction.until)}` : ''
            }).`}
      </p>
      <div class="pad-acts">
        <button
          type="button"
          class="button"
          onClick={() => go({ page: 'session', ...place, sheet: { name: 'change' } })}
        >
          Swap or skip it
        </button>
        {closed.by === 'pain' ? (
          <button
            type="button"
            class="button"
            onClick={() => go({ page: 'session', ...place, sheet: { name: 'clearance', exercise: exercise.id } })}
          >
            Note a clearance
          </button>
        ) : null}
        <button type="button" class="button" onClick={() => takeNext(app, pad)}>
          Go on with the next
        </button>
      </div>
    </div>
  );
}

/** Takes in hand what comes next and is not closed: in the block, else on the list, else whatever the library offers first. */
function takeNext(app: App, pad: Pad): void {
  const { place, session, block, exercise } = pad;
  const isOpen = (id: string): boolean => id !== exercise?.id && !closedFor(app, place, session, id);
  if (block) {
    const grid = gridNow(app, session, block);
    const rounds = grid[0]?.map((cell) => cell.round) ?? [];
    const cells = rounds.flatMap((round) => grid.flatMap((row) => row[round - 1] ?? []));
    const next = cells.find((cell) => cell.missing.length > 0 && isOpen(cell.station.exercise));
    if (next) {
      pad.chooseCell(block, next, sideDue(next, session.sets));
      return;
    }
  }
  const open = session.items.filter((item) => !item.skipped && !item.swappedFor);
  const at = open.findIndex((item) => item.id === exercise?.id);
  const next = [...open.slice(at + 1), ...open.slice(0, Math.max(at, 0))].find((item) => isOpen(item.id));
  if (next) pad.choose(next.id);
  else go({ page: 'session', ...place, sheet: { name: 'exercise' } });
}
