import { addDays, type Day } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import type { SessionRecord } from '../domain/session';
import { triedIn } from '../domain/tried';
import { movedIn, type OwnBody } from './moved';
import { oneRepMax } from './oneRepMax';
import { medianSorted } from './stats/median';
import { meanOf } from './stats/spread';
import { inOrder } from './weeks';

/*
 * What could be lifted once lately, for weighing repetitions: the published estimate of every set whose reps left were told, a mean for each session
 * (the best set alone would tell too much: our own simulation study, STATS.md §7), of the six weeks up to a day the median.
 */

const BACK_DAYS = 42;

/**
 * Returns what could be lifted once on a day, in kg: of a pair as one hand holds it, with one's own body the body's share and what is added. Undefined
 * where no set of the six weeks tells it. Nothing after the day is used.
 */
export function maxLately(
  sessions: readonly SessionRecord[],
  exercise: Pick<Exercise, 'id' | 'holds' | 'perHand'>,
  body: OwnBody,
): (day: Day) => number | undefined {
  const known = inOrder(sessions).flatMap(({ session, day }) => {
    const estimates = session.sets.flatMap((set) => {
      if (set.exercise !== exercise.id || set.kind === 'warm-up') return [];
      const [tried] = triedIn([set]).tried;
      const moved = tried?.left === undefined || tried.least ? 'unread' : movedIn(set, exercise, body, day);
      const [part] = typeof moved === 'string' ? [] : moved.parts;
      if (!part || tried?.left === undefined) return [];
      const once = oneRepMax({ load: part.held, reps: part.reps, left: tried.left });
      return once.ok ? [once.value.value] : [];
    });
    const value = meanOf(estimates);
    return value === undefined ? [] : [{ day, value }];
  });
  return (day) => {
    const from = addDays(day, -BACK_DAYS);
    const near = known.filter((one) => one.day <= day && one.day > from).map(({ value }) => value);
    return medianSorted(near.sort((a, b) => a - b));
  };
}
