import { describe, expect, test } from 'vitest';
import { type End, endsOf } from '../../src/analysis/ends';
import { findingsOf } from '../../src/analysis/findings';
import { barOf, engineTarget, isJudgedBy, neededOn, offBar, onBar, standingOn } from '../../src/analysis/onTime';
import { NO_BODY } from '../../src/analysis/track';
import type { Amount, Target } from '../../src/domain/target';
import { added, dayAt, FRONT_SQUAT, lift, on, PRESS, PULL_UP, REACH } from './made';

/* Are we on time: sums that can be checked by hand. */

const kg = (value: number): Amount => ({ value, unit: 'kg' });
/** 100 to 120 kg for five, from a Monday to 100 days later. */
const target = (more: Partial<Target> = {}): Target => ({
  id: 't1',
  exercise: FRONT_SQUAT.id,
  goal: kg(120),
  start: kg(100),
  reps: 5,
  from: dayAt(0),
  day: dayAt(100),
  ...more,
});
const grown = Array.from({ length: 8 }, (_, n) => on(n * 3, FRONT_SQUAT, [lift(100 + n, 5, 2)]));

/** An end of which the level is known: 126 kg once, 120 to 132 in four of five cases. */
function end(more: Partial<End> = {}): End {
  const [one] = endsOf(FRONT_SQUAT, grown, NO_BODY);
  if (!one) throw new Error('no end');
  return { ...one, level: 126, lo80: 120, hi80: 132, ...more };
}

describe('on the bar', () => {
  test('a level is what can be done so many times: one rep is 1 + 4/28 = 8/7 of five', () => {
    expect(onBar(126, barOf({ way: 'held' }, 5))).toBeCloseTo(110.25, 10);
    expect(onBar(126, barOf({ way: 'held' }))).toBe(126);
    // 1 + 7/28 = 1.25 of eight
    expect(onBar(125, barOf({ way: 'held' }, 8))).toBeCloseTo(100, 10);
  });

  test('without what of the body is moved: 100 kg once are 87.5 for five, with 40 of them the body 47.5', () => {
    expect(onBar(100, barOf({ way: 'system', own: 40 }, 5))).toBeCloseTo(47.5, 10);
    expect(offBar(47.5, barOf({ way: 'system', own: 40 }, 5))).toBeCloseTo(100, 10);
    // a level below one's own body is load to be taken off
    expect(onBar(30, barOf({ way: 'system', own: 40 }))).toBe(-10);
  });

  test('reps and degrees are what they are, of however many reps', () => {
    expect(onBar(11, barOf({ way: 'reps' }, 5))).toBe(11);
    expect(offBar(150, barOf({ way: 'degrees' }, 5))).toBe(150);
  });

  test('the engine is asked for the level of a goal: 105 kg for five are 120 once', () => {
    const asked = engineTarget(target({ goal: kg(105) }), { way: 'held' });
    expect(asked.value).toBeCloseTo(120, 10);
    // 5 January 2026 is the 9,501st day after the first of 2000 (26 years with 7 leap days are 9,497; and 4), the goal 100 days later
    expect(asked.day).toBe(9601);
    // 225 lb are 102.05828325 kg; of one rep as they are
    const { reps: _, ...once } = target({ goal: { value: 225, unit: 'lb' } });
    expect(engineTarget(once, { way: 'held' }).value).toBeCloseTo(102.05828325, 8);
    // 20 kg on 40 of the body: 60 × 8/7 = 68.57
    expect(engineTarget(target({ goal: kg(20) }), { way: 'system', own: 40 }).value).toBeCloseTo(68.5714286, 6);
  });
});

describe('what a day needs', () => {
  test('lies on the straight line: half of the way after half of the time', () => {
    expect([0, 25, 50, 100].map((n) => neededOn(target(), dayAt(n)))).toEqual([100, 105, 110, 120]);
    // a goal below the start as well
    expect(neededOn(target({ goal: kg(80) }), dayAt(25))).toBe(95);
  });

  test('before the line it is the start, behind it the goal; of a line without a length the goal', () => {
    expect([neededOn(target(), dayAt(-30)), neededOn(target(), dayAt(900))]).toEqual([100, 120]);
    expect(neededOn(target({ from: dayAt(100) }), dayAt(100))).toBe(120);
    expect(neededOn(target({ from: dayAt(120) }), dayAt(110))).toBe(120);
  });

  test('in pounds it is told in kilograms: halfway from 200 to 225 lb are 212.5 lb, 96.388 kg', () => {
    const of = target({ start: { value: 200, unit: 'lb' }, goal: { value: 225, unit: 'lb' } });
    // 212.5 × 0.45359237
    expect(neededOn(of, dayAt(50))).toBeCloseTo(96.388378625, 8);
    // from kilograms to pounds: (90 + 102.05828325) / 2
    expect(neededOn({ ...of, start: kg(90) }, dayAt(50))).toBeCloseTo(96.029141625, 8);
  });

  test('without a start there is no line', () => {
    const { start: _, ...open } = target();
    expect(neededOn(open, dayAt(50))).toBeUndefined();
    expect(standingOn(open, end(), dayAt(50))).toBeUndefined();
  });
});

describe('how a target stands', () => {
  // 126, 120 and 132 once are 110.25, 105 and 115.5 for five; 105 to 115.5 are 2 × 1.28155 SD, one is 4.0966
  test('ahead by so much, and how sure: 10.25 kg are 2.502 SD, 99.38 in 100', () => {
    const standing = standingOn(target(), end(), dayAt(0));
    expect(standing).toMatchObject({ verdict: 'ahead', needed: 100 });
    expect(standing?.now).toBeCloseTo(110.25, 10);
    expect(standing?.by).toBeCloseTo(10.25, 10);
    expect(standing?.chance).toBeCloseTo(0.9938, 4);
    expect([standing?.lo80, standing?.hi80]).toEqual([expect.closeTo(105, 10), expect.closeTo(115.5, 10)]);
  });

  test('behind: 9.75 kg short are 2.380 SD, 0.87 in 100', () => {
    const standing = standingOn(target(), end(), dayAt(100));
    expect(standing).toMatchObject({ verdict: 'behind', needed: 120 });
    expect(standing?.by).toBeCloseTo(-9.75, 10);
    expect(standing?.chance).toBeCloseTo(0.0087, 4);
  });

  test('on time while it cannot be told: 0.25 kg are 0.061 SD, 52.4 in 100', () => {
    const standing = standingOn(target(), end(), dayAt(50));
    expect(standing).toMatchObject({ verdict: 'on-time', needed: 110 });
    expect(standing?.chance).toBeCloseTo(0.5243, 3);
  });

  test('reached whatever today needs: 105 is the lower edge, 9 in 10 are above', () => {
    expect(standingOn(target({ goal: kg(105), start: kg(90) }), end(), dayAt(10))?.verdict).toBe('reached');
    // the chance is that of what today needs
    expect(standingOn(target({ goal: kg(105), start: kg(90) }), end(), dayAt(100))?.chance).toBeCloseTo(0.9, 6);
  });

  test('of a level that is known for sure it is one or the other', () => {
    const sure = end({ lo80: 126, hi80: 126 });
    expect(standingOn(target(), sure, dayAt(50))).toMatchObject({ verdict: 'ahead', chance: 1 });
    expect(standingOn(target(), sure, dayAt(60))).toMatchObject({ verdict: 'behind', chance: 0 });
    // just what is needed is enough
    const just = target({ start: kg(126), goal: kg(140), reps: 1 });
    expect(standingOn(just, sure, dayAt(0))).toMatchObject({ verdict: 'ahead', by: 0, chance: 1 });
  });

  test('while no level is known nothing is said', () => {
    const [first] = endsOf(FRONT_SQUAT, grown.slice(0, 2), NO_BODY);
    expect(first && standingOn(target(), first, dayAt(50))).toBeUndefined();
  });
});

describe('which target is judged by what', () => {
  const of = (exercise: string, unit: Amount['unit']): Target => target({ exercise, goal: { value: 10, unit } });

  test('loads by loads, reps by reps, degrees by degrees, each of its own exercise', () => {
    const ways = (unit: Amount['unit']) =>
      (['held', 'system', 'reps', 'degrees'] as const).filter((way) =>
        isJudgedBy(of('a', unit), { exercise: 'a', way }),
      );
    expect(ways('kg')).toEqual(['held', 'system']);
    expect(ways('lb')).toEqual(['held', 'system']);
    expect(ways('reps')).toEqual(['reps']);
    expect(ways('degrees')).toEqual(['degrees']);
    expect(isJudgedBy(of('a', 'kg'), { exercise: 'b', way: 'held' })).toBe(false);
  });

  test('of loaded pull-ups the load is what is added, and by how much is in kilograms on the belt', () => {
    const body = { share: 0.5, masses: [{ day: dayAt(0), kg: 80 }] };
    const some = Array.from({ length: 8 }, (_, n) => on(n * 3, PULL_UP, [added(20, 5, 0), added(20, 5, 0)]));
    const ends = endsOf(PULL_UP, some, body);
    const load = target({ exercise: PULL_UP.id, goal: kg(40), start: kg(30) });
    const found = findingsOf(ends, [load, of(PULL_UP.id, 'reps')], dayAt(21)).filter(({ type }) => type === 'behind');
    expect(found).toHaveLength(1);
    const [one] = found;
    if (one?.type !== 'behind') throw new Error('not behind');
    // 5 reps with nothing left, at 40 of the body and 20 added: about 20 for five; 30 + 10 × 0.21 are needed
    expect(one.standing.now).toBeGreaterThan(18);
    expect(one.standing.now).toBeLessThan(24);
    expect(one.standing.needed).toBeCloseTo(32.1, 10);
    expect(one.next).toEqual({ type: 'rethink' });
    expect(one.certainty).toBeGreaterThan(0.9);
  });

  test('of a pair the load is that in each hand', () => {
    expect(PRESS.perHand).toBe(true);
    const some = Array.from({ length: 8 }, (_, n) => on(n * 3, PRESS, [lift(30, 8, 0), lift(30, 8, 0)]));
    const [one] = endsOf(PRESS, some, NO_BODY);
    const standing =
      one && standingOn(target({ exercise: PRESS.id, goal: kg(36), start: kg(24), reps: 8 }), one, dayAt(0));
    expect(standing?.now).toBeGreaterThan(28);
    expect(standing?.now).toBeLessThan(33);
    expect(standing).toMatchObject({ needed: 24, verdict: 'ahead' });
  });

  test('degrees are judged on each side', () => {
    const some = Array.from({ length: 8 }, (_, n) =>
      on(n * 3, REACH, [
        { side: 'left', degrees: 150 },
        { side: 'right', degrees: 175 },
      ]),
    );
    const aim = target({
      exercise: REACH.id,
      goal: { value: 170, unit: 'degrees' },
      start: { value: 160, unit: 'degrees' },
    });
    const found = findingsOf(endsOf(REACH, some, NO_BODY), [aim], dayAt(21));
    expect(found.flatMap(({ type, side }) => (type === 'behind' || type === 'reached' ? [[side, type]] : []))).toEqual([
      ['left', 'behind'],
      ['right', 'reached'],
    ]);
  });
});
