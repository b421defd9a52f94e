import { addDays } from '../domain/day';
import { REST_DAY } from '../domain/otherWork';
import { evidenceOf, type Known } from './known';
import type { OtherAct } from './otherActs';
import type { LoadFinding } from './weekFinding';

/*
 * The whole-session load of the latest week that is over, other work included: its total, day-to-day variation and change against the week before, with
 * what is missing. No ratio of short and long, and nothing here foretells an injury.
 */

/** Returns what is found of that week's load; nothing where nothing at all was noted of it. */
export function loadFindings({ client, others, visits }: Known): readonly LoadFinding[] {
  const { week, load } = others;
  const now = load.weeks.find((one) => one.week === week);
  const to = addDays(week, 6);
  const days = load.days.filter(({ day }) => day >= week && day <= to);
  if (!now || days.every(({ kind }) => kind === 'not-logged')) return [];
  const { total, missing, known, variation, change } = now;
  const own = visits.filter(
    ({ session, day }) =>
      day >= week && day <= to && session.attendance !== 'cancelled' && session.attendance !== 'no-show',
  );
  const work = client.otherWork.filter(({ work: kind, day }) => kind !== REST_DAY && day >= week && day <= to);
  const notLogged = days.flatMap(({ day, kind }) => (kind === 'not-logged' ? [day] : []));
  const type = total === undefined ? 'untold' : missing > 0 ? 'least' : known < 7 ? 'days-unknown' : 'known';
  const next: OtherAct =
    missing > 0
      ? { type: 'note-effort', of: 'sessions', count: missing }
      : notLogged.length > 0
        ? { type: 'confirm-rest-days', days: notLogged }
        : { type: 'keep-on' };
  return [
    {
      topic: 'load',
      type,
      day: week,
      evidence: evidenceOf(own),
      certainty: 1,
      ...(total === undefined ? {} : { total }),
      sessions: own.length,
      otherWork: new Set(work.map(({ id }) => id)).size,
      missing,
      known,
      notLogged,
      variation,
      ...(change ? { change } : {}),
      next,
    },
  ];
}
