import type { Chance } from '../../fixtures/demo/chance';
import type { TrendKind } from '../../src/analysis/trendModel';
import type { TrendExposure, TrendSet } from '../../src/analysis/trendObserve';
import type { Preset } from './preset';
import { amountOf, between, type Course } from './truth';

/** How somebody trains and notes it. */
export type Habit = {
  readonly perWeek: number;
  readonly sets: number;
  /** The personal rep curve: reps with a load against the usual, and its bend. */
  readonly kappa: number;
  readonly bend: number;
  /** How much more than is true is told as left, reps. */
  readonly bias: number;
  /** Kg between two loads; degrees between two readings. */
  readonly grain: number;
  readonly isDeloadNoted: boolean;
  readonly formSd: number;
  /** Reps asked for in each week. */
  readonly asked: readonly number[];
};

/** Returns a habit for so many weeks. */
export function drawHabit(chance: Chance, kind: TrendKind, preset: Preset, weeks: number, perWeek?: number): Habit {
  return {
    perWeek: perWeek ?? chance.one(preset.perWeek),
    sets: chance.one(preset.sets),
    kappa: Math.exp(chance.around(preset.curve)),
    bend: 1 + chance.around(0.04),
    bias: chance.around(0.3),
    grain: kind === 'deg' ? (chance.is(0.3) ? 5 : 1) : chance.is(0.3) ? 1.25 : 2.5,
    isDeloadNoted: chance.is(0.75),
    formSd: between(chance, preset.form),
    asked: drawBlocks(chance, weeks),
  };
}

const ASKED = [10, 8, 6, 5, 3] as const;

/** Blocks of 3 to 5 weeks; every second person goes from many reps to few and begins again, which looks like a trend. */
function drawBlocks(chance: Chance, weeks: number): number[] {
  const descends = chance.is(0.5);
  const first = chance.whole(0, descends ? 1 : ASKED.length - 1);
  const asked: number[] = [];
  let at = first;
  while (asked.length < weeks) {
    for (let left = chance.whole(3, 5); left > 0; left -= 1) asked.push(ASKED[at]!);
    if (descends) at = at + 1 < ASKED.length ? at + 1 : first;
    else if (chance.is(0.6)) at = chance.whole(0, ASKED.length - 1);
  }
  return asked;
}

/** Returns the sessions of a course as they were noted, and the days that were bad. */
export function train(
  chance: Chance,
  kind: TrendKind,
  preset: Preset,
  course: Course,
  habit: Habit,
): { readonly exposures: readonly TrendExposure[]; readonly badDays: readonly number[] } {
  const exposures: TrendExposure[] = [];
  const badDays: number[] = [];
  const formOf = forms(chance, habit.formSd, preset.formDays, course.units.length);
  // what the trainer takes the level for: a little off at first, and always a week behind
  const misjudged = chance.around(2.5);
  for (const day of drawDays(chance, course, habit.perWeek)) {
    const week = Math.floor(day / 7);
    const isLighter = course.deload_weeks.includes(week);
    const isBad = chance.is(preset.badDays);
    if (isBad) badDays.push(day);
    const able = course.units[day]! + formOf[day]! - (isBad ? between(chance, [5, 10]) : 0);
    const deload = isLighter && habit.isDeloadNoted;
    if (kind === 'deg') {
      const read = able + chance.around(2.4);
      exposures.push({ day, deload, value: habit.grain * Math.round(read / habit.grain) });
      continue;
    }
    const taken = course.units[Math.max(0, day - 7)]! + misjudged * 0.85 ** exposures.length + chance.around(1);
    const asked = Math.max(2, habit.asked[week]! + chance.whole(-1, 1));
    const sets =
      kind === 'e1rm'
        ? lifted(chance, preset, habit, { able, taken, asked, isLighter })
        : pulled(chance, preset, habit, able, isLighter);
    exposures.push({ day, deload, sets });
  }
  return { exposures, badDays };
}

/** The form of each day: around 0, and much like the day before. */
function forms(chance: Chance, sd: number, days: number, count: number): number[] {
  const stays = Math.exp(-1 / days);
  let form = chance.around(sd);
  return Array.from({ length: count }, () => {
    const today = form;
    form = stays * form + chance.around(sd * Math.sqrt(1 - stays * stays));
    return today;
  });
}

/** A twentieth of the weeks and an eighth of the sessions are missed, and all of the time away. */
function drawDays(chance: Chance, { weeks, layoff }: Course, perWeek: number): number[] {
  const days: number[] = [];
  for (let week = 0; week < weeks; week += 1) {
    if (chance.is(0.05)) continue;
    const free = [0, 1, 2, 3, 4, 5, 6];
    for (let n = 0; n < perWeek; n += 1) {
      const [weekday] = free.splice(chance.whole(0, free.length - 1), 1);
      const day = 7 * week + weekday!;
      const isAway = layoff !== null && day >= layoff[0] && day < layoff[1];
      if (!isAway && !chance.is(0.12)) days.push(day);
    }
  }
  return days.sort((a, b) => a - b);
}

type Lift = {
  /** Levels in u: what can be done today, and what it is taken for. */
  readonly able: number;
  readonly taken: number;
  readonly asked: number;
  readonly isLighter: boolean;
};

/** Sets of one load, chosen for the reps asked for with none to four left, mostly one or two. */
function lifted(chance: Chance, preset: Preset, habit: Habit, { able, taken, asked, isLighter }: Lift): TrendSet[] {
  const left = chance.one([0, 0, 0, 1, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 3, 3, 3, 4, 4]);
  const share = (1 + (habit.kappa * (asked + left - 1)) / 28) ** habit.bend;
  const wanted = (amountOf('e1rm', taken) / share) * (isLighter ? 0.8 : 1);
  const load = Math.max(habit.grain, habit.grain * Math.round(wanted / habit.grain));
  const fresh = 1 + (28 * ((amountOf('e1rm', able) / load) ** (1 / habit.bend) - 1)) / habit.kappa;
  return Array.from({ length: isLighter ? 1 : habit.sets }, (_, before) => {
    const most = fresh - 0.4 * before;
    if (most < asked) return { load, reps: Math.max(1, Math.floor(most)), rir: 0 };
    return { load, reps: asked, rir: told(chance, preset, habit, most - asked) };
  });
}

/** Sets of body weight: about every second session as many as there are, else one or two fewer. */
function pulled(chance: Chance, preset: Preset, habit: Habit, able: number, isLighter: boolean): TrendSet[] {
  const left = (chance.is(0.47) ? 0 : chance.whole(1, 2)) + (isLighter ? 2 : 0);
  return Array.from({ length: isLighter ? 1 : habit.sets }, (_, before) => {
    const most = Math.max(0, Math.floor(amountOf('reps', able) - 0.7 * before));
    const reps = Math.max(0, most - left);
    return { load: 0, reps, rir: left === 0 ? 0 : told(chance, preset, habit, most - reps) };
  });
}

/** What is told as left, in halves: the more there is, the worse it is counted. */
function told(chance: Chance, { miscount }: Preset, { bias }: Habit, left: number): number {
  const counted = left + bias + chance.around(miscount[0] + miscount[1] * left);
  return Math.min(5, Math.max(0, Math.round(2 * counted) / 2));
}
