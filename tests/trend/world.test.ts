import { describe, expect, test } from 'vitest';
import { parseHistories } from '../../src/domain/histories';
import { figuresOf } from './figures';
import type { PresetName } from './preset';
import { type History, histories } from './world';

const world = (preset: PresetName, count = 900): readonly History[] => histories({ seed: 11, preset, count }).histories;

test('a seed gives the same histories, and more of them begin with the same ones', () => {
  const few = histories({ seed: 3, preset: 'base', count: 12 });
  expect(histories({ seed: 3, preset: 'base', count: 30 }).histories.slice(0, 12)).toEqual(few.histories);
  expect(histories({ seed: 4, preset: 'base', count: 12 }).histories[0]?.exposures).not.toEqual(
    few.histories[0]?.exposures,
  );
});

test('they are a file of histories', () => {
  const file: unknown = JSON.parse(JSON.stringify(histories({ seed: 3, preset: 'base', count: 12 })));
  const read = parseHistories(file);
  expect(read.ok && read.value.map(({ kind }) => kind)).toEqual(
    Array.from({ length: 2 }, () => ['e1rm', 'e1rm', 'e1rm', 'e1rm', 'reps', 'deg']).flat(),
  );
});

test('what is asked for is given', () => {
  const { histories: asked } = histories({ seed: 3, preset: 'easy', count: 40, perWeek: 3, kind: 'reps' });
  expect(new Set(asked.map(({ kind, per_week }) => `${kind} ${per_week}`))).toEqual(new Set(['reps 3']));
  const inWeeks = asked.flatMap(({ exposures }) => exposures.map(({ day }, n) => `${n}/${Math.floor(day / 7)}`));
  expect(inWeeks.length).toBeGreaterThan(1000);
});

describe.each(['base', 'easy', 'hard', 'stress'] as const)('the truth of the %s world', (preset) => {
  const all = world(preset, 120);

  test('says of each day what it is', () => {
    for (const { kind, truth } of all) {
      for (const [day, letter] of [...truth.state].entries()) {
        const [today, tomorrow] = [truth.level[day]!, truth.level[day + 1]];
        if (tomorrow === undefined) continue;
        const gained =
          kind === 'deg'
            ? tomorrow - today
            : 100 * Math.log(kind === 'e1rm' ? tomorrow / today : (30 + tomorrow) / (30 + today));
        const isLighter = truth.deload_weeks.includes(Math.floor(day / 7));
        const perWeek = 7 * gained * (isLighter ? 2 : 1);
        if (letter === 'P') expect(perWeek).toBeGreaterThan(0.5 - 1e-9);
        if (letter === 'S') expect(perWeek).toBeLessThan(0.15);
        if (letter === 'G') expect(Math.abs(perWeek - 0.325)).toBeLessThanOrEqual(0.175 + 1e-9);
      }
    }
  });

  test('is not what sessions are held in: days rise, none of them away, lighter weeks noted only where they are', () => {
    for (const { exposures, truth } of all) {
      expect(exposures.every(({ day }, n) => n === 0 || day > exposures[n - 1]!.day)).toBe(true);
      const [from, to] = truth.layoff ?? [0, 0];
      expect(exposures.filter(({ day }) => day >= from && day < to)).toEqual([]);
      const noted = exposures.filter(({ deload }) => deload).map(({ day }) => Math.floor(day / 7));
      expect(noted.every((week) => truth.deload_weeks.includes(week))).toBe(true);
      expect(truth.bad_days.every((bad) => exposures.some(({ day }) => day === bad))).toBe(true);
    }
  });

  test('tells whether the target was reached', () => {
    expect(all.map(({ truth }) => truth.hit)).toEqual(
      all.map(({ target, truth }) => truth.level.at(-1)! >= target.value),
    );
  });
});

test('a target knows nothing of what comes', () => {
  const all = world('base').filter(({ kind }) => kind !== 'e1rm');
  const wished = (stalls: boolean): number[] =>
    all
      .filter(({ truth }) => (truth.plateau_day !== null) === stalls)
      .map(({ kind, target, truth }) => {
        const start = truth.level[0]!;
        const u = kind === 'deg' ? target.value - start : 100 * Math.log((30 + target.value) / (30 + start));
        return u / (1 - Math.exp(-target.day / 210));
      });
  const mean = (of: readonly number[]): number => of.reduce((sum, each) => sum + each, 0) / of.length;
  // spread 9 among 135 and 165 of them: three standard errors
  expect(Math.abs(mean(wished(true)) - mean(wished(false)))).toBeLessThan(3.1);
});

describe('the worlds are as they were described', () => {
  const base = figuresOf(world('base'));
  const easy = figuresOf(world('easy'));

  test('their noise: best set, and all sets less the rep curve', () => {
    const [low, middle, high] = base.noiseBest;
    expect(Math.abs(middle! - 3.4)).toBeLessThan(0.2);
    expect(Math.abs(low! - 2.4)).toBeLessThan(0.3);
    expect(Math.abs(high! - 4.4)).toBeLessThan(0.3);
    const [lowAll, middleAll, highAll] = base.noiseAll;
    expect(Math.abs(middleAll! - 2.9)).toBeLessThan(0.2);
    expect(Math.abs(lowAll! - 2)).toBeLessThan(0.3);
    expect(Math.abs(highAll! - 3.8)).toBeLessThan(0.3);
    expect(Math.abs(easy.noiseBest[1]! - 2.7)).toBeLessThan(0.2);
    expect(Math.abs(easy.noiseAll[1]! - 2.2)).toBeLessThan(0.2);
    const [hard, stress] = [figuresOf(world('hard', 500)), figuresOf(world('stress', 500))];
    expect(Math.abs(hard.noiseBest[1]! - 4.5)).toBeLessThan(0.25);
    expect(Math.abs(hard.noiseAll[1]! - 3.8)).toBeLessThan(0.25);
    expect(Math.abs(stress.noiseBest[1]! - 4.1)).toBeLessThan(0.25);
    expect(Math.abs(stress.noiseAll[1]! - 3.5)).toBeLessThan(0.25);
  });

  test('how long they are, how often they stall, and how people train', () => {
    // three standard errors of a share of 900 are 0.05 at most
    expect(Math.abs(base.weeks - 18)).toBeLessThan(0.75);
    expect(Math.abs(base.plateaus - 0.55)).toBeLessThan(0.05);
    expect(Math.abs(base.deloads - 0.7)).toBeLessThan(0.05);
    expect(Math.abs(base.badDays - 0.06)).toBeLessThan(0.01);
    expect(base.resumed).toBeGreaterThan(0.08);
    expect(base.resumed).toBeLessThan(0.3);
    expect(Math.abs(base.exposures - 32)).toBeLessThan(2.5);
    expect(Math.abs(easy.exposures - 29)).toBeLessThan(2.5);
  });

  test('targets are neither sure nor out of reach', () => {
    expect(Math.abs(base.hit - 0.55)).toBeLessThan(0.1);
    expect(Math.abs(easy.hit - 0.79)).toBeLessThan(0.06);
  });
});
