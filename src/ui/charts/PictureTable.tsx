import { PICTURE } from '../otherWords';
import type { Picture } from './picture';
import { WideTable } from './WideTable';

/** Every number of a picture as a table: in time the newest first. */
export function PictureTable({ picture, topic }: { picture: Picture; topic: string }) {
  const points = picture.as === 'rows' ? picture.points : [...picture.points].reverse();
  // a column that would be empty is left out
  const columns = picture.columns.flatMap((head, n) =>
    n === 0 || points.some(({ cells }) => (cells[n] ?? '') !== '') ? [{ head, n }] : [],
  );
  return (
    <WideTable key={picture.id} label={PICTURE.tableOf(topic, picture.title)}>
      <table class={`trend-table picture-table${picture.as === 'rows' ? ' picture-table-rows' : ''}`}>
        <caption class="unseen">{`${topic}, ${picture.title}`}</caption>
        <thead>
          <tr>
            {columns.map(({ head }) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {points.map(({ key, cells }) => (
            <tr key={key}>
              {columns.map(({ head, n }) =>
                n === 0 ? (
                  <th key={head} scope="row">
                    {cells[n]}
                  </th>
                ) : (
                  <td key={head}>{cells[n]}</td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}
