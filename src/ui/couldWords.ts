import type { Exercise } from '../domain/exercise';
import type { Side } from '../domain/set';
import type { Could } from './charts/could';
import { sideWord, together, valueText } from './trendWords';

/*
 * The words of a chart of what could be done.
 */

/** Returns the table's cells of what a session tells could be done, and what was known after it: `84.5`, `81 to 89`. */
export function knownCells(
  could: Could | undefined,
  session: string,
  side: Side | undefined,
): { readonly measured: string; readonly could: string } {
  const known = could?.known(session, side);
  if (!could || !known) return { measured: '', could: '' };
  const text = (value: number): string => valueText(roundedIn(value, could), could.frame);
  return {
    measured: known.measured === undefined ? '' : `${known.atLeast ? 'at least ' : ''}${text(known.measured)}`,
    could: known.low === undefined || known.high === undefined ? '' : `${text(known.low)} to ${text(known.high)}`,
  };
}

/** What is reckoned is told in halves of kg and reps, whole pounds and degrees: finer nobody knows it. */
const roundedIn = (value: number, { frame: { measure, unit } }: Could): number =>
  measure === 'degrees' || (measure !== 'reps' && unit === 'lb') ? Math.round(value) : Math.round(value * 2) / 2;

/** Returns what a session tells could be done: `alone this session says 84.5 × 5 with nothing left; all so far say 81 to 89` */
export function knownLine(could: Could, session: string, side: Side | undefined): string {
  const { measured, could: range } = knownCells(could, session, side);
  if (measured === '') return '';
  const times = could.way === 'held' || could.way === 'system' ? ` × ${could.reps} with nothing left` : '';
  return together(
    `${sideWord(side)}alone this session says ${measured}${times}${range === '' ? '' : `; all so far say ${range}`}`,
  );
}

/** Returns what the chart of what could be done counts: `kg × 5 that could be done, nothing left`. */
export function couldCaption({ frame: { measure, unit }, reps, way }: Could, exercise: Exercise): string {
  if (measure === 'reps' || measure === 'degrees') return measure === 'reps' ? 'reps that could be done' : 'degrees';
  const what = way === 'system' ? 'load added' : exercise.perHand ? 'load in each hand' : 'load';
  return together(reps === 1 ? `1RM, estimated, ${unit}` : `${what} × ${reps}, nothing left, ${unit}`);
}
