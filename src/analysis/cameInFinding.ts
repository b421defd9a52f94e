import { addDays } from '../domain/day';
import { cameInOf, daysOf, type ItemStanding } from './cameIn';
import type { CameInFinding } from './clientFinding';
import { evidenceOf, isWithin, type Known } from './known';

/*
 * How they came in on the last day that they were asked, against their own normal. It changes nothing by itself: it is a thing to ask about.
 */

/** How long ago they may have been asked. */
const ASKED_DAYS = 14;
/** One word in a client month, at the most, is a false one (our own simulation study, STATS.md §4). */
const NOT_FALSE = 1 - 1 / 28;
/** An item lies below its mean where it is so much less; half a point of five, as whole points are told. */
const MOVED = 0.5;

/** Returns how the client came in lately; nothing where nobody asked within two weeks. */
export function cameInFindings({ client, others, visits, asOf }: Known): readonly CameInFinding[] {
  const came = others.cameIn;
  if (!came?.today || !isWithin(came.day, asOf, ASKED_DAYS)) return [];
  const { day, items, today, verdict } = came;
  const plainFrom = came.before[0]?.day ?? day;
  const from = verdict.type === 'not-enough' ? plainFrom : addDays(day, -2);
  const asked = visits.filter((one) => one.day >= from && one.day <= day && isTold(one.session.arrival));
  const said = { topic: 'came-in', day, evidence: evidenceOf(asked), items } as const;
  switch (verdict.type) {
    case 'below':
    case 'usual': {
      const { type, normal, z, days } = verdict;
      const run = type === 'below' ? daysRunning(client.sessions, came) : [];
      const [since] = run;
      return [
        {
          ...said,
          type,
          ...(type === 'below' ? { certainty: NOT_FALSE } : {}),
          sum: today.sum ?? normal,
          normal,
          z,
          days,
          moved: items.filter(isMoved).toSorted((a, b) => (a.away ?? 0) - (b.away ?? 0)),
          running: run.length,
          ...(since ? { since } : {}),
          next: { type: type === 'below' ? 'ask-the-client' : 'keep-on' },
        },
      ];
    }
    case 'not-enough': {
      const { sums, needs, span, needsSpan } = verdict;
      const { sum } = today;
      return [
        {
          ...said,
          type: 'plain',
          certainty: 1,
          ...(sum === undefined ? {} : { sum }),
          has: sums,
          needs,
          span,
          needsSpan,
          next: { type: 'log-more', what: 'days', count: Math.max(1, needs - sums) },
        },
      ];
    }
    case 'no-sum':
      return [{ ...said, type: today.usual ? 'as-usual' : 'not-all', certainty: 1, next: { type: 'keep-on' } }];
  }
}

const isTold = ({ items, usual }: Known['visits'][number]['session']['arrival']): boolean =>
  usual || Object.keys(items).length > 0;

const isMoved = ({ away }: ItemStanding): boolean => away !== undefined && away <= -MOVED;

/** The days in a row, of those with a sum, on which they came in below, up to the last; the oldest first. */
function daysRunning(sessions: Known['client']['sessions'], { day }: { readonly day: string }): readonly string[] {
  const all = daysOf(sessions);
  const summed = all.filter((one) => one.sum !== undefined && one.day <= day);
  const run: string[] = [];
  for (const one of summed.toReversed()) {
    const { verdict } = cameInOf(all, one.day);
    if (verdict.type !== 'below') break;
    run.unshift(one.day);
  }
  return run;
}
