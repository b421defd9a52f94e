import type { WeekDay } from '../../analysis/clientWeek';
import type { Day } from '../../domain/day';
import { dayShort } from '../format';
import { dayThings, noneText, WEEK, weekday } from '../weekWords';
import { WeekDates, WeekLandings, WeekName, WeekNeeds } from './WeekParts';
import type { WeekLineOf } from './weekLine';

type WeekTableProps = { readonly lines: readonly WeekLineOf[]; readonly days: readonly Day[]; readonly today: Day };

/** The week as a table: a client a row, a day a column. */
export function WeekTable({ lines, days, today }: WeekTableProps) {
  return (
    <table class="week-table">
      <caption class="unseen">{WEEK.table}</caption>
      <colgroup>
        <col class="week-col-client" />
        {days.map((day) => (
          <col key={day} />
        ))}
        <col class="week-col-landings" />
        <col class="week-col-needs" />
      </colgroup>
      <thead>
        <tr>
          <th scope="col">{WEEK.client}</th>
          {days.map((day) => (
            <th key={day} scope="col" {...(day === today ? { class: 'week-today', 'aria-current': 'date' } : {})}>
              {weekday(day)} <span class="week-date">{day === today ? WEEK.today : dayShort(day)}</span>
            </th>
          ))}
          <th scope="col">{WEEK.landings}</th>
          <th scope="col">{WEEK.needs}</th>
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr key={line.client.id}>
            <th scope="row">
              <WeekName client={line.client} />
              <WeekDates {...line} />
            </th>
            {days.map((day, n) => (
              <td key={day} class={day === today ? 'week-today' : undefined}>
                <DayCell day={line.week?.days[n]} today={today} />
              </td>
            ))}
            <td>
              <WeekLandings {...line} />
            </td>
            <td>
              <WeekNeeds {...line} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function DayCell({ day, today }: { day: WeekDay | undefined; today: Day }) {
  if (!day) return null;
  if (day.kind === 'ahead') return <span class="unseen">{WEEK.ahead}</span>;
  if (day.kind === 'not-logged') return <span class="week-none">{noneText(day.day, today)}</span>;
  return (
    <ul class="week-things">
      {dayThings(day, today).map((parts, n) => (
        <li key={`${n} ${parts.join()}`}>
          {parts.map((part, at) => (
            <span key={part} class={at === 0 ? 'week-first' : undefined}>
              {at > 0 ? <span class="unseen">, </span> : null}
              {part}
            </span>
          ))}
        </li>
      ))}
    </ul>
  );
}
