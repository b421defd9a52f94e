import { type Day, daysBetween } from '../domain/day';
import { isLoad, type Target } from '../domain/target';
import { toKg } from '../domain/units';
import type { End } from './ends';
import { normalCdf, normalQuantile } from './stats/normal';
import { dayNumber } from './track';
import type { TrendTarget } from './trend';
import { REP_CURVE } from './trendObserve';

/*
 * Are we on time? What today needs lies on the straight line from where a target starts to its goal (our own choice: a line that can be read off a
 * chart); it is set against the level as it is known, in the units on the bar.
 */

/** How a level reads on the bar: for so many reps, less what is one's own body. */
export type Bar = { readonly way: End['way']; readonly reps: number; readonly own: number };

/** Returns how the levels of an end read, for a number of reps. */
export const barOf = ({ way, own = 0 }: Pick<End, 'way' | 'own'>, reps = 1): Bar => ({ way, reps, own });

/** Returns a level (kg of one rep, reps, degrees) as it reads on the bar: kg for so many reps, without one's own body; reps and degrees as they are. */
export function onBar(level: number, { way, reps, own }: Bar): number {
  return way === 'held' || way === 'system' ? level / repShare(reps) - own : level;
}

/** Returns the level of what reads so on the bar. */
export function offBar(value: number, { way, reps, own }: Bar): number {
  return way === 'held' || way === 'system' ? (value + own) * repShare(reps) : value;
}

/** One rep is more than `reps` by this (STATS.md, "From level to the bar"). */
const repShare = (reps: number): number => 1 + (reps - 1) / REP_CURVE;

/** Returns an amount of a target in kg, reps or degrees. */
export const amountOf = ({ value, unit }: Target['goal']): number => (isLoad(unit) ? toKg({ value, unit }) : value);

/** Returns whether a target can be judged by an end: loads by a load, reps by reps, degrees by degrees. */
export function isJudgedBy({ exercise, goal }: Target, end: Pick<End, 'exercise' | 'way'>): boolean {
  if (exercise !== end.exercise) return false;
  if (isLoad(goal.unit)) return end.way === 'held' || end.way === 'system';
  return goal.unit === end.way;
}

/** Returns a target as the engine takes it, for the levels of an end. */
export function engineTarget(target: Target, end: Pick<End, 'way' | 'own'>): TrendTarget {
  return { value: offBar(amountOf(target.goal), barOf(end, target.reps)), day: dayNumber(target.day) };
}

/** Returns what a day needs, in kg, reps or degrees on the bar; undefined without a start. Before the line it is the start, behind it the goal. */
export function neededOn(target: Pick<Target, 'start' | 'goal' | 'from' | 'day'>, day: Day): number | undefined {
  if (!target.start) return undefined;
  const [start, goal] = [amountOf(target.start), amountOf(target.goal)];
  const length = daysBetween(target.from, target.day);
  const gone = length > 0 ? daysBetween(target.from, day) / length : 1;
  return start + (goal - start) * Math.min(1, Math.max(0, gone));
}

/** How a level stands against what today needs, in kg, reps or degrees on the bar. */
export type Standing = {
  readonly verdict: 'reached' | 'ahead' | 'on-time' | 'behind';
  readonly now: number;
  readonly lo80: number;
  readonly hi80: number;
  readonly needed: number;
  /** Above 0: ahead by so much. */
  readonly by: number;
  /** The chance that the level is at least what is needed, and that it is at least the goal, 0–1. */
  readonly chance: number;
  readonly goalChance: number;
};

/** How sure it has to be that it is one way or the other. */
const SURE = 0.65;

/**
 * Returns how a target stands on a day, by the level after the last session; undefined without a start, or while no level is known. Behind the
 * target's day the goal is what is needed.
 */
export function standingOn(target: Target, end: End, day: Day): Standing | undefined {
  const needed = neededOn(target, day);
  const { level, lo80, hi80 } = end;
  if (needed === undefined || level === undefined || lo80 === undefined || hi80 === undefined) return undefined;
  const bar = barOf(end, target.reps);
  const [now, low, high] = [onBar(level, bar), onBar(lo80, bar), onBar(hi80, bar)];
  const sd = (high - low) / (2 * normalQuantile(0.9));
  const above = (value: number): number => (sd > 0 ? normalCdf((now - value) / sd) : now >= value ? 1 : 0);
  const chance = above(needed);
  const goalChance = above(amountOf(target.goal));
  const verdict = goalChance >= SURE ? 'reached' : chance >= SURE ? 'ahead' : chance <= 1 - SURE ? 'behind' : 'on-time';
  return { verdict, now, lo80: low, hi80: high, needed, by: now - needed, chance, goalChance };
}

/** Returns the target that is drawn and told of an end: the next one that can be judged by it, else the last of those that are past. */
export function targetOf(
  targets: readonly Target[],
  end: Pick<End, 'exercise' | 'way'>,
  today: Day,
): Target | undefined {
  const own = byDay(targets.filter((one) => isJudgedBy(one, end)));
  return own.find(({ day }) => day >= today) ?? own.at(-1);
}

/** Returns targets with the nearest day first. */
export const byDay = (targets: readonly Target[]): readonly Target[] =>
  [...targets].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.id < b.id ? -1 : 1));
