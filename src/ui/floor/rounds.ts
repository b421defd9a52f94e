import { type Block, type GridCell, gridOf, sideDue } from '../../domain/block';
import { cellDraft } from '../../domain/cellEntry';
import type { SessionRecord } from '../../domain/session';
import type { Side } from '../../domain/set';
import type { ToLog } from '../../log/roundActs';
import type { App } from '../app';
import { closedFor, notHeavier } from './closed';
import { entryOf, type Pad, type Place, pastOf } from './usePad';

/** Returns a block's grid as it stands. */
export function gridNow({ log, views }: App, session: SessionRecord, block: Block): readonly (readonly GridCell[])[] {
  return gridOf(block, session.sets, (id) => views.exercise(log, id));
}

/** Returns what "done as planned" logs for what is missing of a cell; nothing where its exercise is closed. What the pad has in hand is as it is there. */
export function missingOf(
  app: App,
  place: Place,
  session: SessionRecord,
  block: Block,
  cell: GridCell,
  pad: Pad | undefined,
  most = Number.POSITIVE_INFINITY,
): readonly ToLog[] {
  const exercise = app.views.exercise(app.log, cell.station.exercise);
  if (!exercise || closedFor(app, place, session, exercise.id)) return [];
  const first = sideDue(cell, session.sets);
  const sides: readonly (Side | null)[] =
    cell.missing.length === 2 ? [first, ...cell.missing.filter((side) => side !== first)] : cell.missing;
  const past = pastOf(app, place, session, exercise.id);
  return sides.slice(0, most).map((side) => {
    const held = pad?.entry;
    const at = held?.in;
    const isHeld = at?.block === block.id && at.station === cell.station.id && at.round === cell.round;
    if (held && isHeld && held.side === side) return { entry: held, exercise };
    const entry = entryOf(app, place.stream, session, exercise, cellDraft(block, cell, side), past);
    return { entry: notHeavier(app, place, session, entry), exercise };
  });
}

/** Returns what is missing of one round, or of all of them, station by station. */
export function missingOfRounds(
  app: App,
  place: Place,
  session: SessionRecord,
  block: Block,
  round: number | 'all',
  pad: Pad | undefined,
): readonly ToLog[] {
  const grid = gridNow(app, session, block);
  const rounds = round === 'all' ? (grid[0]?.map((cell) => cell.round) ?? []) : [round];
  return rounds.flatMap((one) =>
    grid.flatMap((row) => {
      const cell = row[one - 1];
      return cell ? missingOf(app, place, session, block, cell, pad) : [];
    }),
  );
}
