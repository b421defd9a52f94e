import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Judgement, judge, judgeTrend, type TrendQuestion } from '../../src/analysis/trend';
import { advance, type TrendState } from '../../src/analysis/trendFilter';
import { fromUnits, type TrendKind, toUnits } from '../../src/analysis/trendModel';
import { observe, type TrendExposure } from '../../src/analysis/trendObserve';
import { frozen, unsayable } from './walk';

const lift = (day: number, load: number, reps = 5, rir = 2): TrendExposure => ({
  day,
  deload: false,
  sets: [{ load, reps, rir }],
});
const judged = (exposures: readonly TrendExposure[], more: Partial<TrendQuestion> = {}): readonly Judgement[] =>
  judgeTrend({ kind: 'e1rm', exposures, ...more });
const last = (exposures: readonly TrendExposure[], more: Partial<TrendQuestion> = {}): Judgement => {
  const one = judged(exposures, more).at(-1);
  if (!one) throw new Error('nothing judged');
  return one;
};
/** Returns what is known after exposures. */
const known = (kind: TrendKind, exposures: readonly TrendExposure[]): TrendState | undefined =>
  exposures.reduce<TrendState | undefined>(
    (state, one) => advance(state, kind, one.day, observe(kind, one)),
    undefined,
  );
const knownOf = (exposures: readonly TrendExposure[]): TrendState => {
  const state = known('e1rm', exposures);
  if (!state) throw new Error('nothing known');
  return state;
};
/** Returns the mean of a level, and its variance, over all hypotheses. */
function levelOf({ levels }: TrendState): { readonly mean: number; readonly variance: number } {
  const all = levels.flat();
  const mean = all.reduce((sum, one) => sum + one.weight * one.level, 0);
  return { mean, variance: all.reduce((sum, one) => sum + one.weight * (one.ll + (one.level - mean) ** 2), 0) };
}
const weights = ({ levels }: TrendState): number => levels.flat().reduce((sum, one) => sum + one.weight, 0);

describe('what a session is measured as', () => {
  test('a single rep with nothing left is half a rep more: 100 kg are 100 × (1 + 0.5/28)', () => {
    const { y, use } = observe('e1rm', lift(0, 100, 1, 0));
    expect([fromUnits('e1rm', y), use]).toEqual([expect.closeTo(101.785714, 5), 'measured']);
  });

  test('sets weigh by how sure they are, each corrected for those before it', () => {
    const sets = [
      { load: 100, reps: 5, rir: 2 },
      { load: 100, reps: 5, rir: 2 },
    ];
    // 7 and 7.4 reps: 100 × (1 + 6/28) = 121.43 kg, 100 × (1 + 6.4/28) = 122.86 kg
    const kg = fromUnits('e1rm', observe('e1rm', { day: 0, deload: false, sets }).y);
    expect(kg).toBeGreaterThan(121.43);
    expect(kg).toBeLessThan(122.86);
    const unsure = observe('e1rm', { day: 0, deload: false, sets: sets.map((one) => ({ ...one, unsure: 1.5 })) });
    // (0.9² + 1.5²) / 0.9² = 3.78 times the variance
    expect(unsure.v / observe('e1rm', { day: 0, deload: false, sets }).v).toBeCloseTo(3.7777778, 6);
  });

  test('what tells nothing is not measured by', () => {
    const none = (exposure: object, kind: TrendKind = 'e1rm') =>
      observe(kind, { day: 0, deload: false, ...exposure } as TrendExposure).use;
    expect(none({ sets: [] })).toBe('none');
    expect(none({ sets: [{ load: 0, reps: 5, rir: 2 }] })).toBe('none');
    expect(none({ sets: [{ load: 100, reps: 0, rir: 2 }] })).toBe('none');
    expect(none({ sets: [{ load: 100, reps: 5, rir: 2 }], deload: true })).toBe('none');
    expect(none({ sets: [{ load: 100, reps: 5, rir: 2 }] }, 'deg')).toBe('none');
    // of reps, none at all is a number too
    expect(none({ sets: [{ load: 0, reps: 0, rir: 0 }] }, 'reps')).toBe('measured');
    expect(none({ value: Number.NaN }, 'deg')).toBe('none');
    // degrees of a lift, and what is beyond any body
    expect(none({ value: 95 })).toBe('none');
    for (const slip of [
      { load: 1e308, reps: 5, rir: 2 },
      { load: 1e-200, reps: 5, rir: 2 },
      { load: 100, reps: 1e300, rir: 2 },
      { load: 100, reps: 5, rir: 1e300 },
    ])
      expect(none({ sets: [slip] }), JSON.stringify(slip)).toBe('none');
    expect(none({ value: -1e155 }, 'deg')).toBe('none');
  });

  test('it is a lower bound only where all of its sets are', () => {
    const use = (...rirs: readonly number[]) =>
      observe('e1rm', { day: 0, deload: false, sets: rirs.map((rir) => ({ load: 100, reps: 5, rir })) }).use;
    expect([use(4.5, 5), use(4.5, 4)]).toEqual(['lower', 'measured']);
    const told = { load: 100, reps: 5, rir: 4, atLeast: true };
    expect(observe('e1rm', { day: 0, deload: false, sets: [told] }).use).toBe('lower');
  });
});

describe('one session after the other', () => {
  test('the first is all there is: its level, told from nothing else, and no status', () => {
    const one = knownOf([lift(0, 100)]);
    // 7 reps: 100 × (1 + 6/28) = 121.43 kg, and a little more, since it may have been a bad day
    expect(fromUnits('e1rm', levelOf(one).mean)).toBeGreaterThan(121.43);
    expect(fromUnits('e1rm', levelOf(one).mean)).toBeLessThan(122.5);
    expect(last([lift(0, 100)])).toMatchObject({ status: 'none' });
    expect(last([lift(0, 100)])).not.toHaveProperty('level');
    expect(weights(one)).toBeCloseTo(1, 12);
  });

  test('of unusable ones nothing is known, and the first usable one after them begins', () => {
    const idle: TrendExposure = { day: 3, deload: false, sets: [] };
    const light: TrendExposure = { day: 5, deload: true, sets: [{ load: 60, reps: 5, rir: 4 }] };
    expect(known('e1rm', [idle, light])).toBeUndefined();
    const before = judged([idle, light]);
    expect(before.map(({ status }) => status)).toEqual(['none', 'none']);
    // what is believed of anyone: 0.85 × 0.8 a week
    expect(before.map(({ slopePerWeek }) => slopePerWeek)).toEqual([
      expect.closeTo(0.68, 12),
      expect.closeTo(0.68, 12),
    ]);
    expect(known('e1rm', [idle, light, lift(9, 100)])).toEqual(known('e1rm', [lift(9, 100)]));
  });

  test('two of one day come no time apart: no regime switches, and the level is surer', () => {
    const [one, two] = [knownOf([lift(0, 100)]), knownOf([lift(0, 100), lift(0, 100)])];
    expect(two.levels.map((level) => level.length)).toEqual([2, 2, 2, 2]);
    expect(levelOf(two).variance).toBeLessThan(levelOf(one).variance);
    expect(two).toMatchObject({ sessions: 2, used: 2, firstDay: 0, lastDay: 0 });
    // an earlier day, by a clock that was wrong, is that day too
    expect(knownOf([lift(9, 100), lift(2, 100)])).toMatchObject({ firstDay: 9, lastDay: 9 });
  });

  test('a deload lets time go by and takes nothing in, whatever it held', () => {
    const deload = (load: number): TrendExposure => ({ day: 14, deload: true, sets: [{ load, reps: 5, rir: 2 }] });
    const some = [0, 3, 7, 10].map((day) => lift(day, 100));
    const [light, heavy] = [knownOf([...some, deload(60)]), knownOf([...some, deload(400)])];
    expect(light).toEqual(heavy);
    expect(light).toMatchObject({ sessions: 5, used: 4, lastDay: 14 });
  });

  test('a lower bound under what was expected changes nothing but the time; above it, it counts', () => {
    const some = [0, 3, 7, 10].map((day) => lift(day, 100));
    const bound = (load: number): TrendExposure => lift(14, load, 5, 4.5);
    const idle: TrendExposure = { day: 14, deload: false, sets: [] };
    expect(knownOf([...some, bound(60)])).toEqual(knownOf([...some, idle]));
    const above = knownOf([...some, bound(140)]);
    expect(above.used).toBe(5);
    expect(levelOf(above).mean).toBeGreaterThan(levelOf(knownOf([...some, idle])).mean);
  });

  test('a gap of more than eight days costs a tenth of a per cent a day, and what is known grows unsure', () => {
    const some = Array.from({ length: 10 }, (_, n) => lift(n * 3, 100));
    const idle = (days: number): TrendState => knownOf([...some, { day: 27 + days, deload: false, sets: [] }]);
    const [short, long] = [levelOf(idle(8)), levelOf(idle(38))];
    // 30 days × 0.1, against at most 1.5 % a week that may still be gained in 4.3 weeks
    expect(long.mean - short.mean).toBeLessThan(0);
    // 30 days × 0.25 as an SD
    expect(long.variance).toBeGreaterThan(7.5 ** 2);
    expect(short.variance).toBeLessThan(7.5 ** 2);
  });

  test.each([120, 800, 36_500, 1_000_000])(
    'after %i days without it all is defined, and what comes next is believed',
    (days) => {
      const some = Array.from({ length: 12 }, (_, n) => lift(n * 3, 100 + n));
      const again = Array.from({ length: 6 }, (_, n) => lift(33 + days + n * 3, 70));
      const answers = judged([...some, ...again], { target: { value: 140, day: 33 + days + 60 } });
      expect(unsayable(answers)).toEqual([]);
      // 70 × (1 + 6/28) = 85 kg
      expect(answers.at(-1)?.level).toBeGreaterThan(80);
      expect(answers.at(-1)?.level).toBeLessThan(90);
    },
  );

  test('of the same again and again the level is that, the slope goes to nothing, and it is called stalled', () => {
    const same = Array.from({ length: 30 }, (_, n) => lift(n * 4, 100));
    const answer = last(same);
    expect(answer.status).toBe('stalled');
    expect(Math.abs(answer.slopePerWeek)).toBeLessThan(0.1);
    expect(answer.level).toBeGreaterThan(119);
    expect(answer.level).toBeLessThan(124);
    for (const kind of ['reps', 'deg'] as const) {
      const still = Array.from(
        { length: 30 },
        (_, n): TrendExposure => (kind === 'deg' ? { day: n * 4, deload: false, value: 150 } : lift(n * 4, 0, 10, 1)),
      );
      expect(last(still, { kind }).status, kind).toBe('stalled');
    }
  });

  test('of one per cent more each week it is growing, by about that', () => {
    const more = Array.from({ length: 24 }, (_, n) => lift(n * 3.5, 100 * 1.01 ** (n / 2)));
    const answer = last(more);
    expect(answer.status).toBe('ok');
    expect(answer.slopePerWeek).toBeGreaterThan(0.5);
    expect(answer.slopePerWeek).toBeLessThan(1.1);
  });

  test('a target that is far above is hardly reached, one far below surely; of nothing, always', () => {
    const some = Array.from({ length: 12 }, (_, n) => lift(n * 3, 100));
    const chance = (value: number, day: number) => last(some, { target: { value, day } }).pHit;
    expect(chance(300, 61)).toBeLessThan(0.001);
    expect(chance(60, 61)).toBeGreaterThan(0.999);
    expect(chance(0, 61)).toBe(1);
    // its day is past: it is asked of today
    expect(chance(122, -500)).toBe(chance(122, 33));
  });
});

describe('units', () => {
  test('there and back is the same; below no reps there is nothing', () => {
    for (const [kind, value] of [
      ['e1rm', 100],
      ['reps', 12],
      ['deg', -20],
    ] as const)
      expect(fromUnits(kind, toUnits(kind, value))).toBeCloseTo(value, 10);
    expect(fromUnits('reps', -50)).toBe(0);
    // 100 ln(1 + 30/30) = 69.31
    expect(toUnits('reps', 30)).toBeCloseTo(69.314718, 6);
  });
});

/** Numbers as a log holds them, and all others that a file may hold. */
const upTo = (most: number) =>
  fc.oneof(
    { weight: 4, arbitrary: fc.double({ min: 0, max: most, noNaN: true }) },
    { weight: 1, arbitrary: fc.double({ min: 0, noNaN: true, noDefaultInfinity: true }) },
    { weight: 1, arbitrary: fc.constantFrom(0, Number.MIN_VALUE, 1e-3, 1e4, 1e5, 1e160, Number.MAX_VALUE) },
  );
const anySet = fc.record(
  { load: upTo(600), reps: upTo(30), rir: upTo(6), atLeast: fc.boolean(), unsure: upTo(3) },
  { requiredKeys: ['load', 'reps', 'rir'] },
);
const anyValue = fc.oneof(
  fc.double({ min: -90, max: 360, noNaN: true }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.constantFrom(1e4, -1e4, 1e160, -1e160, Number.MAX_VALUE, -Number.MAX_VALUE, 0),
);
const deload = fc.boolean();
const ofSets = fc.record({ day: upTo(900), deload, sets: fc.array(anySet, { maxLength: 4 }) });
const ofDegrees = fc.record({ day: upTo(900), deload, value: anyValue });
const kindOf = fc.constantFrom<TrendKind>('e1rm', 'reps', 'deg');
const anyQuestion: fc.Arbitrary<TrendQuestion> = fc.record(
  {
    kind: kindOf,
    exposures: fc
      .array(fc.oneof({ weight: 2, arbitrary: ofSets }, { weight: 1, arbitrary: ofDegrees }), { maxLength: 14 })
      // most files are in order
      .chain((some) =>
        fc.constantFrom(
          some,
          some.toSorted((a, b) => a.day - b.day),
        ),
      ),
    target: fc.record({ value: anyValue, day: anyValue }),
    aheadWeeks: fc.array(anyValue, { minLength: 1, maxLength: 2 }),
  },
  { requiredKeys: ['kind', 'exposures'] },
);

const holds = (runs: number, claim: (question: TrendQuestion, cut: number) => void): void =>
  fc.assert(fc.property(anyQuestion, fc.nat(14), claim), { numRuns: runs });

describe('whatever is logged', () => {
  test('no number is NaN or infinite', () =>
    holds(1000, (question) => {
      expect(unsayable(judgeTrend(question))).toEqual([]);
    }));

  test('later sessions never change an earlier answer, and the last one alone is the last of all', () =>
    holds(300, (question, cut) => {
      const { exposures } = question;
      const all = judgeTrend(question);
      expect(all).toHaveLength(exposures.length);
      expect(judgeTrend({ ...question, exposures: exposures.slice(0, cut) })).toEqual(all.slice(0, cut));
      expect(judgeTrend(question, { last: true })).toEqual(all.slice(-1));
    }));

  test('one session more is worked out from what was known, which stays as it was', () =>
    holds(300, (question) => {
      const { kind, exposures, ...asked } = question;
      let state: TrendState | undefined;
      const answers = exposures.map((one) => {
        state = advance(frozen(state), kind, one.day, frozen(observe(kind, one)));
        return judge(frozen(state), one.day, asked);
      });
      expect(answers).toEqual(judgeTrend(question));
      if (state) expect(weights(state)).toBeCloseTo(1, 9);
    }));

  test('chances are between 0 and 1, and bands in their order', () =>
    holds(300, (question) => {
      for (const { pStall, pHit = 0, level, lo80, hi80, lo95, hi95 } of judgeTrend(question)) {
        for (const chance of [pStall, pHit]) expect(chance >= 0 && chance <= 1).toBe(true);
        if (level === undefined) continue;
        const edges = [lo95, lo80, hi80, hi95];
        expect(edges).toEqual(edges.toSorted((a, b) => (a ?? 0) - (b ?? 0)));
      }
    }));
});
