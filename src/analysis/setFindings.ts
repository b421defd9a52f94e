import { addDays } from '../domain/day';
import { AREAS } from '../domain/muscles';
import { evidenceOf, type Known } from './known';
import type { OtherAct } from './otherActs';
import { FEWEST_WEEKS, usualSum, weeksBefore } from './ownWeeks';
import type { SetsFinding } from './weekFinding';

/*
 * Hard sets by area of the latest week that is over, beside the median of the own weeks before. There is no plan to set them against yet, and no number of
 * sets that is right for one person; how many sets nobody told the effort of is said with it.
 */

/** Returns what is found of that week's sets; nothing where none was done that counts. */
export function setFindings({ others, visits }: Known): readonly SetsFinding[] {
  const { week, hardSets } = others;
  const now = hardSets.weeks.find((one) => one.week === week);
  if (!now) return [];
  const { hard, easy, untold, unplaced } = now;
  const own = visits.filter(({ day }) => day >= week && day <= addDays(week, 6));
  // what was told of half of the sets or more can be set beside other weeks
  const isTold = (one: typeof now): boolean => one.untold <= one.hard + one.easy;
  const before = weeksBefore(
    hardSets.weeks.filter(isTold).map((one) => ({ week: one.week, value: one.hard, sets: 1, not: 0 })),
    week,
    new Set(others.setApart),
  );
  const isBeside = before.length >= FEWEST_WEEKS && isTold(now) && !others.setApart.includes(week);
  const inWeek = (of: string, area: string) => hardSets.areas.find((one) => one.week === of && one.area === area);
  const seen = new Set(
    hardSets.areas
      .filter((one) => one.week === week || (isBeside && before.some((own1) => own1.week === one.week)))
      .map(({ area }) => area),
  );
  const areas = AREAS.filter((area) => seen.has(area)).map((area) => {
    const { fractional = 0, direct = 0, indirect = 0 } = inWeek(week, area) ?? {};
    const usual = usualSum(before.map((one) => ({ ...one, value: inWeek(one.week, area)?.fractional ?? 0 })));
    return { area, fractional, direct, indirect, ...(isBeside && usual !== undefined ? { usual } : {}) };
  });
  const effort: OtherAct = { type: 'note-effort', of: 'sets', count: untold };
  const said = {
    topic: 'sets',
    day: week,
    evidence: evidenceOf(own.filter(({ session }) => session.sets.length > 0)),
    certainty: 1,
    hard,
    easy,
    untold,
    unplaced,
    areas,
    weeks: isBeside ? before.map((one) => one.week) : [],
    ...(others.setApart.includes(week) ? { setApart: true as const } : {}),
  } as const;
  if (!isTold(now)) return [{ ...said, type: 'untold', next: effort }];
  const has = before.length;
  if (has < FEWEST_WEEKS) {
    const next = { type: 'log-more', what: 'weeks', count: FEWEST_WEEKS - has } as const;
    return [{ ...said, type: 'too-few', has, needs: FEWEST_WEEKS, next }];
  }
  return [{ ...said, type: 'week', next: untold > 0 ? effort : { type: 'keep-on' } }];
}
