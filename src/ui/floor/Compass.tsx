import type { Direction, Side } from '../../domain/set';
import { DIRECTION, SIDE } from '../setWords';

/** Where each direction lies as seen from above, for the right leg: column and row. The left leg mirrors it. */
const PLACES: Readonly<Record<Direction, readonly [column: number, row: number]>> = {
  ahead: [2, 1],
  diagonal: [3, 1],
  out: [3, 2],
  'back-out': [3, 3],
  across: [1, 2],
};

type CompassProps = {
  readonly side: Side | null;
  readonly chosen: Direction | null;
  readonly onChoose: (direction: Direction) => void;
};

/** The five directions of a landing, around the leg that lands. */
export function Compass({ side, chosen, onChoose }: CompassProps) {
  return (
    <fieldset class="compass" aria-label={`direction${side ? ` of the ${SIDE[side]} leg` : ''}`}>
      {(Object.keys(PLACES) as Direction[]).map((direction) => {
        const [column, row] = PLACES[direction];
        return (
          <button
            key={direction}
            type="button"
            class={`chip compass-${side === 'left' ? 4 - column : column}-${row}`}
            aria-pressed={chosen === direction}
            onClick={() => onChoose(direction)}
          >
            {DIRECTION[direction]}
          </button>
        );
      })}
      <span class="compass-leg">{side ? SIDE[side] : 'both'}</span>
    </fieldset>
  );
}
