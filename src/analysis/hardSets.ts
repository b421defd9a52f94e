import type { Day } from '../domain/day';
import { AREAS, type Area, type AreaShare, musclesOf } from '../domain/muscles';
import type { SessionRecord } from '../domain/session';
import type { SetRecord } from '../domain/set';
import { toKg } from '../domain/units';
import { type FirstDay, inOrder, weekOf } from './weeks';

/*
 * Hard sets by area and week: working sets of five or more repetitions (or of 80 % of what could be lifted once) with four or fewer left (our own
 * choice). A set counts 1 for an area it works directly and half for one it works indirectly, the weighting with the best relative evidence in a
 * meta-regression of 67 studies and 2,058 people (Pelland 2024). To be shown as bands, never as a target for one person.
 */

export type AreaWeek = {
  /** The first day of the week. */
  readonly week: Day;
  readonly area: Area;
  /** Sets, direct and indirect ones each as 1. */
  readonly direct: number;
  readonly indirect: number;
  /** Direct sets and half of the indirect ones. */
  readonly fractional: number;
};

export type HardSets = {
  readonly areas: readonly AreaWeek[];
  /** Working sets by week: hard ones, those known not to be, those that cannot be judged (no effort or reps told), and hard ones of no known area. */
  readonly weeks: readonly {
    readonly week: Day;
    readonly hard: number;
    readonly easy: number;
    readonly untold: number;
    readonly unplaced: number;
  }[];
};

const MOST_LEFT = 4;
const FEWEST_REPS = 5;
const HEAVY = 0.8;

/**
 * Returns hard sets by week and area, and how many sets could not be judged. A set of one side counts half: an area has two. `maxOn` gives what could
 * be lifted once, and `heldIn` what a set holds, both in kg as one hand holds it; without them a set of fewer than five reps that was not easy cannot be
 * judged. `areasOf` names the areas of an exercise.
 */
export function hardSets(
  sessions: readonly SessionRecord[],
  {
    firstDay,
    maxOn,
    heldIn = loadOf,
    areasOf = musclesOf,
  }: {
    readonly firstDay: FirstDay;
    readonly maxOn?: (exercise: string, day: Day) => number | undefined;
    readonly heldIn?: (set: SetRecord, day: Day) => number | undefined;
    readonly areasOf?: (exercise: string) => readonly AreaShare[];
  },
): HardSets {
  const weeks = new Map<Day, { hard: number; easy: number; untold: number; unplaced: number }>();
  const areas = new Map<string, { week: Day; area: Area; direct: number; indirect: number }>();
  for (const { session, day } of inOrder(sessions)) {
    const week = weekOf(day, firstDay);
    for (const set of session.sets) {
      const { exercise } = set;
      if (exercise === undefined || set.kind === 'warm-up' || set.tally || !isCounted(set)) continue;
      const own = weeks.get(week) ?? { hard: 0, easy: 0, untold: 0, unplaced: 0 };
      weeks.set(week, own);
      const weight = set.side ? 0.5 : 1;
      const judged = judge(set, () => shareOf(heldIn(set, day), maxOn?.(exercise, day)));
      own[judged] += weight;
      if (judged !== 'hard') continue;
      const worked = areasOf(exercise);
      if (worked.length === 0) own.unplaced += weight;
      for (const { area, share } of worked) {
        const key = `${week} ${area}`;
        const one = areas.get(key) ?? { week, area, direct: 0, indirect: 0 };
        areas.set(key, one);
        one[share === 1 ? 'direct' : 'indirect'] += weight;
      }
    }
  }
  return {
    areas: [...areas.values()]
      .map((one) => ({ ...one, fractional: one.direct + one.indirect / 2 }))
      .sort((a, b) => (a.week === b.week ? AREAS.indexOf(a.area) - AREAS.indexOf(b.area) : a.week < b.week ? -1 : 1)),
    weeks: [...weeks].map(([week, one]) => ({ week, ...one })).sort((a, b) => (a.week < b.week ? -1 : 1)),
  };
}

/** Landings, tries, ranges, carries and things held count by measures of their own. */
const isCounted = ({ landings, tries, degrees, distance, seconds }: SetRecord): boolean =>
  [landings, tries, degrees, distance, seconds].every((one) => one === undefined);

const loadOf = ({ load }: SetRecord): number | undefined => load && toKg(load);

const shareOf = (held: number | undefined, max: number | undefined): number | undefined =>
  held === undefined || max === undefined || !(max > 0) ? undefined : held / max;

/** `heavy` gives the share of what could be lifted once, where that is known. */
function judge(set: SetRecord, heavy: () => number | undefined): 'hard' | 'easy' | 'untold' {
  if (set.unread.length > 0) return 'untold';
  const parts = [set, ...set.parts].map(({ reps }) => reps);
  if (parts.includes(undefined)) return 'untold';
  const reps = parts.reduce<number>((sum, one) => sum + (one ?? 0), 0);
  const left = leftIn(set);
  if (reps === 0 || (left !== undefined && left > MOST_LEFT)) return 'easy';
  const share = reps < FEWEST_REPS ? heavy() : 1;
  // the last digit of a product makes nothing lighter
  if (share !== undefined && share < HEAVY - 1e-9) return 'easy';
  return share === undefined || left === undefined ? 'untold' : 'hard';
}

/** Reps left as they were told; "4 or more" may be any number. */
function leftIn({ effort, ended }: SetRecord): number | undefined {
  if (ended === 'missed') return 0;
  if (!effort || 'atLeast' in effort) return undefined;
  return effort.as === 'left' ? effort.value : 10 - effort.value;
}
