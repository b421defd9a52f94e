import type { Day } from '../../domain/day';
import { dayHead, dayThings, notLoggedText, WEEK } from '../weekWords';
import { WeekDates, WeekLandings, WeekName, WeekNeeds } from './WeekParts';
import type { WeekLineOf } from './weekLine';

/** The week on a phone: a card a client, with the days that have something. */
export function WeekCards({ lines, today }: { lines: readonly WeekLineOf[]; today: Day }) {
  return (
    <ul class="week-cards">
      {lines.map((line) => (
        <li key={line.client.id} class="card">
          <h3>
            <WeekName client={line.client} />
          </h3>
          <WeekDates {...line} />
          <WeekNeeds {...line} />
          {line.week ? <Days week={line.week} today={today} /> : null}
          {line.week && line.week.landings.length > 0 ? (
            <div class="week-landings">
              <h4>{WEEK.landings}</h4>
              <WeekLandings {...line} />
            </div>
          ) : null}
        </li>
      ))}
    </ul>
  );
}

function Days({ week, today }: { week: NonNullable<WeekLineOf['week']>; today: Day }) {
  const none = notLoggedText(week, today);
  const days = week.days.flatMap((one) => {
    const things = dayThings(one, today);
    return things.length === 0 ? [] : [{ day: one.day, things }];
  });
  return (
    <>
      {days.length > 0 ? (
        <ul class="week-days">
          {days.map(({ day, things }) => (
            <li key={day} class={day === today ? 'week-today' : undefined}>
              <span class="week-date">
                {dayHead(day)}
                {day === today ? `, ${WEEK.today}` : ''}
              </span>
              <ul>
                {things.map((parts, n) => (
                  <li key={`${n} ${parts.join()}`}>{parts.join(', ')}</li>
                ))}
              </ul>
            </li>
          ))}
        </ul>
      ) : null}
      {none === '' ? null : <p class="hint">{none}</p>}
    </>
  );
}
