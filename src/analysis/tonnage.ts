import type { Day } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import type { SessionRecord } from '../domain/session';
import { movedIn, type NotMoved, type OwnBody, STALE_DAYS } from './moved';
import { sumOf } from './stats/spread';
import { type FirstDay, inOrder, weekOf } from './weeks';

/*
 * Tonnage: the sum of kg × repetitions, by exercise and week (volume load, as strength texts count it; METHODS §3). Work of one side counts for that
 * side and a pair of dumbbells counts both. Warm-ups are left out. It is not comparable between exercises: a total is only to be told as one.
 */

export type TonnageWeek = {
  readonly exercise: string;
  /** The first day of the week. */
  readonly week: Day;
  /** Kg × repetitions; absent where nothing could be counted. */
  readonly kg?: number;
  /** The same by side; work of both sides at once is in neither. */
  readonly left: number;
  readonly right: number;
  readonly sessions: number;
  /** Working sets that are counted, and those that are not, by why. */
  readonly sets: number;
  readonly not: { readonly [W in NotMoved]?: number };
  /** Counted sets of all working sets, 0–1. */
  readonly coverage: number;
  /** The same without those that can be counted in no week (no share or mass of the body): how far it can be set against other weeks, 0–1. */
  readonly comparable: number;
  /** With one's own body: the shares of it that were reckoned with, and how many sets by a mass that is more than 28 days off. */
  readonly shares: readonly number[];
  readonly stale: number;
};

export type Asked = {
  readonly sessions: readonly SessionRecord[];
  /** The client's exercises by id; sets of one that is in no library are not counted anywhere. */
  readonly exercises: ReadonlyMap<string, Pick<Exercise, 'id' | 'holds' | 'perHand'>>;
  readonly body: OwnBody;
  readonly firstDay: FirstDay;
};

/**
 * Returns the tonnage of each exercise and week in which working sets of it were done, by week, then exercise. Exercises that are no load over
 * repetitions (carries, time, bands, pins, landings, tries, degrees) have none.
 */
export function tonnage({ sessions, exercises, body, firstDay }: Asked): readonly TonnageWeek[] {
  const weeks = new Map<string, Building>();
  for (const { session, day } of inOrder(sessions)) {
    for (const set of session.sets) {
      const exercise = exercises.get(set.exercise ?? '');
      if (!exercise || set.kind === 'warm-up' || !HAS_TONNAGE.includes(exercise.holds)) continue;
      const week = weekOf(day, firstDay);
      const key = `${week} ${exercise.id}`;
      const building = weeks.get(key) ?? begin(exercise.id, week);
      weeks.set(key, building);
      building.sessions.add(session.id);
      const moved = movedIn(set, exercise, body, day);
      if (typeof moved === 'string') {
        building.not[moved] = (building.not[moved] ?? 0) + 1;
        continue;
      }
      const kg = moved.parts.reduce((sum, part) => sum + part.kg * part.reps, 0);
      building.sums.push(kg);
      if (set.side) building[set.side].push(kg);
      if (moved.share !== undefined) building.shares.add(moved.share);
      if ((moved.massAge ?? 0) > STALE_DAYS) building.stale += 1;
    }
  }
  return [...weeks.values()].map(finish).sort(byWeek);
}

const HAS_TONNAGE: readonly Exercise['holds'][] = ['load', 'body'];

type Building = {
  readonly exercise: string;
  readonly week: Day;
  readonly sums: number[];
  readonly left: number[];
  readonly right: number[];
  readonly sessions: Set<string>;
  readonly not: { [W in NotMoved]?: number };
  readonly shares: Set<number>;
  stale: number;
};

const begin = (exercise: string, week: Day): Building => ({
  exercise,
  week,
  sums: [],
  left: [],
  right: [],
  sessions: new Set(),
  not: {},
  shares: new Set(),
  stale: 0,
});

function finish({ exercise, week, sums, left, right, sessions, not, shares, stale }: Building): TonnageWeek {
  const missing = Object.values(not).reduce((sum, one) => sum + one, 0);
  return {
    exercise,
    week,
    ...(sums.length > 0 ? { kg: sumOf(sums) } : {}),
    left: sumOf(left),
    right: sumOf(right),
    sessions: sessions.size,
    sets: sums.length,
    not,
    coverage: sums.length / (sums.length + missing),
    comparable: shareOf(sums.length, missing - (not['no-share'] ?? 0) - (not['no-mass'] ?? 0)),
    shares: [...shares].sort((a, b) => a - b),
    stale,
  };
}

const shareOf = (counted: number, not: number): number => (counted + not > 0 ? counted / (counted + not) : 1);

const byWeek = (a: TonnageWeek, b: TonnageWeek): number =>
  a.week === b.week ? (a.exercise < b.exercise ? -1 : 1) : a.week < b.week ? -1 : 1;

export type TonnageTotal = Pick<TonnageWeek, 'week' | 'kg' | 'sets' | 'coverage' | 'comparable'> & {
  readonly exercises: number;
};

/**
 * Returns the totals of weeks over all exercises, in their order: a sum of things that are not comparable, to be told as a total and with its coverage
 * (counted sets of all, 0–1). Without `kg` where nothing could be counted.
 */
export function totalTonnage(weeks: readonly TonnageWeek[]): readonly TonnageTotal[] {
  return [...new Set(weeks.map(({ week }) => week))].sort().map((week) => {
    const own = weeks.filter((one) => one.week === week);
    const counted = own.flatMap(({ kg }) => kg ?? []);
    const sets = own.reduce((sum, one) => sum + one.sets, 0);
    const not = (which: (why: string) => boolean): number =>
      own.flatMap((one) => Object.entries(one.not)).reduce((all, [why, count]) => (which(why) ? all + count : all), 0);
    return {
      week,
      ...(counted.length > 0 ? { kg: sumOf(counted) } : {}),
      sets,
      coverage: shareOf(
        sets,
        not(() => true),
      ),
      comparable: shareOf(
        sets,
        not((why) => why !== 'no-share' && why !== 'no-mass'),
      ),
      exercises: counted.length,
    };
  });
}
