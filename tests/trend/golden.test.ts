import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { judgeTrend } from '../../src/analysis/trend';
import type { TrendKind } from '../../src/analysis/trendModel';
import { observe, type TrendExposure } from '../../src/analysis/trendObserve';

/*
 * The engine against another engine of the same description, in another language: what it measured and answered after each exposure.
 */

type Band = { readonly lo80: number; readonly hi80: number; readonly lo95: number; readonly hi95: number };
type Answer = Partial<Band> & {
  readonly status: 'none' | 'ok' | 'stalled';
  readonly p_stall: number;
  readonly slope: number;
  readonly slope_sd: number;
  readonly level?: number;
  readonly p_hit?: number;
  readonly ahead?: Readonly<Record<string, Band & { readonly mean: number }>>;
};
type Golden = {
  readonly histories: readonly {
    readonly input: {
      readonly id: string;
      readonly kind: TrendKind;
      readonly target: { readonly value: number; readonly day: number };
      readonly exposures: readonly TrendExposure[];
    };
    readonly observations: readonly {
      readonly y: number;
      readonly h: number;
      readonly v: number;
      readonly use: number;
    }[];
    readonly answers: readonly Answer[];
  }[];
};

const golden = JSON.parse(readFileSync(new URL('../../fixtures/trend/golden.json', import.meta.url), 'utf8')) as Golden;
const USES = ['none', 'measured', 'lower'] as const;

const byId = golden.histories.map((history) => [history.input.id, history] as const);

test('the golden file has every kind, every use and every status', () => {
  const inputs = golden.histories.map(({ input }) => input);
  expect(golden.histories).toHaveLength(32);
  expect(new Set(inputs.map(({ kind }) => kind))).toEqual(new Set(['e1rm', 'reps', 'deg']));
  const observations = golden.histories.flatMap((history) => history.observations);
  expect(observations).toHaveLength(970);
  expect(new Set(observations.map(({ use }) => use))).toEqual(new Set([0, 1, 2]));
  const answers = golden.histories.flatMap((history) => history.answers);
  expect(new Set(answers.map(({ status }) => status))).toEqual(new Set(['none', 'ok', 'stalled']));
  expect(answers.filter(({ ahead }) => ahead).length).toBeGreaterThan(700);
});

describe.each(byId)('golden history %s', (_, { input, observations, answers }) => {
  test('is measured alike', () => {
    const measured = input.exposures.map((exposure) => observe(input.kind, exposure));
    expect(measured.map(({ use }) => use)).toEqual(observations.map(({ use }) => USES[use]));
    for (const [n, { y, h, v, use }] of observations.entries()) {
      if (use === 0) continue;
      const ours = measured[n]!;
      // the file has six digits
      expect.soft(ours.y, `y of ${n}`).toBeCloseTo(y, 5);
      expect.soft(ours.h, `h of ${n}`).toBeCloseTo(h, 5);
      expect.soft(ours.v, `v of ${n}`).toBeCloseTo(v, 5);
    }
  });

  test('is judged alike', () => {
    const { kind, exposures, target } = input;
    const judged = judgeTrend({ kind, exposures, target });
    expect(judged.map(({ status }) => (status === 'watch' ? 'ok' : status))).toEqual(
      answers.map(({ status }) => status),
    );
    const far: string[] = [];
    const near = (what: string, is: number | undefined, should: number | undefined, room: number): void => {
      if (is === undefined && should === undefined) return;
      if (is === undefined || should === undefined || !(Math.abs(is - should) <= room))
        far.push(`${what}: ${is} instead of ${should}`);
    };
    // a ten-thousandth, and the digits that the file does not have
    const alike = (what: string, is: number | undefined, should: number | undefined): void =>
      near(what, is, should, 1e-4 * Math.abs(should ?? 0) + 1e-6);
    for (const [n, answer] of answers.entries()) {
      const ours = judged[n]!;
      near(`p_stall of ${n}`, ours.pStall, answer.p_stall, 1e-5);
      near(`p_hit of ${n}`, ours.pHit, answer.p_hit, 1e-5);
      near(`slope of ${n}`, ours.slopePerWeek, answer.slope, 1e-4);
      near(`slope_sd of ${n}`, ours.slopeSd, answer.slope_sd, 1e-4);
      for (const edge of ['level', 'lo80', 'hi80', 'lo95', 'hi95'] as const)
        alike(`${edge} of ${n}`, ours[edge], answer[edge]);
      for (const weeks of ['2', '4', '8'])
        for (const edge of ['mean', 'lo80', 'hi80', 'lo95', 'hi95'] as const)
          alike(`${edge} ${weeks} weeks after ${n}`, ours.ahead?.[weeks]?.[edge], answer.ahead?.[weeks]?.[edge]);
    }
    expect(far).toEqual([]);
  });
});
