import { useEffect, useState } from 'preact/hooks';
import { type Block, blockState, type GridCell, letterOf, sideDue } from '../../domain/block';
import { cellDraft } from '../../domain/cellEntry';
import { useApp } from '../app';
import { blockWords, leftOut, stateWords } from '../blockWords';
import { faultSentence } from '../faultWords';
import { HoldCell } from '../parts/HoldCell';
import { later } from '../parts/later';
import { go } from '../routes';
import { countText, planText } from '../sentence';
import { observedText, SIDE } from '../setWords';
import { gridNow, missingOf, missingOfRounds } from './rounds';
import { entryOf, type Pad, pastOf } from './usePad';

const PainAsk = later(() => import('./PainAsk').then((file) => file.PainAsk));

type BlockCardProps = {
  readonly pad: Pad;
  readonly block: Block;
  readonly place: number;
  readonly resting: boolean;
  readonly cardRef: { current: HTMLElement | null } | undefined;
};

/** A block as a grid: a row a station, a cell a round. Tapped, a cell is done as planned; held, it comes into the pad to be changed. */
export function BlockCard({ pad, block, place: letterPlace, resting, cardRef }: BlockCardProps) {
  const app = useApp();
  const { log, acts, world } = app;
  const { place, session } = pad;
  const grid = gridNow(app, session, block);
  const state = blockState(block, grid);
  const letter = letterOf(letterPlace);
  const open = missingOfRounds(app, place, session, block, 'all', undefined);
  const mobility = block.kind === 'mobility';
  const [fault, setFault] = useState<string>();
  const count = session.sets.length;
  // what was said no longer holds once something was logged
  useEffect(() => setFault(undefined), [count]);
  const asPlanned = () => {
    const logged = acts.logCells(log, place, open, world);
    setFault(logged.ok ? undefined : faultSentence(logged.error.fault));
  };
  return (
    <section
      class={`card exercise-card block-card${pad.block?.id === block.id ? ' exercise-card-in-hand' : ''}`}
      aria-label={`block ${letter}`}
      ref={cardRef ?? null}
    >
      <div class="exercise-head">
        <h2>
          Block {letter} · {blockWords(block)}
        </h2>
        <button
          type="button"
          class="exercise-set-up"
          onClick={() => go({ page: 'session', ...place, sheet: { name: 'block', block: block.id } })}
        >
          change block {letter}
        </button>
      </div>
      <p class="block-state">
        {mobility
          ? block.done
            ? 'Done'
            : block.skipped
              ? leftOut(block.skipped.why)
              : 'Not ticked yet'
          : stateWords(block, state, resting, extraReps(grid))}
      </p>
      {mobility ? (
        <p class="hint">
          {block.stations.map((station) => app.views.exercise(log, station.exercise)?.name ?? '?').join(' · ')}
        </p>
      ) : (
        grid.map((row, index) => (
          <StationLine
            key={row[0]?.station.id}
            pad={pad}
            block={block}
            row={row}
            name={`${letter}${index + 1}`}
            onFault={setFault}
          />
        ))
      )}
      {fault ? (
        <p class="fault" role="alert">
          {fault}
        </p>
      ) : null}
      {session.end ? null : mobility ? (
        <button type="button" class="button" onClick={() => acts.tickBlock(log, place, block, world)}>
          {block.done ? 'Take the tick back' : 'Tick: mobility done'}
        </button>
      ) : open.length > 1 && block.kind !== 'most' ? (
        <div class="block-foot">
          <span class="hint">Tap a cell: done as planned. Hold it: change it.</span>
          <button type="button" class="button" onClick={asPlanned}>
            Did it as planned
          </button>
        </div>
      ) : null}
    </section>
  );
}

type StationLineProps = {
  readonly pad: Pad;
  readonly block: Block;
  readonly row: readonly GridCell[];
  readonly name: string;
  /** Hears why a cell was not done as planned; undefined where it was. */
  readonly onFault: (fault: string | undefined) => void;
};

function StationLine({ pad, block, row, name, onFault }: StationLineProps) {
  const { log, views } = useApp();
  const [first] = row;
  if (!first) return null;
  const { station } = first;
  const exercise = views.exercise(log, station.exercise);
  const plan = planText(station.plan, exercise);
  const isBegun = pad.session.sets.some((set) => set.exercise === station.exercise);
  const was = station.was === undefined ? undefined : views.exercise(log, station.was)?.name;
  return (
    <div class="station">
      <p>
        <b>{name}</b> <span dir="auto">{exercise?.name ?? 'an exercise that is not in this library'}</span>{' '}
        <span class="hint">
          {[
            plan,
            exercise?.sides === 'each' ? 'left | right' : '',
            was ? `for ${was}` : '',
            station.skipped ? leftOut(station.skipped.why) : '',
          ]
            .filter((text) => text !== '')
            .join(' · ')}
        </span>
      </p>
      {isBegun || pad.session.end || station.skipped ? null : <PainAsk place={pad.place} exercise={station.exercise} />}
      <div class="cells">
        {row.map((cell) => (
          <CellButton key={cell.round} pad={pad} block={block} cell={cell} name={name} onFault={onFault} />
        ))}
      </div>
    </div>
  );
}

type CellButtonProps = Omit<StationLineProps, 'row'> & { readonly cell: GridCell };

function CellButton({ pad, block, cell, name, onFault }: CellButtonProps) {
  const app = useApp();
  const { log, views, acts, world } = app;
  const { place, session } = pad;
  const exercise = views.exercise(log, cell.station.exercise);
  const sides = exercise?.sides === 'each' ? (['left', 'right'] as const) : ([null] as const);
  const parts = sides.map((side) => {
    const done = cell.done.findLast((set) => side === null || set.side === side);
    const planned = !done && exercise ? planText(planOfCell(app, pad, block, cell, side), exercise) : '';
    return { side, done, text: done ? shortCount(countText(done)) : planned };
  });
  const inHand =
    pad.cell?.station.id === cell.station.id && pad.cell.round === cell.round && pad.block?.id === block.id;
  const saved = rowsOf(app, pad).every((row) => cell.done.every((set) => log.isSaved(row, `sets/${set.id}`)));
  const label = `${name} round ${cell.round}: ${parts
    .map(({ side, done, text }) =>
      [
        side ? SIDE[side] : '',
        done ? `done ${text}, ${observedText(done, () => undefined)}` : `planned ${text || 'open'}`,
      ]
        .filter((one) => one !== '')
        .join(' '),
    )
    .join('; ')}`;
  const tap = () => {
    const last = cell.done.at(-1);
    if (cell.missing.length === 0) {
      if (last) go({ page: 'session', ...place, sheet: { name: 'set', set: last.id } });
      return;
    }
    const sets = missingOf(app, place, session, block, cell, pad, 1);
    const logged = sets.length > 0 ? acts.logCells(log, place, sets, world) : undefined;
    onFault(logged && !logged.ok ? faultSentence(logged.error.fault) : undefined);
    // what the plan leaves open is asked for in the pad
    if (logged && !logged.ok) pad.chooseCell(block, cell, cell.missing[0] ?? null);
  };
  return (
    <HoldCell
      class={`cell${cell.missing.length === 0 ? ' cell-done' : ''}${inHand ? ' cell-in-hand' : ''}`}
      label={label}
      saved={saved && cell.done.length > 0}
      disabled={cell.missing.length === 0 && cell.done.length === 0}
      onTap={tap}
      onHold={() => (cell.missing.length === 0 ? tap() : pad.chooseCell(block, cell, sideDue(cell, session.sets)))}
    >
      <span class="cell-round" aria-hidden="true">
        {cell.round}
      </span>
      <span class="cell-parts" aria-hidden="true">
        {parts.map(({ side, done, text }) => (
          <span key={side} class={done ? 'cell-part cell-part-done' : 'cell-part'}>
            {text || '·'}
          </span>
        ))}
      </span>
    </HoldCell>
  );
}

/** Of a cell's count only the number: what it counts stands beside the station. */
const shortCount = (text: string): string => /^[\d.,]+/.exec(text)?.[0] ?? text;

const rowsOf = ({ log, views }: ReturnType<typeof useApp>, { place }: Pad): readonly string[] =>
  views.sessionRows(log, place.stream, place.session).map((row) => `${row.stream}/${row.id}`);

/** What a cell would log, as its one number. */
function planOfCell(
  app: ReturnType<typeof useApp>,
  pad: Pad,
  block: Block,
  cell: GridCell,
  side: 'left' | 'right' | null,
) {
  const exercise = app.views.exercise(app.log, cell.station.exercise);
  if (!exercise) return {};
  const past = pastOf(app, pad.place, pad.session, exercise.id);
  const entry = entryOf(app, pad.place.stream, pad.session, exercise, cellDraft(block, cell, side), past);
  const { reps, seconds, distance, landings, tries, degrees } = entry;
  switch (exercise.holds) {
    case 'carry':
      return distance.trim() === '' ? { reps: seconds } : { reps: distance };
    case 'time':
      return { reps: seconds };
    case 'landings':
      return { reps: landings };
    case 'tries':
      return { reps: tries };
    case 'degrees':
      return { reps: degrees };
    default:
      return { reps };
  }
}

/** Reps of a round that was begun and not finished, of "as many rounds as possible". */
function extraReps(grid: readonly (readonly GridCell[])[]): number {
  const rounds = grid[0]?.length ?? 0;
  const isFull = grid.every((row) => row[rounds - 1]?.missing.length === 0);
  if (isFull) return 0;
  return grid
    .flatMap((row) => row[rounds - 1]?.done ?? [])
    .reduce((sum, set) => sum + (set.reps ?? set.tries ?? set.landings ?? 0), 0);
}
