import type { Day } from '../../domain/day';
import type { Exercise } from '../../domain/exercise';
import { knownCells } from '../couldWords';
import {
  COLUMNS,
  dayText,
  effortCell,
  goodCell,
  heldWords,
  NOTHING_HELD,
  painText,
  sideText,
  TREND,
} from '../trendWords';
import type { Could } from './could';
import type { Frame, Held, Visit } from './visits';
import { WideTable } from './WideTable';

type TrendTableProps = {
  readonly visits: readonly Visit[];
  readonly exercise: Exercise;
  readonly frame: Frame;
  readonly today: Day;
  /** What each session tells could be done, where that is shown. */
  readonly could: Could | undefined;
};

type Column = keyof typeof COLUMNS;
type Line = { readonly key: string; readonly cells: Readonly<Record<Column, string>> };

/** Every number of the chart as a table, the newest session first. A column that would be empty is left out. */
export function TrendTable({ visits, exercise, frame, today, could }: TrendTableProps) {
  const lines = [...visits].reverse().flatMap((visit) => linesOf(visit, exercise, frame, today, could));
  const columns = (Object.keys(COLUMNS) as Column[]).filter(
    (column) => column === 'day' || column === 'held' || lines.some(({ cells }) => cells[column] !== ''),
  );
  return (
    <WideTable label={TREND.asTable}>
      <table class="trend-table">
        <caption class="unseen">{exercise.name}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column} scope="col">
                {COLUMNS[column]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.map(({ key, cells }) => (
            <tr key={key}>
              {columns.map((column) =>
                column === 'day' ? (
                  <th key={column} scope="row">
                    {cells.day}
                  </th>
                ) : (
                  <td key={column} class={`trend-cell-${column}`}>
                    {cells[column]}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}

function linesOf(
  visit: Visit,
  exercise: Exercise,
  frame: Frame,
  today: Day,
  could: Could | undefined,
): readonly Line[] {
  const day = dayText(visit.day, today);
  const pain = visit.pain === undefined ? '' : painText(visit.pain);
  if (visit.held.length === 0) {
    return [{ key: visit.session, cells: { ...EMPTY, day, held: NOTHING_HELD, pain } }];
  }
  const sided = visit.held.some(({ top }) => top.side !== undefined);
  return visit.held.map((held) => ({
    key: `${visit.session} ${held.top.side ?? ''}`,
    cells: {
      ...knownCells(could, visit.session, held.top.side),
      day,
      side: sided ? sideText(held.top.side) : '',
      held: heldOnly(held, exercise, frame),
      effort: effortCell(held.top),
      good: goodCell(held, frame),
      pain,
    },
  }));
}

const EMPTY = { day: '', side: '', held: '', measured: '', could: '', effort: '', good: '', pain: '' } as const;

/** How many were good stands in a column of its own. */
function heldOnly(held: Held, exercise: Exercise, frame: Frame): string {
  const { good: _, of: __, ...top } = held.top;
  return heldWords({ ...held, top }, exercise, frame);
}
