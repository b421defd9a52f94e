import { expect, test } from 'vitest';
import { usualWeek } from '../../src/analysis/usualWeek';
import { addDays } from '../../src/domain/day';
import { chance, normal, seeded } from './simRandom';

/*
 * Weeks of invented clients, from what STATS.md §5 says of them: tonnage on the log scale, a lighter week now and then that
 * three in four plans name, and a session missed in 8 % of weeks, which nobody names. No real data.
 */

const CLIENTS = 400;
const WEEKS = 20;
/** The SD of ordinary weeks on the log scale in the middle of clients: it is not told, and taken to be what the rule takes for usual. */
const HABIT = 0.18;

function clients(seed: number) {
  const random = seeded(seed);
  return Array.from({ length: CLIENTS }, () => {
    const habit = HABIT * Math.exp(0.25 * normal(random));
    const growth = 0.005 * normal(random) + 0.005;
    const every = 4 + Math.floor(3 * random());
    const plans = chance(random, 0.7);
    const sessions = 3 + Math.floor(3 * random());
    const setApart = new Set<string>();
    const weeks = Array.from({ length: WEEKS }, (_, n) => {
      const week = addDays('2026-01-05', 7 * n);
      let log = 9 + growth * n + habit * normal(random);
      let ordinary = true;
      if (plans && n % every === every - 1) {
        log += Math.log(0.6);
        ordinary = false;
        if (chance(random, 0.75)) setApart.add(week);
      } else if (chance(random, 0.08)) {
        log += Math.log((sessions - 1) / sessions);
        ordinary = false;
      }
      return { week, kg: Math.exp(log), comparable: 1, ordinary };
    });
    return { weeks, setApart };
  });
}

/** The share of ordinary weeks that is told of as it should be, once each is multiplied by `factor`. */
function told(seed: number, factor: number): number {
  let [all, found] = [0, 0];
  for (const { weeks, setApart } of clients(seed)) {
    for (const [n, one] of weeks.entries()) {
      if (!one.ordinary) continue;
      const changed = weeks.slice(0, n + 1).map((week) => (week === one ? { ...week, kg: week.kg * factor } : week));
      const judged = usualWeek(changed, { week: one.week, today: '2027-01-01', setApart });
      if (!('z' in judged)) continue;
      all += 1;
      if (factor === 1 ? judged.type !== 'usual' : judged.type === (factor > 1 ? 'above' : 'below')) found += 1;
    }
  }
  expect(all).toBeGreaterThan(3000);
  return found / all;
}

test.each([7001, 7002])('bar 9 of STATS.md §9: ordinary weeks, jumps and drops (seed %i)', (seed) => {
  const figures = { ordinary: told(seed, 1), less: told(seed, 0.6), more: told(seed, 1.5), double: told(seed, 2) };
  expect(figures.ordinary).toBeLessThanOrEqual(0.06);
  expect(figures.less).toBeGreaterThanOrEqual(0.5);
  expect(figures.more).toBeGreaterThanOrEqual(0.5);
  expect(figures.double).toBeGreaterThanOrEqual(0.85);
});
