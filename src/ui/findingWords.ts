import type { End } from '../analysis/ends';
import type { Finding } from '../analysis/findings';
import { isJudgedBy } from '../analysis/onTime';
import type { SideSeries } from '../analysis/series';
import { SAID } from '../analysis/trendModel';
import { type Day, dayOfWeek, daysBetween } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import type { Side } from '../domain/set';
import type { Target } from '../domain/target';
import {
  amountWithUnit,
  barText,
  chanceText,
  fromTo,
  goalText,
  rangeText,
  roundedOnBar,
  type Told,
  timesText,
  toldOf,
} from './barWords';
import { countOf } from './format';
import { SIDE } from './setWords';
import { dayText } from './trendWords';

/*
 * Every English word of what the analysis finds: how an exercise goes, whether a target is on time, how sure that is, and what to do next.
 */

const sideWord = (side: Side | undefined): string => (side ? `${SIDE[side]}: ` : '');
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const weeksText = (from: Day, to: Day): string => {
  const weeks = Math.round(daysBetween(from, to) / 7);
  return weeks < 1 ? 'less than a week' : countOf(weeks, 'week');
};

/** Returns what is found, in one sentence without the exercise's name: `Flat since 12 Oct (6 weeks).` */
export function findingText(one: Finding, told: Told, today: Day): string {
  return capital(`${sideWord(one.side)}${saidOf(one, told, today)}`);
}

function saidOf(one: Finding, told: Told, today: Day): string {
  switch (one.type) {
    case 'stalled':
      return `flat since ${dayText(one.since, today)} (${weeksText(one.since, one.day)}).`;
    case 'maybe-stalled':
      return `maybe flat since ${dayText(one.since, today)}.`;
    case 'picking-up':
      return 'picking up after a flat time.';
    case 'returning':
      return `returning from a break since ${dayText(one.since, today)}: too early to call it flat.`;
    case 'growing':
      return 'still growing.';
    case 'falling':
      return 'going down.';
    case 'steady':
      return 'no clear change.';
    case 'untold':
      return `no more since ${dayText(one.since, today)}, but ${fewText(Math.min(one.end.told, one.end.measured), one.evidence.length)} how much more was possible: the plan may have asked for no more.`;
    case 'not-enough':
      return notEnoughText(one);
    case 'not-lately':
      return `not done since ${dayText(one.day, today)}: nothing newer is known.`;
    default:
      return onTimeText(one, told, today);
  }
}

type OfTarget = Extract<Finding, { target: Target }>;

/** `behind by 3 kg for 95 kg × 5 by 20 Dec: today needs 91 kg, now about 88 kg.` */
function onTimeText(one: OfTarget, told: Told, today: Day): string {
  const { target, standing, end } = one;
  const goal = `${goalText(target, told.perHand)} by ${dayText(target.day, today)}`;
  const at = daysBetween(one.day, today) > RECENT_DAYS ? `on ${dayText(one.day, today)}` : 'now';
  const now = `${at} about ${barText(standing.now, end.way, told)}`;
  const needs = `today needs ${barText(standing.needed, end.way, told)}`;
  switch (one.type) {
    case 'reached':
      return `could be done already: ${goal}; ${now}.`;
    case 'past':
      return `${goal} is past; ${now}.`;
    case 'unlikely':
      return `hardly in reach at this pace: ${goal}; ${needs}, ${now}.`;
    case 'on-time':
      return `on time for ${goal}: ${needs}, ${now}.`;
    default: {
      const gap = gapText(one, told);
      // less than can be loaded or counted is told without a number: behind is behind all the same
      if (gap === undefined && one.type === 'behind')
        return `just short of what ${goal} asks of today: ${needs}, ${now}.`;
      if (gap === undefined) return `on time for ${goal}: ${needs}, ${now}.`;
      return `${one.type} by ${gap} for ${goal}: ${needs}, ${now}.`;
    }
  }
}

/** Days for which a level is called that of now. */
const RECENT_DAYS = 8;

/** The gap between two numbers as they are told; undefined where they are told alike. A gap of loads has no sign of its own. */
function gapText({ standing, end: { way } }: OfTarget, told: Told): string | undefined {
  const gap = Math.abs(roundedOnBar(standing.now, way, told) - roundedOnBar(standing.needed, way, told));
  return gap === 0 ? undefined : amountWithUnit(gap, way === 'system' ? 'held' : way, { ...told, perHand: false });
}

const fewText = (few: number, all: number): string =>
  few === 0 ? `no session of ${all} tells` : few === 1 ? `1 session of ${all} tells` : `${few} sessions of ${all} tell`;

function notEnoughText({ has, needs, days }: Extract<Finding, { type: 'not-enough' }>): string {
  if (has < needs) return `not enough yet (has ${countOf(has, 'session')}, needs ${needs}).`;
  return `not enough yet (${countOf(needs, 'session')} or more, but in ${countOf(days, 'day')}; needs 18).`;
}

/** Returns what to do next: `Change reps or rest; judge again on Mon 14 Dec.` */
export function nextText({ next, end }: Finding, today: Day): string {
  switch (next.type) {
    case 'change':
      return `${CHANGE[end.way]}; judge again ${againText(next.retest, today)}.`;
    case 'look-into':
      return `See how they come in, and what else they do; judge again ${againText(next.retest, today)}.`;
    case 'wait':
      return `Wait for ${countOf(next.sessions, 'more session')} before anything is changed.`;
    case 'rethink':
      return 'See whether the plan, the goal or its day should move.';
    case 'ease-in':
      return `Ease in; judge again ${againText(next.until, today)}.`;
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
/** A day that is past is the next session. */
const againText = (day: Day, today: Day): string =>
  day < today ? 'at the next session' : `on ${WEEKDAYS[dayOfWeek(day)]} ${dayText(day, today)}`;

/** Returns the chance of the goal of a target that lies ahead: `About 3 in 10 to reach it.`; empty for anything else. */
export const hitText = (one: Finding): string =>
  'hit' in one && one.hit !== undefined && one.type !== 'past' && one.type !== 'reached'
    ? `${capital(chanceText(one.hit))} to reach it.`
    : '';

/** A level rests on every session, not on the latest alone. */
const RESTS_ON_ALL: readonly Finding['type'][] = ['behind', 'ahead', 'reached'];
/** Counted, or neither one thing nor the other: there is nothing to be sure of. */
const UNDOUBTED: readonly Finding['type'][] = [
  'not-enough',
  'not-lately',
  'untold',
  'returning',
  'steady',
  'on-time',
  'past',
  'unlikely',
];

/** Returns how sure a finding is, and on how much it rests; empty where there is nothing to be unsure of. */
export function sureText({ type, certainty, evidence, end }: Finding): string {
  if (UNDOUBTED.includes(type)) return '';
  return `${capital(chanceText(certainty))} that this is so, on ${countOf(RESTS_ON_ALL.includes(type) ? end.used : evidence.length, 'session')}.`;
}

/** Returns where it stands now: `Left: about 57.5 kg × 5 could be done (54.5 to 61).`; undefined while too little is known. */
export function levelText({ side, way, reps, points }: SideSeries, told: Told): string | undefined {
  const band = points.at(-1)?.band;
  if (!band) return undefined;
  if (way === 'degrees') return capital(`${sideWord(side)}about ${rangeText(band, way, told)}.`);
  const level = `${barText(band.mean, way, told)}${timesText(way, reps)}`;
  return capital(`${sideWord(side)}about ${level} could be done with nothing left (${fromTo(band, way, told)}).`);
}

/** Returns the chance of a target on its day: `About 3 in 10 to reach 65 kg × 5 by 14 Feb.`; undefined where none is told. */
export function targetChanceText(
  { side, target, chance }: SideSeries,
  { perHand }: Told,
  today: Day,
): string | undefined {
  if (!target || chance === undefined) return undefined;
  const odds = chanceText(chance);
  if (target.day < today)
    return capital(
      `${sideWord(side)}its day, ${dayText(target.day, today)}, is past; ${odds} that it could be done now.`,
    );
  return capital(`${sideWord(side)}${odds} to reach ${goalText(target, perHand)} by ${dayText(target.day, today)}.`);
}

/** Returns why a target has no standing yet: `95 kg × 5 by 20 Dec: not judged yet (has 3 sessions, needs 6).` */
export function unjudgedText(target: Target, ends: readonly End[], perHand: boolean, today: Day): string {
  const goal = `${goalText(target, perHand)} by ${dayText(target.day, today)}`;
  const own = ends.filter(({ exercise }) => exercise === target.exercise);
  const [fitting] = own.filter((end) => isJudgedBy(target, end));
  if (own.length === 0) return `${goal}: no session yet that tells of it.`;
  if (!fitting) return `${goal}: not judged, since it is counted otherwise than what is done these days.`;
  if (!target.start) return `${goal}: no start was given, so there is no line to be on time by.`;
  return `${goal}: not judged yet (has ${countOf(fitting.used, 'session')}, needs ${SAID.fewest} over two and a half weeks).`;
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
  return isOld ? [moved, `The body mass is from ${dayText(massFrom, day)}, more than four weeks before.`] : [moved];
}

/**
 * Returns the heads-up of a client's line: `Front squat: flat since 12 Oct (6 weeks). Sure: about 8 in 10. Behind by 3 kg for 95 kg × 5 by 20 Dec. Change …`;
 * of a lift that is flat and behind it says both.
 */
export function headText(
  one: Finding,
  exercise: Pick<Exercise, 'name' | 'perHand'>,
  others: readonly Finding[],
  today: Day,
): string {
  const told = toldOf(exercise, one.end);
  const behind = others.find((other) => other.type === 'behind' && other.end === one.end);
  const more = one.type !== 'behind' && behind?.type === 'behind' ? behindText(behind, told, today) : '';
  const next = one.next.type === 'keep-on' ? '' : ` ${nextText(one, today)}`;
  const hit = hitText(one);
  const sure = hit !== '' ? ` ${hit}` : UNDOUBTED.includes(one.type) ? '' : ` Sure: ${chanceText(one.certainty)}.`;
  return `${exercise.name}${one.side ? `, ${SIDE[one.side]}` : ''}: ${saidOf(one, told, today)}${sure}${more}${next}`;
}

function behindText(one: OfTarget, told: Told, today: Day): string {
  const gap = gapText(one, told);
  const goal = `${goalText(one.target, told.perHand)} by ${dayText(one.target.day, today)}`;
  return gap === undefined ? '' : ` Behind by ${gap} for ${goal}.`;
}
