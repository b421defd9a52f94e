import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { leftAt, oneRepMax, repRatio, shareOfMax } from '../../src/analysis/oneRepMax';
import { repMax } from '../../src/analysis/repMax';
import { cusum } from '../../src/analysis/stats/cusum';
import { ewma, ewmaChart, weightOfDays } from '../../src/analysis/stats/ewma';
import { levelAhead, localLevel, localTrend } from '../../src/analysis/stats/kalman';
import { mannKendall } from '../../src/analysis/stats/mannKendall';
import { median } from '../../src/analysis/stats/median';
import { normalCdf, normalDensity } from '../../src/analysis/stats/normal';
import { theilSen } from '../../src/analysis/stats/theilSen';
import { bodyShare, systemLoad } from '../../src/domain/bodyShare';

/** Fails where a number in an answer is NaN or infinite. */
function expectFinite(answer: unknown): void {
  if (typeof answer === 'number' && !Number.isFinite(answer)) expect.fail(`${answer} came out`);
  if (typeof answer === 'object' && answer !== null) for (const part of Object.values(answer)) expectFinite(part);
}

// every finite number, the huge and the tiny ones too, and often one from a log
const finite = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: 0, max: 200, noNaN: true }),
  fc.integer({ min: -5, max: 40 }),
  fc.constantFrom(Number.MAX_VALUE, -Number.MAX_VALUE, Number.MIN_VALUE, 0, -0, Number.MAX_SAFE_INTEGER),
);
const many = fc.array(finite, { maxLength: 15 });
const points = fc.array(fc.record({ x: finite, y: finite }), { maxLength: 15 });
const effort = fc.record({ load: finite, reps: finite, left: finite });

const holds = <T>(inputs: fc.Arbitrary<T>, answers: (input: T) => unknown): void =>
  fc.assert(
    fc.property(inputs, (input) => expectFinite(answers(input))),
    { numRuns: 2000 },
  );

test('estimates of one repetition', () => {
  const formula = fc.constantFrom('epley', 'brzycki', 'lander', 'lombardi', 'mayhew', 'oconner', 'wathan');
  holds(fc.tuple(formula, effort), ([name, set]) => repMax(name, set));
  holds(fc.tuple(effort, finite), ([set, dayCv]) => oneRepMax(set, { dayCv }));
  holds(fc.tuple(finite, finite), ([reps, rpe]) => [shareOfMax(reps, rpe), leftAt(rpe), repRatio(reps)]);
});

test("what is moved with one's own body", () => {
  const kg = finite.map((value) => ({ value, unit: 'kg' }) as const);
  const exercise = fc.constantFrom('lib-pull-up', 'lib-back-squat', 'lib-push-up');
  holds(fc.tuple(exercise, kg, kg, kg), ([id, mass, added, assist]) =>
    systemLoad(bodyShare(id, undefined), mass, { added, assist }),
  );
});

test('trends', () => {
  holds(points, (series) => [theilSen(series), theilSen(series, { confidence: 0.5 }), mannKendall(series)]);
  holds(many, (values) => median(values));
  expect(median([Number.MAX_VALUE, Number.MAX_VALUE / 2])).toBe(0.75 * Number.MAX_VALUE);
});

test('charts', () => {
  holds(fc.tuple(many, finite, finite, finite), ([values, target, slack, limit]) =>
    cusum(values, { target, slack, limit }),
  );
  const weight = fc.oneof(finite, fc.double({ min: 0, max: 1, noNaN: true }));
  holds(fc.tuple(many, weight, finite, finite, finite), ([values, part, target, sd, width]) => [
    ewma(values, { weight: part }),
    ewma(values, { weight: part, start: target }),
    ewmaChart(values, { weight: part, target, sd, width }),
    weightOfDays(target),
  ]);
});

test('filters', () => {
  const day = fc.oneof(finite, fc.integer({ min: 0, max: 300 }));
  const rows = fc
    .array(fc.record({ at: day, value: finite, variance: finite }), { maxLength: 12 })
    // half of them in order, or hardly any would be filtered
    .chain((all) =>
      fc.constantFrom(
        all,
        all.toSorted((a, b) => a.at - b.at),
      ),
    );
  holds(fc.tuple(rows, finite, finite, day), ([observed, level, slope, ahead]) => {
    const filtered = [localLevel(observed, { level }), localTrend(observed, { level, slope })];
    const later = filtered.flatMap((one) => {
      const last = one.ok ? one.value.at(-1) : undefined;
      return last ? [levelAhead(last, ahead, { level, slope })] : [];
    });
    return [filtered, later];
  });
});

test('the normal distribution', () => holds(finite, (z) => [normalCdf(z), normalDensity(z)]));
