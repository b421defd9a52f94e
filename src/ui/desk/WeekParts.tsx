import type { Client } from '../../domain/client';
import { useApp } from '../app';
import { go } from '../routes';
import { dateText, landingLines, ownDayText, sumText, WEEK } from '../weekWords';
import type { WeekLineOf } from './weekLine';

/** The client's name: opens the client's page. */
export function WeekName({ client }: { client: Client }) {
  return (
    <button type="button" class="week-name" dir="auto" onClick={() => go({ page: 'client', stream: client.id })}>
      {client.alias}
    </button>
  );
}

/** Days to go to the client's own day and to those of near targets, and what there was in all. */
export function WeekDates({ client, week }: WeekLineOf) {
  const { log, views } = useApp();
  if (!week) return null;
  const own = ownDayText(client.date, week);
  const targets = week.dates.filter(({ type }) => type === 'target');
  return (
    <>
      {own === '' ? null : <p class="days-to">{own}</p>}
      {targets.length === 0 ? null : (
        <ul class="week-dates">
          {targets.map((one) => (
            <li key={one.type === 'target' ? one.target.id : ''} dir="auto">
              {dateText(one, one.type === 'target' ? views.exercise(log, one.target.exercise) : undefined)}
            </li>
          ))}
        </ul>
      )}
      <p class="week-sum">{sumText(week)}</p>
    </>
  );
}

/** What matters most, with how sure it is and the next act. */
export function WeekNeeds({ week, pressing }: WeekLineOf) {
  if (!week) return <p>{WEEK.failedOne}</p>;
  if (!pressing) return <p class="hint">{WEEK.reading}</p>;
  const { tone, text } = pressing;
  return (
    <p class={`answer answer-${tone} week-needs`} dir="auto">
      {tone === 'plain' ? null : <strong>{tone === 'look' ? WEEK.headsUp : WEEK.goingWell}. </strong>}
      {text}
    </p>
  );
}

/** The week's landings against the range of one session. */
export function WeekLandings({ week }: WeekLineOf) {
  const lines = week ? landingLines(week) : [];
  if (lines.length === 0) return <span class="week-none">{WEEK.noLandings}</span>;
  return (
    <ul>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
