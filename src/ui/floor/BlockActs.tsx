import { useState } from 'preact/hooks';
import { type Block, type GridCell, letterOf, sideDue } from '../../domain/block';
import type { EntryFault } from '../../domain/entry';
import { useApp } from '../app';
import { faultSentence } from '../faultWords';
import { Chip, ChipRow } from '../parts/Chip';
import { go } from '../routes';
import { SIDE } from '../setWords';
import { gridNow, missingOfRounds } from './rounds';
import type { Pad } from './usePad';

/** Returns the letter of a block among those of its session. */
export const letterIn = (pad: Pad, block: Block): string =>
  letterOf(pad.session.blocks.findIndex((one) => one.id === block.id));

/** The stations of the round in hand: tapping one takes its cell in hand, as holding the cell does. */
export function StationRow({ pad, block, cell }: { pad: Pad; block: Block; cell: GridCell }) {
  const app = useApp();
  const grid = gridNow(app, pad.session, block);
  const letter = letterIn(pad, block);
  if (grid.length < 2) return null;
  return (
    <ChipRow label={`stations of round ${cell.round}`} of={grid.length > 5 ? 'many' : 'even'}>
      {grid.map((row, index) => {
        const own = row[cell.round - 1];
        return own ? (
          <Chip
            key={own.station.id}
            chosen={own.station.id === cell.station.id}
            onTap={() => pad.chooseCell(block, own, sideDue(own, pad.session.sets))}
          >
            {letter}
            {index + 1}
            {own.missing.length === 0 ? ' done' : ''}
          </Chip>
        ) : null;
      })}
    </ChipRow>
  );
}

type BlockActsProps = {
  readonly pad: Pad;
  readonly block: Block;
  readonly logOne?: () => void;
  readonly onRefused?: (fault: EntryFault) => void;
};

/** What a block offers: its cell alone, the whole round, or the one tick. */
export function BlockActs({ pad, block, logOne, onRefused }: BlockActsProps) {
  const app = useApp();
  const { log, acts, views, world } = app;
  const { place, session, cell } = pad;
  const [said, setSaid] = useState<string>();
  const short = views.client(log, place.stream)?.short ?? '–';
  if (block.stations.length === 0 && block.kind !== 'mobility') {
    return (
      <button
        type="button"
        class="button button-act log-button"
        onClick={() => go({ page: 'session', ...place, sheet: { name: 'block', block: block.id } })}
      >
        Change the block
      </button>
    );
  }
  if (block.kind === 'mobility') {
    return (
      <button
        type="button"
        class="button button-act log-button"
        onClick={() => acts.tickBlock(log, place, block, world)}
      >
        Log <span dir="auto">{short}</span> · mobility done
      </button>
    );
  }
  if (!cell) return null;
  const station = block.stations.findIndex((one) => one.id === cell.station.id) + 1;
  const logRound = () => {
    const sets = missingOfRounds(app, place, session, block, cell.round, pad);
    const logged = acts.logCells(log, place, sets, world);
    if (logged.ok) return setSaid(undefined);
    const { exercise, fault } = logged.error;
    if (exercise === pad.exercise?.id && onRefused) return onRefused(fault);
    setSaid(`${views.exercise(log, exercise)?.name ?? 'a station'}: ${faultSentence(fault)}`);
  };
  const side = pad.entry?.side;
  return (
    <div class="block-acts">
      {said ? (
        <p class="fault" role="alert">
          {said}
        </p>
      ) : null}
      <div class="pad-acts">
        <button type="button" class="button block-one" onClick={logOne}>
          Log {letterIn(pad, block)}
          {station}
          {side ? ` ${SIDE[side]}` : ''}
        </button>
        <button type="button" class="button button-act log-button" onClick={logRound}>
          Log <span dir="auto">{short}</span> · round {cell.round}
        </button>
      </div>
    </div>
  );
}
