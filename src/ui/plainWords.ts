import { oneRepMax } from '../analysis/oneRepMax';
import { type PlainTrend, plainTrend } from '../analysis/plainTrend';
import { normalQuantile } from '../analysis/stats/normal';
import type { Top } from '../domain/exposure';
import type { Side } from '../domain/set';
import { valueIn } from '../domain/units';
import type { Frame, Visit } from './charts/visits';
import { countOf, number } from './format';
import { SIDE } from './setWords';
import { sideWord, together } from './trendWords';

/*
 * The words of what the trend engine does not judge: seconds, pins and shares of good ones, and single sets as an estimate of one rep.
 */

/** Returns whether each side goes up or down, a sentence each; empty where the numbers are loads, reps or degrees, which the engine judges. */
export function plainLines(visits: readonly Visit[], { measure }: Frame): readonly string[] {
  if (measure !== 'seconds' && measure !== 'pin' && measure !== 'good') return [];
  const sides = [...new Set(visits.flatMap(({ held }) => held.map(({ top }) => top.side)))];
  return sides.map((side) => {
    const points = visits.flatMap(({ day, held }) =>
      held.flatMap(({ top, value }) => (top.side === side && value !== undefined ? [{ day, value }] : [])),
    );
    const text = `${side ? `${SIDE[side]}: ` : ''}${plainText(plainTrend(points), measure)}`;
    return together(text.charAt(0).toUpperCase() + text.slice(1));
  });
}

function plainText(trend: PlainTrend, measure: 'seconds' | 'pin' | 'good'): string {
  if (trend.type === 'not-enough')
    return `not enough yet (has ${countOf(trend.has, 'session')}, needs ${trend.needs}).`;
  if (trend.type === 'unclear') return `no clear change over ${countOf(trend.sessions, 'session')}.`;
  const [low, high] = [trend.low, trend.high].map(Math.abs).sort((a, b) => a - b);
  const amount = (value: number): string => `${number(Math.round(value * 10) / 10)}${UNIT[measure]}`;
  const more = trend.type === 'rising' ? 'more' : 'less';
  return `about ${amount(Math.abs(trend.perWeek))} ${more} a week (${amount(low ?? 0)} to ${amount(high ?? 0)}), over ${countOf(trend.sessions, 'session')}.`;
}

const UNIT = { seconds: ' s', pin: ' pins', good: ' points of 100' } as const;

/** Four times in five, against what would truly be lifted once. */
const WIDTH = normalQuantile(0.9);

/** Returns a set as one rep: `that is about 96 kg once (88 to 104)`; empty where its effort was not told, or it tells no single. */
export function singleText(top: Top, side: Side | undefined, { measure, unit }: Frame): string {
  const { load, reps, effort } = top;
  const left = effort && 'value' in effort ? (effort.as === 'left' ? effort.value : 10 - effort.value) : undefined;
  if (measure !== 'load' || !load || reps === undefined || left === undefined || left > 5) return '';
  const once = oneRepMax({ load: valueIn(load, unit), reps, left });
  if (!once.ok || once.value.rough) return '';
  const { value, total } = once.value;
  const [low, high] = [value * (1 - WIDTH * total), value * (1 + WIDTH * total)].map(Math.round);
  return together(`${sideWord(side)}that is about ${Math.round(value)} ${unit} once (${low} to ${high})`);
}
