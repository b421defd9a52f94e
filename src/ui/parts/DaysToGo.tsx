import type { Client } from '../../domain/client';
import { daysBetween } from '../../domain/day';
import { daysTo } from '../words';
import { WeekLine } from './WeekLine';

/** The week line of a client's named day with the days to it in words; nothing where no day is named. */
export function DaysToGo({ client, today }: { client: Client | undefined; today: string }) {
  if (!client?.date || !client.since) return null;
  return (
    <section class="card" aria-label="days to go">
      <WeekLine from={client.since} today={today} end={client.date.day} />
      <p class="days-to">{daysTo(daysBetween(today, client.date.day), client.date.name)}</p>
    </section>
  );
}
