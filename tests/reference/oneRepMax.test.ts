import { describe, expect, test } from 'vitest';
import { leftAt, oneRepMax, repRatio, shareOfMax } from '../../src/analysis/oneRepMax';
import { made } from './made';
import { published } from './published';

describe('the default estimate (our own choice, of Epley 1985 and Brzycki 1993), computed with Python', () => {
  // load, reps, left, estimate, within, total, SD of the total in units of the load
  test.each([
    [100, 1, 0, 100, 0.0383, 0.0383, 3.83],
    [60, 8, 2, 80, 0.04543, 0.07211, 5.769],
    [100, 5, 1.5, 119.8497, 0.04141, 0.05898, 7.069],
    [50, 10, 3, 73.3333, 0.08548, 0.10923, 8.01],
  ])('%s × %s with %s left', (load, reps, left, value, within, total, sd) => {
    const estimate = made(oneRepMax({ load, reps, left }));
    expect(estimate.value).toBeCloseTo(value, 4);
    expect(Math.abs(estimate.within - within)).toBeLessThan(6e-6);
    expect(Math.abs(estimate.total - total)).toBeLessThan(6e-6);
    expect(Math.abs(estimate.total * estimate.value - sd)).toBeLessThan(6e-4);
  });

  test('half a repetition left at one is half-way to two', () => {
    expect(made(repRatio(2))).toBeCloseTo(1.047619, 6);
    expect(made(oneRepMax({ load: 200, reps: 1, left: 0.5 })).value).toBeCloseTo(204.7619, 4);
  });

  test('is valid to twelve repetitions, rough to fifteen, and none above', () => {
    expect(made(oneRepMax({ load: 60, reps: 12 })).rough).toBe(false);
    expect(made(oneRepMax({ load: 60, reps: 12, left: 0.5 })).rough).toBe(true);
    expect(made(oneRepMax({ load: 60, reps: 15 })).rough).toBe(true);
    const tooMany = { ok: false, error: { type: 'out-of-range', field: 'repsAndLeft' } };
    expect(oneRepMax({ load: 60, reps: 15, left: 0.5 })).toEqual(tooMany);
    expect(repRatio(15.5)).toEqual(tooMany);
    expect(repRatio(0.5)).toEqual(tooMany);
  });

  test("takes the athlete's own variation from day to day", () => {
    // a single with nothing left: √((0.047619 × 0.5)² + 0.01²), by a calculator
    const single = made(oneRepMax({ load: 100, reps: 1 }, { dayCv: 0.01 }));
    expect(single.within).toBeCloseTo(0.025824, 6);
    expect(single.total).toBe(single.within);
    for (const dayCv of [-0.01, 1.1, Number.NaN])
      expect(oneRepMax({ load: 100, reps: 1 }, { dayCv })).toEqual({
        ok: false,
        error: { type: 'out-of-range', field: 'dayCv' },
      });
  });

  test.each([
    ['load', { load: 0, reps: 5 }],
    ['load', { load: 1.7e308, reps: 5 }],
    ['reps', { load: 60, reps: 0 }],
    ['left', { load: 60, reps: 5, left: -0.5 }],
  ] as const)('there is none where %s is out of range: %o', (field, set) =>
    expect(oneRepMax(set)).toEqual({ ok: false, error: { type: 'out-of-range', field } }),
  );
});

const nsca = published<{ readonly percentByReps: Readonly<Record<string, number>> }>('percentOfMax');
describe(nsca.source, () => {
  test.each(Object.entries(nsca.percentByReps))('%s reps at %s %% agree within one hundredth', (reps, percent) => {
    const share = made(shareOfMax(Number(reps), 10)).share;
    expect(Math.abs((100 * share) / percent - 1)).toBeLessThan(0.01);
  });
});

describe('percent of the maximum by repetitions and RPE (derived by us, computed with Python)', () => {
  const reps = [1, 2, 3, 4, 5, 6, 8, 10];
  const table: readonly (readonly [number, readonly number[]])[] = [
    [10, [100, 95.5, 92.6, 89.9, 87.3, 84.7, 79.7, 75]],
    [9, [95.5, 92.6, 89.9, 87.3, 84.7, 82.2, 77.3, 72.7]],
    [8, [92.6, 89.9, 87.3, 84.7, 82.2, 79.7, 75, 70.4]],
    [8.5, [94, 91.3, 88.6, 86, 83.4, 81, 76.2, 71.6]],
  ];
  test.each(table)('at RPE %s', (rpe, percents) => {
    const ours = reps.map((n) => made(shareOfMax(n, rpe)));
    for (const [n, { share, rough }] of ours.entries()) {
      expect(Math.abs(100 * share - (percents[n] ?? 0))).toBeLessThan(0.0501);
      expect(rough).toBe(false);
    }
  });

  test('is rough above twelve repetitions in all, none above fifteen, nor below RPE 5', () => {
    expect(made(shareOfMax(10, 7)).rough).toBe(true);
    expect(shareOfMax(12, 6)).toEqual({ ok: false, error: { type: 'out-of-range', field: 'repsAndLeft' } });
    expect(shareOfMax(5, 4.5)).toEqual({ ok: false, error: { type: 'out-of-range', field: 'rpe' } });
    expect(shareOfMax(0, 8)).toEqual({ ok: false, error: { type: 'out-of-range', field: 'reps' } });
  });
});

describe('Zourdos 2021, Journal of Strength and Conditioning Research 35:S158', () => {
  test.each([
    [5, 5],
    [7, 3],
    [9, 1],
  ])('RPE %s is %s left', (rpe, left) => expect(made(leftAt(rpe))).toBe(left));

  test.each([10.5, 4.5, 1, Number.NaN])('nothing is told at RPE %s', (rpe) => expect(leftAt(rpe).ok).toBe(false));
});

describe('what a goal of nine instead of four repetitions asks for (computed with Python)', () => {
  test('16.25 % more', () => expect(100 * (made(repRatio(9)) / made(repRatio(4)) - 1)).toBeCloseTo(16.25, 2));

  test('70 kg man: 74.3764 kg at four pull-ups, 86.4637 kg at nine', () => {
    const system = 66.878;
    expect(made(oneRepMax({ load: system, reps: 4 })).value).toBeCloseTo(74.3764, 3);
    expect(made(oneRepMax({ load: system, reps: 9 })).value).toBeCloseTo(86.4637, 3);
  });
});
