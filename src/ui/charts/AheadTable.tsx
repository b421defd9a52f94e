import { neededOn } from '../../analysis/onTime';
import type { SideSeries } from '../../analysis/series';
import type { Day } from '../../domain/day';
import { AHEAD } from '../answerWords';
import { barText, rangeText, type Told } from '../barWords';
import { dayText, sideText } from '../trendWords';

type AheadTableProps = { readonly series: readonly SideSeries[]; readonly told: Told; readonly today: Day };

/** What lies ahead as a table: the forecast of each side, and what a target's days need. */
export function AheadTable({ series, told, today }: AheadTableProps) {
  const days = [...new Set(series.flatMap(({ fan }) => fan.map(({ day }) => day)))].sort();
  if (days.length === 0) return null;
  const target = series.find((one) => one.target)?.target;
  const hasNeeds = target?.start !== undefined;
  const isSided = series.some(({ side }) => side !== undefined);
  return (
    <table class="trend-table">
      <caption>{AHEAD.caption}</caption>
      <thead>
        <tr>
          <th scope="col">{AHEAD.day}</th>
          {isSided ? <th scope="col">{AHEAD.side}</th> : null}
          <th scope="col">{AHEAD.forecast}</th>
          {hasNeeds ? <th scope="col">{AHEAD.needs}</th> : null}
        </tr>
      </thead>
      <tbody>
        {days.flatMap((day) =>
          series.flatMap(({ side, way, fan }) => {
            const band = fan.find((one) => one.day === day)?.band;
            const needed = target && day <= target.day ? neededOn(target, day) : undefined;
            return band ? (
              <tr key={`${day} ${side ?? ''}`}>
                <th scope="row">{dayText(day, today)}</th>
                {isSided ? <td>{sideText(side)}</td> : null}
                <td>{rangeText(band, way, told)}</td>
                {hasNeeds ? <td>{needed === undefined ? '' : barText(needed, way, told)}</td> : null}
              </tr>
            ) : (
              []
            );
          }),
        )}
      </tbody>
    </table>
  );
}
