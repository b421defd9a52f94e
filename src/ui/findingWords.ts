import type { End } from '../analysis/ends';
import type { Finding } from '../analysis/findings';
import type { SideSeries } from '../analysis/series';
import { type Day, dayOfWeek, daysBetween } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import type { Side } from '../domain/set';
import { isLoad, type Target } from '../domain/target';
import { type LoadUnit, toKg } from '../domain/units';
import { countOf, dayShort, number } from './format';
import { SIDE } from './setWords';

/*
 * Every English word of what the analysis finds: how an exercise goes, whether a target is on time, how sure that is, and what to do next.
 */

/** How numbers are told: loads in which unit, of one of a pair or not. */
export type Told = { readonly unit: LoadUnit; readonly perHand: boolean };

/** Returns how the numbers of an end are told. */
export const toldOf = ({ perHand }: Pick<Exercise, 'perHand'>, { unit }: Pick<End, 'unit'>): Told => ({
  unit,
  perHand,
});

/** Returns a number on the bar in its unit, rounded to what can be loaded or counted: `57.5 kg`, `+10 kg`, `8.5 reps`, `41°`. */
export function barText(value: number, way: End['way'], told: Told): string {
  return `${amountText(value, way, told)}${unitText(way, told)}`;
}

function amountText(value: number, way: End['way'], { unit }: Told): string {
  if (way === 'reps') return number(Math.round(value * 2) / 2);
  if (way === 'degrees') return number(Math.round(value));
  const inUnit = unit === 'kg' ? Math.round(value * 2) / 2 : Math.round(value / toKg({ value: 1, unit: 'lb' }));
  if (way === 'held') return number(inUnit);
  return inUnit < 0 ? `−${number(-inUnit)}` : `+${number(inUnit)}`;
}

const unitText = (way: End['way'], { unit, perHand }: Told): string =>
  way === 'reps'
    ? ' reps'
    : way === 'degrees'
      ? '°'
      : `\u00a0${unit}${perHand && way === 'held' ? ' in each hand' : ''}`;

/** `× 5`, for loads; nothing for what is counted otherwise. */
const timesText = (way: End['way'], reps: number): string =>
  way === 'reps' || way === 'degrees' ? '' : reps === 1 ? ' once' : `\u00a0×\u00a0${reps}`;

/** Returns how likely something is, in words: `about 7 in 10`; never surer than 29 in 30, either way. */
export function chanceText(chance: number): string {
  if (!(chance >= 0.05)) return 'about 1 in 30';
  if (chance > 0.95) return 'about 29 in 30';
  return `about ${Math.min(9, Math.max(1, Math.round(chance * 10)))} in 10`;
}

const sideWord = (side: Side | undefined): string => (side ? `${SIDE[side]}: ` : '');
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const weeksText = (from: Day, to: Day): string => {
  const weeks = Math.round(daysBetween(from, to) / 7);
  return weeks < 1 ? 'less than a week' : countOf(weeks, 'week');
};

/** Returns what is found, in one sentence without the exercise's name: `Flat since 12 Oct (6 weeks).` */
export function findingText(one: Finding, told: Told): string {
  return capital(`${sideWord(one.side)}${saidOf(one, told)}`);
}

function saidOf(one: Finding, told: Told): string {
  switch (one.type) {
    case 'stalled':
      return `flat since ${dayShort(one.since)} (${weeksText(one.since, one.day)}).`;
    case 'maybe-stalled':
      return `maybe flat since ${dayShort(one.since)}.`;
    case 'picking-up':
      return 'picking up after a flat time.';
    case 'returning':
      return `returning from a break since ${dayShort(one.since)}: too early to call it flat.`;
    case 'growing':
      return 'still growing.';
    case 'steady':
      return 'no clear change.';
    case 'untold':
      return `no more since ${dayShort(one.since)}, but effort was noted in ${one.end.told} of ${countOf(one.evidence.length, 'session')}: the plan may have asked for no more.`;
    case 'not-enough':
      return notEnoughText(one);
    case 'reached':
      return `there: ${goalText(one.target)} is asked for by ${dayShort(one.target.day)}, now ${nowText(one, told)}.`;
    case 'ahead':
      return `ahead by ${gapText(one, told)}: today needs ${neededText(one, told)}, now ${nowText(one, told)}.`;
    case 'behind':
      return `behind by ${gapText(one, told)}: today needs ${neededText(one, told)}, now ${nowText(one, told)}.`;
    case 'on-time':
      return `on time: today needs ${neededText(one, told)}, now ${nowText(one, told)}.`;
  }
}

function notEnoughText({ has, needs, days }: Extract<Finding, { type: 'not-enough' }>): string {
  if (has < needs) return `not enough yet (has ${countOf(has, 'session')}, needs ${needs}).`;
  return `not enough yet (${countOf(needs, 'session')} or more, but in ${countOf(days, 'day')}; needs 18).`;
}

type OfTarget = Extract<Finding, { target: Target }>;

const nowText = ({ standing, end }: OfTarget, told: Told): string => `about ${barText(standing.now, end.way, told)}`;
const neededText = ({ standing, end, target }: OfTarget, told: Told): string =>
  `${barText(standing.needed, end.way, told)}${timesText(end.way, target.reps ?? 1)}`;
// a gap of loads has no sign of its own
const gapText = ({ standing, end }: OfTarget, told: Told): string =>
  barText(Math.abs(standing.by), end.way === 'system' ? 'held' : end.way, { ...told, perHand: false });

/** Returns what a target asks for: `65 kg × 5`, `9 reps`, `45°`. */
export function goalText({ goal, reps = 1 }: Target): string {
  if (goal.unit === 'degrees') return `${number(goal.value)}°`;
  if (!isLoad(goal.unit)) return countOf(goal.value, 'rep');
  return `${number(goal.value)}\u00a0${goal.unit}${timesText('held', reps)}`;
}

/** Returns what to do next: `Change reps or rest; judge again on Mon 14 Dec.` */
export function nextText({ next, end }: Finding): string {
  switch (next.type) {
    case 'change':
      return `${CHANGE[end.way]}; judge again on ${weekdayText(next.retest)}.`;
    case 'wait':
      return `Wait for ${countOf(next.sessions, 'more session')} before anything is changed.`;
    case 'rethink':
      return 'See whether the plan, the goal or its day should move.';
    case 'ease-in':
      return `Ease in; judge again on ${weekdayText(next.until)}.`;
    case 'log-more':
      return next.sessions > 0
        ? `Log ${countOf(next.sessions, 'more session')}${next.days > 0 ? ` over ${countOf(next.days, 'more day')} at least` : ''}.`
        : `Log on for ${countOf(next.days, 'more day')}.`;
    case 'note-effort':
      return 'Note how many reps were left, at least on the last set.';
    case 'keep-on':
      return 'Keep on.';
  }
}

const CHANGE: Readonly<Record<End['way'], string>> = {
  held: 'Change reps, load or rest',
  system: 'Change reps, load or rest',
  reps: 'Change rest, or the exercise for a while',
  degrees: 'Change how it is worked on',
};

const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const weekdayText = (day: Day): string => `${WEEKDAYS[dayOfWeek(day)]} ${dayShort(day)}`;

/** A level rests on every session, not on the latest alone. */
const RESTS_ON_ALL: readonly Finding['type'][] = ['behind', 'ahead', 'reached'];
/** Counted, or neither one thing nor the other: there is nothing to be sure of. */
const UNDOUBTED: readonly Finding['type'][] = ['not-enough', 'untold', 'returning', 'on-time'];

/** Returns how sure a finding is, and on how much it rests; empty where there is nothing to be unsure of. */
export function sureText({ type, certainty, evidence, end }: Finding): string {
  if (UNDOUBTED.includes(type)) return '';
  return `${capital(chanceText(certainty))} that this is so, on ${countOf(RESTS_ON_ALL.includes(type) ? end.used : evidence.length, 'session')}.`;
}

/** Returns where it stands now: `Left: about 57.5 kg × 5 could be done (54.5 to 61).`; undefined while too little is known. */
export function levelText({ side, way, reps, points }: SideSeries, told: Told): string | undefined {
  const band = points.at(-1)?.band;
  if (!band) return undefined;
  const range = `${amountText(band.lo80, way, told)} to ${amountText(band.hi80, way, told)}`;
  if (way === 'degrees') return capital(`${sideWord(side)}about ${rangeText(band, way, told)}.`);
  return capital(
    `${sideWord(side)}about ${barText(band.mean, way, told)}${timesText(way, reps)} could be done with nothing left (${range}).`,
  );
}

/** Returns a band as its middle and range: `58 kg (55 to 61)`. */
export const rangeText = (band: { mean: number; lo80: number; hi80: number }, way: End['way'], told: Told): string =>
  `${barText(band.mean, way, told)} (${amountText(band.lo80, way, told)} to ${amountText(band.hi80, way, told)})`;

/** Returns the chance of a target on its day: `About 3 in 10 to reach 65 kg × 5 by 14 Feb.`; undefined where none is told. */
export function targetChanceText({ side, target, chance }: SideSeries, today: Day): string | undefined {
  if (!target || chance === undefined) return undefined;
  const odds = chanceText(chance);
  if (target.day < today)
    return capital(`${sideWord(side)}its day, ${dayShort(target.day)}, is past; ${odds} that it could be done now.`);
  return capital(`${sideWord(side)}${odds} to reach ${goalText(target)} by ${dayShort(target.day)}.`);
}

/** Returns everything that stands behind a side's numbers, a sentence each. */
export function coverageLines(
  { side, way, variant, coverage, end, points }: SideSeries,
  told: Told,
): readonly string[] {
  const { sets, told: noted, tooMany, noMass } = coverage;
  const lines = [
    `${sideWord(side)}judged by ${countOf(sets, 'set')} in ${countOf(points.length, 'session')}.`,
    ...(way === 'degrees'
      ? []
      : [`Effort was noted on ${noted} of them; the others are taken as what is usual here, and count for less.`]),
    ...(tooMany > 0
      ? [`${countOf(tooMany, 'set')} of more than 15 reps, those left counted, tell no load: left out.`]
      : []),
    ...(noMass > 0 ? [`${countOf(noMass, 'set')} with load added are left out: no body mass is noted.`] : []),
    ...(variant === undefined ? [] : ['Only sessions with the height, tempo and pause of the last one are compared.']),
    ...(end.status !== 'none' && end.perWeek > 0 && end.perWeek <= SELDOM
      ? ['At about one session a week a stall shows late.']
      : []),
    ...bodyLines(end, told),
  ];
  return lines.map(capital);
}

const SELDOM = 1.2;
/** Days after which a body mass is told to be old (METHODS.md §2). */
const MASS_DAYS = 28;

function bodyLines({ own, massFrom, day }: End, told: Told): readonly string[] {
  if (own === undefined || massFrom === undefined) return [];
  const moved = `Of the body ${barText(own, 'held', { ...told, perHand: false })} are moved: a share from published segment masses.`;
  const isOld = daysBetween(massFrom, day) > MASS_DAYS;
  return isOld ? [moved, `The body mass is from ${dayShort(massFrom)}, more than four weeks before.`] : [moved];
}

export const ANSWERS = {
  sure: 'How sure',
  range:
    'The range in brackets holds four times in five. It is what could be done on an ordinary day, not what the next set will be.',
  estimate: 'All of it is reckoned from logged sets, not tested. It is no medical advice.',
  straight: 'What a day needs lies on the straight line from the start of a target to its goal.',
  none: 'Nothing to judge yet: it takes working sets without help, with their reps; of loads at most 15, those left counted.',
  could: 'What could be done',
  held: 'What was held',
  needs: 'Dashed: what each day needs.',
  fan: 'From the last session on: the forecast.',
  onTime: 'Are we on time?',
  trends: 'How each exercise goes',
  others: (count: number): string => countOf(count, 'more exercise'),
  noTarget: 'No target yet: open an exercise’s chart to set one.',
  setTarget: 'Set a target',
  targetFor: 'Target',
  noTrends: 'Nothing logged that can be judged yet.',
  open: 'Chart',
} as const;

export const AHEAD = { caption: 'Ahead', day: 'Day', side: 'Side', forecast: 'Forecast', needs: 'Needed' } as const;

/**
 * Returns the heads-up of a client's line: `Front squat: flat since 12 Oct (6 weeks). Behind by 3 kg for 20 Dec. Change …`; of a lift that is flat and
 * behind it says both.
 */
export const headText = (
  one: Finding,
  exercise: Pick<Exercise, 'name' | 'perHand'>,
  others: readonly Finding[],
): string => {
  const told = toldOf(exercise, one.end);
  const behind =
    one.type === 'behind' ? undefined : others.find((other) => other.type === 'behind' && isSame(one, other));
  const more =
    behind?.type === 'behind' ? ` Behind by ${gapText(behind, told)} for ${dayShort(behind.target.day)}.` : '';
  const next = one.next.type === 'keep-on' ? '' : ` ${nextText(one)}`;
  return `${exercise.name}${one.side ? `, ${SIDE[one.side]}` : ''}: ${saidOf(one, told)}${more}${next}`;
};

const isSame = (a: Finding, b: Finding): boolean => a.exercise === b.exercise && a.side === b.side;
