import { addDays, type Day } from '../domain/day';
import { evidenceOf, holds, type Known, type Visit } from './known';
import { massNear, type NotMoved } from './moved';
import type { OtherAct } from './otherActs';
import type { TonnageWeek } from './tonnage';
import type { UsualWeek } from './usualWeek';
import type { TonnageFinding } from './weekFinding';

/*
 * The tonnage of the latest week that is over, in all (a total of things that are not comparable, with its coverage) and of each exercise, against the own
 * usual weeks. What comes out is a range to show the week against, and no warning.
 */

/** Of ordinary weeks about one in twenty is told of as above or below (our own simulation study, STATS.md §5). */
const NOT_FALSE = 1 - 0.046;

/** Returns what is found of that week's tonnage; nothing where no working set with a load or one's own body was done in it. */
export function tonnageFindings({ client, others, visits }: Known): readonly TonnageFinding[] {
  const { week, tonnage } = others;
  const weeks = tonnage.weeks.filter((one) => one.week === week);
  if (weeks.length === 0) return [];
  const own = visits.filter(({ day }) => day >= week && day <= addDays(week, 6));
  const inThem = own.filter(({ session }) => weeks.some(({ exercise }) => holds(session, exercise)));
  const all = tonnage.total.find((one) => one.week === week);
  // 0 kg lifted is a bar that was not weighed, and not a week's work
  const total = all && weeks.some(isCountable) ? [finding(week, inThem, weeks, tonnage.latest, all.kg)] : [];
  // an exercise whose share of the body nobody knows can be counted in no week: the total's coverage says so
  const each = weeks.filter(isCountable).map((one) => {
    const usual = tonnage.exercises.find(({ exercise }) => exercise === one.exercise)?.latest;
    const mine = own.filter(({ session }) => holds(session, one.exercise));
    return { ...finding(week, mine, [one], usual, one.kg), exercise: one.exercise };
  });
  return [...total, ...each, ...staleMass(client, week, inThem, weeks)];
}

const isCountable = ({ kg = 0, not }: TonnageWeek): boolean =>
  kg > 0 || Object.keys(not).some((why) => why !== 'no-share');

function finding(
  week: Day,
  visits: readonly Visit[],
  weeks: readonly TonnageWeek[],
  usual: UsualWeek | undefined,
  kg: number | undefined,
): TonnageFinding {
  const said = saidOf(week, visits, weeks);
  const told = kg === undefined ? {} : { kg };
  switch (usual?.type) {
    case 'above':
    case 'below':
    case 'usual': {
      const { week: _, ...range } = usual;
      const isUsual = usual.type === 'usual';
      return {
        ...said,
        ...range,
        ...(isUsual ? {} : { certainty: NOT_FALSE }),
        next: act(isUsual ? 'keep-on' : 'look-into'),
      };
    }
    case 'too-few': {
      const { has, needs } = usual;
      const next = { type: 'log-more', what: 'weeks', count: needs - has } as const;
      return { ...said, type: 'too-few', certainty: 1, kg: kg ?? 0, has, needs, next };
    }
    case 'set-apart':
      return { ...said, type: 'set-apart', certainty: 1, ...told, next: act('keep-on') };
    default:
      return { ...said, type: 'partly-known', certainty: 1, ...told, next: nextFor(said.not) };
  }
}

const act = (type: 'keep-on' | 'look-into'): OtherAct => ({ type });

function saidOf(week: Day, visits: readonly Visit[], weeks: readonly TonnageWeek[]) {
  const not: { [W in NotMoved]?: number } = {};
  for (const [why, count] of weeks.flatMap((one) => Object.entries(one.not)) as [NotMoved, number][])
    not[why] = (not[why] ?? 0) + count;
  const sets = weeks.reduce((sum, one) => sum + one.sets, 0);
  const missing = Object.values(not).reduce((sum, one) => sum + one, 0);
  return {
    topic: 'tonnage',
    day: week,
    evidence: evidenceOf(visits),
    coverage: sets + missing > 0 ? sets / (sets + missing) : 1,
    sets,
    not,
    stale: weeks.reduce((sum, one) => sum + one.stale, 0),
    exercises: weeks.filter(({ kg }) => kg !== undefined).length,
  } as const;
}

/** What would make more of it known. */
function nextFor(not: TonnageFinding['not']): OtherAct {
  const unnoted = (not['no-load'] ?? 0) + (not['no-reps'] ?? 0);
  if ((not['no-mass'] ?? 0) > unnoted) return { type: 'note-mass' };
  return unnoted > 0 ? { type: 'note-sets', count: unnoted } : { type: 'keep-on' };
}

/** Sets of that week that were reckoned by a mass noted more than 28 days off. */
function staleMass(
  { masses }: Known['client'],
  week: Day,
  visits: readonly Visit[],
  weeks: readonly TonnageWeek[],
): readonly TonnageFinding[] {
  const stale = weeks.filter((one) => one.stale > 0);
  const own = visits.filter(({ session }) => stale.some(({ exercise }) => holds(session, exercise)));
  const mass = massNear(masses, own.at(-1)?.day ?? week);
  const kgs = stale.flatMap(({ kg }) => kg ?? []);
  if (!mass || kgs.length === 0) return [];
  const kg = kgs.toSorted((a, b) => a - b).reduce((sum, one) => sum + one, 0);
  const said = saidOf(week, own, stale);
  return [{ ...said, type: 'stale-mass', certainty: 1, kg, massDay: mass.day, next: { type: 'note-mass' } }];
}
