import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { judgeTrend } from '../../src/analysis/trend';
import { MODEL, type TrendKind, type TrendModel } from '../../src/analysis/trendModel';
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
    expect(unlike({ input, answers })).toEqual([]);
  });
});

type Judged = Pick<Golden['histories'][number], 'input' | 'answers'>;

/** Returns what the engine answers otherwise than it should, one short sentence each. */
function unlike({ input, answers }: Judged, model: TrendModel = MODEL): string[] {
  const { kind, exposures, target } = input;
  const judged = judgeTrend({ kind, exposures, target }, { model });
  const far: string[] = [];
  const near = (what: string, is: number | undefined, should: number | undefined, room: number): void => {
    if (is === undefined && should === undefined) return;
    if (is === undefined || should === undefined || !(Math.abs(is - should) <= room))
      far.push(`${what}: ${is} instead of ${should}`);
  };
  // a ten-thousandth, and the digits that the file does not have
  const alike = (what: string, is: number | undefined, should: number | undefined): void =>
    near(what, is, should, 1e-4 * Math.abs(should ?? 0) + 1e-6);
  if (judged.length !== answers.length) far.push(`${judged.length} judgements instead of ${answers.length}`);
  for (const [n, answer] of answers.entries()) {
    const ours = judged[n];
    const status = ours?.status === 'watch' ? 'ok' : ours?.status;
    if (status !== answer.status) far.push(`status of ${n}: ${status} instead of ${answer.status}`);
    near(`p_stall of ${n}`, ours?.pStall, answer.p_stall, 1e-5);
    near(`p_hit of ${n}`, ours?.pHit, answer.p_hit, 1e-5);
    near(`slope of ${n}`, ours?.slopePerWeek, answer.slope, 1e-4);
    near(`slope_sd of ${n}`, ours?.slopeSd, answer.slope_sd, 1e-4);
    for (const edge of EDGES) alike(`${edge} of ${n}`, ours?.[edge], answer[edge]);
    for (const weeks of ['2', '4', '8'])
      for (const edge of ['mean', ...EDGES_ALONE] as const)
        alike(`${edge} ${weeks} weeks after ${n}`, ours?.ahead?.[weeks]?.[edge], answer.ahead?.[weeks]?.[edge]);
  }
  return far;
}

const EDGES_ALONE = ['lo80', 'hi80', 'lo95', 'hi95'] as const;
const EDGES = ['level', ...EDGES_ALONE] as const;

/** Each number of a model by its path, with the model in which it is a hundredth more. */
function nudged(of: object, path = ''): { readonly path: string; readonly nudge: (model: object) => void }[] {
  return Object.entries(of).flatMap(([key, value]: [string, unknown]) => {
    const inner = (model: object): unknown => Reflect.get(model, key);
    if (typeof value === 'number')
      return [{ path: `${path}${key}`, nudge: (model: object) => Reflect.set(model, key, value * 1.01 || 0.01) }];
    if (typeof value !== 'object' || value === null) return [];
    return nudged(value, `${path}${key}.`).map(({ path: full, nudge }) => ({
      path: full,
      nudge: (model: object) => nudge(inner(model) as object),
    }));
  });
}

/** No golden history is so long away; `kept` counts whole hypotheses. */
const UNSEEN = ['gap.mostDays', 'kept'];
const numbers = nudged(MODEL).filter(({ path }) => !UNSEEN.includes(path));

test('every number of the model counts', () => expect(numbers.length).toBeGreaterThanOrEqual(30));

test.each(numbers)('$path a hundredth more is found', ({ nudge }) => {
  const model = structuredClone(MODEL);
  nudge(model);
  expect(golden.histories.some((history) => unlike(history, model).length > 0)).toBe(true);
});

test('one hypothesis more or less is found', () => {
  for (const kept of [2, 4])
    expect(golden.histories.some((history) => unlike(history, { ...MODEL, kept }).length > 0)).toBe(true);
});
