import { addDays } from '../domain/day';
import { evidenceOf, holds, type Known } from './known';
import type { OtherAct } from './otherActs';
import { FEWEST_WEEKS, isKnown, type OwnWeek, usualSum, weeksBefore } from './ownWeeks';
import type { SumFinding } from './weekFinding';

/*
 * Carries, time under tension and relative volume of the latest week that is over, by exercise, beside the median of the own weeks before: no study of
 * ours tells how far such weeks spread, so that there is no verdict.
 */

type Summed = OwnWeek & { readonly exercise: string; readonly metres?: number; readonly kgSeconds?: number };

/** Returns what is found of them; nothing of an exercise that was not done in that week, or of which nothing of the kind could ever be counted. */
export function sumFindings(known: Known): readonly SumFinding[] {
  const { carries, time, volume } = known.others;
  return [
    ...findings(
      known,
      'carries',
      carries.map(({ kgM, ...one }) => ({ ...one, ...(kgM === undefined ? {} : { value: kgM }) })),
    ),
    ...findings(
      known,
      'time',
      time.map(({ seconds, ...one }) => ({ ...one, value: seconds })),
    ),
    ...findings(
      known,
      'volume',
      volume.map(({ reps, ...one }) => ({ ...one, value: reps })),
    ),
  ];
}

function findings(
  { others, visits }: Known,
  topic: SumFinding['topic'],
  all: readonly Summed[],
): readonly SumFinding[] {
  const { week } = others;
  const setApart = new Set(others.setApart);
  const own = visits.filter(({ day }) => day >= week && day <= addDays(week, 6));
  return all
    .filter((one) => one.week === week)
    .map((one): SumFinding => {
      const { exercise, value, sets, not, metres, kgSeconds } = one;
      const said = {
        topic,
        exercise,
        day: week,
        evidence: evidenceOf(own.filter(({ session }) => holds(session, exercise))),
        certainty: 1,
        sets,
        not,
        ...(metres === undefined ? {} : { metres }),
        ...(kgSeconds === undefined ? {} : { kgSeconds }),
      } as const;
      if (value === undefined || !isKnown(one)) {
        const next: OtherAct =
          topic === 'volume' ? { type: 'note-effort', of: 'sets', count: not } : { type: 'note-sets', count: not };
        return { ...said, type: 'partly-known', ...(value === undefined ? {} : { value }), next };
      }
      if (setApart.has(week)) return { ...said, type: 'set-apart', value, next: { type: 'keep-on' } };
      const before = weeksBefore(
        all.filter((other) => other.exercise === exercise),
        week,
        setApart,
      );
      const usual = usualSum(before);
      if (usual !== undefined)
        return {
          ...said,
          type: 'week',
          value,
          usual,
          weeks: before.map((other) => other.week),
          next: { type: 'keep-on' },
        };
      const has = before.length;
      const next = { type: 'log-more', what: 'weeks', count: FEWEST_WEEKS - has } as const;
      return { ...said, type: 'too-few', value, has, needs: FEWEST_WEEKS, next };
    });
}
