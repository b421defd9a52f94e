import { addDays, type Day } from '../domain/day';
import { evidenceOf, isWithin, type Known, TESTED_DAYS } from './known';
import type { MeasuresFinding } from './otherFindings';
import type { Measured } from './realChange';
import { meanOf } from './stats/spread';

/*
 * Whether the degrees of a test have changed by more than measuring it twice can differ. Only the client's own change is told; no measure is graded.
 */

/** So many cases of 100 lie within the smallest real change. */
const MDC = 0.95;
/** A test is repeated after two weeks, our own choice. */
const AGAIN_DAYS = 14;
const NEEDS = 2;

/** Returns what is found of degrees that were measured within a quarter of a year, by exercise and side. */
export function rangeFindings({ others, visits, asOf }: Known): readonly MeasuresFinding[] {
  const own = visits.flatMap(({ session, day }) =>
    session.sets
      .filter(({ kind, degrees, unread }) => kind !== 'warm-up' && degrees !== undefined && unread.length === 0)
      .map(({ exercise = '', side, degrees = 0 }) => ({ session, day, exercise, side, degrees })),
  );
  const groups = new Map(own.map(({ exercise, side }) => [`${exercise} ${side ?? ''}`, { exercise, side }]));
  return [...groups]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([, { exercise, side }]): readonly MeasuresFinding[] => {
      const measured = own.filter((one) => one.exercise === exercise && one.side === side);
      const [first, last] = [measured[0], measured.at(-1)];
      if (exercise === '' || !first || !last || !isWithin(last.day, asOf, TESTED_DAYS)) return [];
      const once = [...new Map(measured.map((one) => [one.session.id, one])).values()];
      const said = {
        topic: 'measures',
        exercise,
        ...(side ? { side } : {}),
        day: last.day,
        evidence: evidenceOf(once),
      } as const;
      const days = new Set(measured.map(({ day }) => day)).size;
      const again = addDays(last.day, AGAIN_DAYS);
      const next = { type: 'test-again', on: again > asOf ? again : asOf } as const;
      if (days < NEEDS) return [{ ...said, type: 'too-few', certainty: 1, has: days, needs: NEEDS, next }];
      const found = others.ranges.find((one) => one.exercise === exercise && one.side === side);
      if (!found) {
        const on = (day: Day): Measured => ({
          day,
          value: meanOf(measured.filter((one) => one.day === day).map(({ degrees }) => degrees)) ?? first.degrees,
        });
        const ends = { first: on(first.day), last: on(last.day) };
        return [{ ...said, type: 'error-unknown', certainty: 1, days, ...ends, next: { type: 'keep-on' } }];
      }
      const { exercise: _, ...change } = found;
      const told = { ...said, unit: 'degrees', change, since: change.first.day as Day } as const;
      return change.type === 'real'
        ? [{ ...told, type: 'changed', certainty: MDC, next: { type: 'keep-on' } }]
        : [{ ...told, type: 'within-error', next }];
    });
}
