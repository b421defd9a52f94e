import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { crossEducation } from '../../src/analysis/crossEducation';
import { type Attempt, learningCurve, powerLaw, sideLearning } from '../../src/analysis/learningCurve';
import { normal, seeded } from '../analysis/simRandom';
import { anyHistory, dayIn, expectFinite, forAny, inPounds, mirrored, trained } from './records';

const attempts = (values: readonly number[], from = 0): Attempt[] => values.map((value, n) => ({ n: n + from, value }));
// 5 + 5·e^(−0.1 N) for N = 0 … 10 (computed with Python)
const FALLING = [10, 9.524187, 9.093654, 8.704091, 8.3516, 8.032653, 7.744058, 7.482927, 7.246645, 7.032848, 6.839397];

describe('the exponential form (Heathcote 2000)', () => {
  test('5 + 5·e^(−0.1 N): from 10 to 6.839397 at the tenth, half of what is left in 6.931472', () => {
    const curve = learningCurve(attempts(FALLING), 'less');
    if (curve.type !== 'curve') return expect.fail(curve.type);
    expect(curve.end).toBeCloseTo(5, 3);
    expect(curve.begin).toBeCloseTo(5, 3);
    expect(curve.rate).toBeCloseTo(0.1, 4);
    expect(curve.halfLife).toBeCloseTo(6.931472, 2);
    expect(curve.off).toBeLessThan(1e-5);
    // it starts at N = 0, where a power law has no value
    expect(curve).not.toHaveProperty('power');
  });

  test('shares that rise go to their end from below', () => {
    const curve = learningCurve(attempts(FALLING.map((one) => 1 - one / 10)), 'more');
    if (curve.type !== 'curve') return expect.fail(curve.type);
    expect(curve.end).toBeCloseTo(0.5, 3);
    expect(curve.begin).toBeCloseTo(-0.5, 3);
    expect(curve.rate).toBeCloseTo(0.1, 3);
  });

  test('with scatter it is found about where it is', () => {
    const random = seeded(11);
    const values = Array.from({ length: 40 }, (_, n) => 20 + 30 * Math.exp(-0.15 * n) + normal(random));
    const curve = learningCurve(attempts(values), 'less');
    if (curve.type !== 'curve') return expect.fail(curve.type);
    expect(Math.abs(curve.end - 20)).toBeLessThan(1.5);
    expect(Math.abs(curve.rate - 0.15)).toBeLessThan(0.03);
    expect(curve.off).toBeGreaterThan(0.7);
    expect(curve.off).toBeLessThan(1.3);
  });
});

describe('the power law, for comparison (Newell and Rosenbloom 1981, the form from memory)', () => {
  // 10·N^(−0.3): 10·5^(−0.3) = 6.170339 and 10·20^(−0.3) = 4.070905; each doubling takes it to 0.812252
  const DOUBLING = [1, 2, 4, 8, 16].map((n, k) => ({ n, value: 10 * 0.812252 ** k }));
  test('through 1, 2, 4, 8 and 16 the slope is −0.3 and the start 10', () => {
    const law = powerLaw(DOUBLING);
    expect(law?.b).toBeCloseTo(-0.3, 5);
    expect(law?.a).toBeCloseTo(10, 4);
    expect((law?.a ?? 0) * 5 ** (law?.b ?? 0)).toBeCloseTo(6.170339, 4);
    expect((law?.a ?? 0) * 20 ** (law?.b ?? 0)).toBeCloseTo(4.070905, 4);
  });
  test('not through 0, and not through one N', () => {
    expect(powerLaw([...DOUBLING, { n: 0, value: 10 }])).toBeUndefined();
    expect(powerLaw([...DOUBLING, { n: 32, value: 0 }])).toBeUndefined();
    expect(
      powerLaw([
        { n: 3, value: 1 },
        { n: 3, value: 2 },
      ]),
    ).toBeUndefined();
  });
  test('it stands beside the curve', () => {
    const curve = learningCurve(attempts(FALLING, 1), 'less');
    expect(curve.type === 'curve' && curve.power && curve.power.off > curve.off).toBe(true);
  });
});

describe('no curve', () => {
  test('below six points', () => {
    expect(learningCurve(attempts(FALLING.slice(0, 5)), 'less')).toEqual({ type: 'too-few', has: 5, needs: 6 });
    const same = FALLING.slice(0, 6).map((value) => ({ n: 3, value }));
    expect(learningCurve(same, 'less')).toEqual({ type: 'too-few', has: 1, needs: 6 });
    expect(learningCurve(attempts(FALLING.slice(0, 6)), 'less').type).toBe('curve');
  });
  test('where it does not get better, or only by chance', () => {
    expect(learningCurve(attempts(FALLING), 'more')).toEqual({ type: 'no-improvement' });
    expect(learningCurve(attempts([5, 5, 5, 5, 5, 5, 5]), 'less')).toEqual({ type: 'no-improvement' });
    expect(learningCurve(attempts([5, 6, 5, 4, 6, 5, 5, 4, 6, 5]), 'less')).toEqual({ type: 'no-improvement' });
  });
  test('where it falls along a line, no end can be told', () => {
    expect(learningCurve(attempts([20, 18, 16, 14, 12, 10, 8]), 'less')).toEqual({ type: 'no-bend' });
  });
});

describe('from records', () => {
  const on = (day: number, left: readonly [number, number], right: readonly [number, number]) =>
    trained(dayIn(day), 'lib-straight-punch', [
      { side: 'left', good: left[0], tries: left[1] },
      { side: 'right', good: right[0], tries: right[1] },
      { side: 'right', tries: 9 },
    ]);
  test('the share of good ones by side, and the weaker side', () => {
    const days = [1, 4, 6, 7, 8, 8, 8].map((good, n) => on(n, [good, 10], [9, 10]));
    const told = sideLearning(days.toReversed(), 'lib-straight-punch');
    expect(told.weaker).toBe('left');
    const [left, right] = told.sides;
    expect(left?.attempts.map(({ n, value }) => [n, value])).toEqual([
      [1, 0.1],
      [2, 0.4],
      [3, 0.6],
      [4, 0.7],
      [5, 0.8],
      [6, 0.8],
      [7, 0.8],
    ]);
    expect(left?.curve.type).toBe('curve');
    expect(left?.curve.type === 'curve' && left.curve.end).toBeGreaterThan(0.78);
    expect(right?.curve).toEqual({ type: 'no-improvement' });
  });
  test('equal sides have no weaker one', () => {
    expect(sideLearning([on(0, [5, 10], [5, 10])], 'lib-straight-punch')).not.toHaveProperty('weaker');
    expect(sideLearning([], 'lib-straight-punch')).toEqual({ sides: [] });
  });
});

describe('cross-education (Manca 2017: 11.9 %, 95 % CI 9.1–14.8; upper limb 9.4)', () => {
  test('from 40 on: 44.76, for an arm 43.76', () => {
    const told = crossEducation(40);
    expect(told?.expected).toBeCloseTo(44.76, 10);
    expect(told?.low).toBeCloseTo(43.64, 10);
    expect(told?.high).toBeCloseTo(45.92, 10);
    expect(crossEducation(40, 'upper')?.expected).toBeCloseTo(43.76, 10);
    for (const none of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) expect(crossEducation(none)).toBeUndefined();
  });
});

test('for any numbers and records every number is one; order and units do not matter, and mirrored sides mirror', () => {
  const any = fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), fc.integer({ min: 0, max: 40 }));
  forAny(fc.array(fc.record({ n: any, value: any }), { maxLength: 14 }), (points) => {
    const told = learningCurve(points, 'less');
    expectFinite([told, powerLaw(points), learningCurve(points, 'more')]);
    expect(learningCurve(points.toReversed(), 'less')).toEqual(told);
  });
  forAny(
    anyHistory('lib-hop-and-hold'),
    (sessions) => {
      const told = sideLearning(sessions, 'lib-hop-and-hold');
      expectFinite(told);
      for (const records of [[...sessions, ...sessions].reverse(), inPounds(sessions)])
        expect(sideLearning(records, 'lib-hop-and-hold')).toEqual(told);
      const turned = sideLearning(mirrored(sessions), 'lib-hop-and-hold');
      const flip = { left: 'right', right: 'left' } as const;
      expect(turned.weaker && flip[turned.weaker]).toBe(told.weaker);
      for (const { side, attempts: own, curve } of told.sides)
        expect(turned.sides.find((one) => one.side === flip[side])).toEqual({ side: flip[side], attempts: own, curve });
    },
    60,
  );
});
