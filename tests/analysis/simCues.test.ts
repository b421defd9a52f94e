import { expect, test } from 'vitest';
import { effectsOf } from '../../src/analysis/cueEffect';
import type { CueUses } from '../../src/analysis/cueUses';
import { chance, normal, seeded } from './simRandom';

/*
 * Uses of cues with invented clients, from what STATS.md §6 says of them: eight clients, effects of each client's own, cues that are given on bad days in
 * 10–60 % of their uses, and a bad day that takes 0.8 off the logit. No real data.
 */

const CLIENTS = 8;
const BAD = 0.8;

const share = (logit: number): number => 1 / (1 + Math.exp(-logit));

function studio(random: () => number, cues: number, uses: () => number) {
  const effects = Array.from({ length: cues }, () => ({
    logit: 0.2 + 0.7 * normal(random),
    bad: 0.1 + 0.5 * random(),
  }));
  return Array.from({ length: CLIENTS }, () =>
    effects.map(({ logit, bad }, n) => {
      const own = logit + 0.5 * normal(random);
      const counted = { cue: `c${n}`, used: uses(), worked: 0, badUsed: 0, badWorked: 0, unanswered: 0 };
      for (let use = 0; use < counted.used; use++) {
        const isBad = chance(random, bad);
        const worked = chance(random, share(own - (isBad ? BAD : 0))) ? 1 : 0;
        counted.worked += worked;
        if (!isBad) continue;
        counted.badUsed += 1;
        counted.badWorked += worked;
      }
      return { truth: share(own), counted: counted as CueUses };
    }),
  );
}

function run(seed: number, studios: number, cues: number, uses: (random: () => number) => number) {
  const random = seeded(seed);
  let [named, right, covered, intervals, asked] = [0, 0, 0, 0, 0];
  for (let n = 0; n < studios; n++) {
    const clients = studio(random, cues, () => uses(random));
    for (const client of clients) {
      const others = clients.filter((one) => one !== client).map((one) => one.map(({ counted }) => counted));
      const told = effectsOf(
        client.map(({ counted }) => counted),
        others,
      );
      asked += 1;
      for (const [at, { truth }] of client.entries()) {
        const effect = told.cues.find(({ cue }) => cue === `c${at}`);
        intervals += 1;
        if (effect && effect.low <= truth && truth <= effect.high) covered += 1;
      }
      if (told.best.type !== 'told') continue;
      named += 1;
      const best = Math.max(...client.map(({ truth }) => truth));
      if ((client[Number(told.best.cue.slice(1))]?.truth ?? 0) >= best - 0.05) right += 1;
    }
  }
  return { named: named / asked, right: right / named, covered: covered / intervals };
}

test('bar 10 of STATS.md §9: at 3–5 uses a best is seldom named, and then right', { timeout: 60_000 }, () => {
  const few = run(10001, 60, 4, (random) => 3 + Math.floor(3 * random()));
  expect(few.named).toBeLessThanOrEqual(0.2);
  expect(few.named).toBeGreaterThan(0.05);
  expect(few.right).toBeGreaterThanOrEqual(0.8);
  expect(few.covered).toBeGreaterThanOrEqual(0.72);
  expect(few.covered).toBeLessThanOrEqual(0.88);
});

test.each([8, 12, 20])(
  'bar 10 of STATS.md §9: at %i uses a cue that is named best is within 0.05 of it',
  { timeout: 60_000 },
  (uses) => {
    const told = run(10002, 30, 5, () => uses);
    expect(told.named).toBeGreaterThan(0.1);
    expect(told.right).toBeGreaterThanOrEqual(0.8);
    expect(told.covered).toBeGreaterThanOrEqual(0.72);
    expect(told.covered).toBeLessThanOrEqual(0.88);
  },
);
