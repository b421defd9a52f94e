import { sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { type RepMaxFormula, repMax } from '../../src/analysis/repMax';
import { made } from './made';
import { published } from './published';

const { source, of100, of60x8, spreadPercent } = published<{
  readonly of100: Readonly<Record<RepMaxFormula, Readonly<Record<string, number>>>>;
  readonly of60x8: Readonly<Record<RepMaxFormula, number>>;
  readonly spreadPercent: Readonly<Record<string, number>>;
}>('repMax');
const formulas = Object.keys(of60x8) as RepMaxFormula[];

describe(source, () => {
  test('there are seven', () => expect(formulas).toHaveLength(7));

  test.each(
    formulas.flatMap((formula) =>
      Object.entries(of100[formula]).map(([reps, value]) => [formula, reps, value] as const),
    ),
  )('%s of 100 × %s is %s', (formula, reps, value) => {
    expect(made(repMax(formula, { load: 100, reps: Number(reps) })).value).toBeCloseTo(value, 3);
  });

  test.each(formulas)('%s of 60 × 8', (formula) => {
    // published to two decimals
    expect(Math.abs(made(repMax(formula, { load: 60, reps: 8 })).value - of60x8[formula])).toBeLessThan(0.01);
  });

  test.each(Object.entries(spreadPercent))('at %s reps they are %s %% apart (SD)', (reps, percent) => {
    const values = formulas.map((formula) => made(repMax(formula, { load: 1, reps: Number(reps) })).value);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(Math.abs((100 * sampleStandardDeviation(values)) / mean - percent)).toBeLessThan(0.051);
  });
});

describe('our own choice', () => {
  test.each(formulas)('one repetition of %s is the load itself', (formula) => {
    expect(made(repMax(formula, { load: 102.5, reps: 1 }))).toEqual({ value: 102.5, rough: false });
  });

  test('repetitions left are added to those done, half ones too', () => {
    // Epley 1985: a thirtieth for each of 8.5
    expect(made(repMax('epley', { load: 60, reps: 7, left: 1.5 })).value).toBeCloseTo(77, 9);
    // half-way from 100 to the 106.6667 of two
    expect(made(repMax('epley', { load: 100, reps: 1, left: 0.5 })).value).toBeCloseTo(103.3333, 4);
  });

  test('it is rough above ten repetitions and refused above fifteen', () => {
    expect(made(repMax('brzycki', { load: 60, reps: 10 })).rough).toBe(false);
    expect(made(repMax('brzycki', { load: 60, reps: 10, left: 0.5 })).rough).toBe(true);
    expect(made(repMax('lander', { load: 60, reps: 15 })).rough).toBe(true);
    for (const set of [
      { load: 60, reps: 16 },
      { load: 60, reps: 15, left: 0.5 },
      { load: 60, reps: 37 },
    ])
      expect(repMax('brzycki', set)).toEqual({ ok: false, error: { type: 'out-of-range', field: 'repsAndLeft' } });
  });

  test.each([
    ['load', { load: 0, reps: 5 }],
    ['load', { load: -20, reps: 5 }],
    ['load', { load: Number.NaN, reps: 5 }],
    ['load', { load: Number.MAX_VALUE, reps: 5 }],
    ['reps', { load: 60, reps: 0 }],
    ['reps', { load: 60, reps: 0, left: 3 }],
    ['reps', { load: 60, reps: 4.5 }],
    ['left', { load: 60, reps: 5, left: -1 }],
  ] as const)('no estimate where %s is out of range: %o', (field, set) => {
    for (const formula of formulas)
      expect(repMax(formula, set)).toEqual({ ok: false, error: { type: 'out-of-range', field } });
  });
});
