import type { Day } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import type { SessionRecord } from '../domain/session';
import type { OwnBody } from './moved';
import { sessionsByWeek } from './ownWeeks';
import { type RelativeVolume, relativeVolume } from './relativeVolume';
import { type UnderTension, underTension } from './underTension';
import type { FirstDay } from './weeks';

/* Time under tension and relative volume of one exercise, week by week. */

/** Seconds, and kg·s of what was held still with a load, in the week that begins on a day. */
export type TimeWeek = UnderTension & { readonly exercise: string; readonly week: Day };
/** Repetitions at 100 % of what could be lifted once lately, in the week that begins on a day. */
export type VolumeWeek = RelativeVolume & { readonly exercise: string; readonly week: Day };

/** Returns the seconds under tension of an exercise in each week in which any could be counted, by week. */
export const timeWeeks = (
  sessions: readonly SessionRecord[],
  exercise: Pick<Exercise, 'id' | 'holds' | 'perHand'>,
  firstDay: FirstDay,
): readonly TimeWeek[] =>
  sessionsByWeek(sessions, firstDay, exercise.id).flatMap(({ week, sessions: own }) => {
    const told = underTension(own, exercise);
    return told ? [{ exercise: exercise.id, week, ...told }] : [];
  });

/**
 * Returns the relative volume of an exercise with a load or one's own body in each week in which any could be counted, by week; the weeks before reps left
 * were ever told have none. `maxOn` gives what could be lifted once on a day, in kg (`maxLately`).
 */
export function volumeWeeks(
  sessions: readonly SessionRecord[],
  exercise: Pick<Exercise, 'id' | 'holds' | 'perHand'>,
  {
    body,
    maxOn,
    firstDay,
  }: { readonly body: OwnBody; readonly maxOn: (day: Day) => number | undefined; readonly firstDay: FirstDay },
): readonly VolumeWeek[] {
  if (exercise.holds !== 'load' && exercise.holds !== 'body') return [];
  return sessionsByWeek(sessions, firstDay, exercise.id).flatMap(({ week, sessions: own }) => {
    const told = relativeVolume(own, exercise, body, maxOn);
    return told ? [{ exercise: exercise.id, week, ...told }] : [];
  });
}
