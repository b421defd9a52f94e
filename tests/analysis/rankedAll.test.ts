import { describe, expect, test } from 'vitest';
import type { End } from '../../src/analysis/ends';
import { type AnyFinding, type Finding, headsUp, isHeadsUp, rankedAll } from '../../src/analysis/findings';
import type { OtherFinding } from '../../src/analysis/otherFindings';
import { nearnessOf, urgencyOf } from '../../src/analysis/urgency';
import type { Target } from '../../src/domain/target';
import { dayIn, kg, times } from '../reference/records';
import { about, clientWith, did, foundOf } from './foundIn';

/* One order for what the trend engine finds and for what the other methods find. */

const SQUAT = 'lib-front-squat';
const BENCH = 'lib-bench-press';
const TODAY = dayIn(28);

const end = (exercise: string): End => ({
  exercise,
  way: 'held',
  session: 's1',
  day: TODAY,
  used: 12,
  span: 40,
  status: 'stalled',
  pStall: 1,
  slope: 0,
  slopeSd: 0.1,
  evidence: ['s1'],
  told: 1,
  measured: 1,
  perWeek: 2,
  unit: 'kg',
  coverage: { sets: 12, told: 12, tooMany: 0, noMass: 0 },
});
const said = (exercise: string) => ({
  exercise,
  day: TODAY,
  certainty: 1,
  evidence: ['s1'],
  next: { type: 'keep-on' } as const,
  end: end(exercise),
});
const stalled: Finding = { ...said(SQUAT), type: 'stalled', since: dayIn(0) };
const growing: Finding = { ...said(BENCH), type: 'growing' };
const target = (exercise: string, day: number): Target => ({
  id: `${exercise}-${day}`,
  exercise,
  goal: { value: 100, unit: 'kg' },
  from: dayIn(0),
  day: dayIn(day),
});

/** Found by the methods, not made up: mild pain again, a gap, a week of landings above, a week's carry. */
const found: readonly OtherFinding[] = foundOf(
  clientWith(
    [
      did(dayIn(7), BENCH, [{ pain: { value: 1 } }]),
      did(dayIn(14), BENCH, [{ reps: 5 }]),
      did(dayIn(21), BENCH, [{ pain: { value: 1 } }]),
      ...[8, 22].map((day) =>
        did(dayIn(day), 'lib-upper-back-rotation', [
          ...times(2, { degrees: 40, side: 'left' as const }),
          ...times(2, { degrees: 50, side: 'right' as const }),
        ]),
      ),
      did(dayIn(23), 'lib-drop-landing', times(3, { landings: 60 })),
      did(dayIn(24), 'lib-farmer-carry', [{ load: kg(20), distance: { value: 20, unit: 'm' } }]),
    ],
    { level: 'beginner' },
  ),
  TODAY,
);
const kindOf = (one: AnyFinding): string => ('topic' in one ? `${one.topic} ${one.type}` : one.type);

describe('one order for all findings', () => {
  test('pain that comes again is first, though nothing is surer than a stall; then a gap, landings, what goes well', () => {
    const all = rankedAll([growing, stalled], found, [target(SQUAT, 28)], TODAY);
    expect(all.map(kindOf).slice(0, 4)).toEqual(['pain again', 'stalled', 'sides gap', 'landings above']);
    expect(all).toHaveLength(found.length + 2);
    const place = (kind: string): number => all.findIndex((one) => kindOf(one) === kind);
    expect(place('growing')).toBeGreaterThan(3);
    expect(place('carries too-few')).toBeGreaterThan(place('growing'));
    expect(headsUp(all)).toBe(all[0]);
    expect(all.filter(isHeadsUp).map(kindOf)).toEqual(['pain again', 'stalled', 'sides gap', 'landings above']);
  });

  test('the order they come in does not matter', () => {
    const all = rankedAll([growing, stalled], found, [], TODAY);
    expect(rankedAll([stalled, growing], found.toReversed(), [], TODAY)).toEqual(all);
  });

  test('a target that is near makes what is found of its exercise more pressing', () => {
    const weeks = [SQUAT, BENCH].flatMap((exercise) =>
      [0, 1, 2, 3].map((week) => did(dayIn(7 * week), exercise, [{ load: kg(60), reps: 5 }])),
    );
    const first = (targets: readonly Target[]) =>
      about('tonnage', foundOf(clientWith(weeks, { targets }), TODAY)).find(({ exercise }) => exercise)?.exercise;
    expect(first([target(BENCH, 35)])).toBe(BENCH);
    expect(first([target(SQUAT, 35)])).toBe(SQUAT);
    // one that is past, and one further off than half a year, make none
    expect(first([target(SQUAT, 27), target(SQUAT, 28 + 182)])).toBe(BENCH);
  });

  test('what has no chance to tell lies between what is sure and what is not; a rank outweighs both', () => {
    const untold = urgencyOf(5, undefined, 0);
    expect(untold).toBeLessThan(urgencyOf(5, 0.96, 0));
    expect(untold).toBeGreaterThan(urgencyOf(5, 0.3, 0));
    expect(urgencyOf(6, 0, 0)).toBeGreaterThan(urgencyOf(5, 1, 1));
    expect(nearnessOf([TODAY], TODAY)).toBe(1);
    expect(nearnessOf([], TODAY)).toBe(0);
  });

  test('a stall that has reached its goal is no heads-up, whatever else is found', () => {
    const standing = { verdict: 'reached' } as Extract<Finding, { readonly type: 'reached' }>['standing'];
    const { end: own } = stalled;
    const reached: Finding = { ...said(SQUAT), type: 'reached', end: own, standing, target: target(SQUAT, 35) };
    const calm = found.filter(({ topic }) => topic === 'carries');
    expect(headsUp(rankedAll([stalled, reached], calm, [], TODAY))).toBe(reached);
    expect(headsUp(rankedAll([stalled], calm, [], TODAY))).toBe(stalled);
    expect(headsUp(calm)).toBeUndefined();
  });
});
