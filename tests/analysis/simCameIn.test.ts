import { expect, test } from 'vitest';
import { type CameDay, cameInOf } from '../../src/analysis/cameIn';
import { ARRIVAL_ITEMS } from '../../src/domain/arrival';
import { dayIn } from '../reference/records';
import { chance, normal, seeded } from './simRandom';

/*
 * Answers of invented clients, from what STATS.md §4 says of them: five items of 1–5 in whole points, days in a row alike (0.35), a rhythm of the
 * week, 15 % of days missing, and drops of three days counted in SDs of the client's own total. No real data.
 */

/** How long clients are looked at, from which day on, and on which days of the week (from 0) they are asked. */
type Asking = { readonly days: number; readonly first: number; readonly weekdays: readonly number[] };
const DAILY: Asking = { days: 118, first: 28, weekdays: [0, 1, 2, 3, 4, 5, 6] };
const THRICE: Asking = { days: 202, first: 56, weekdays: [0, 2, 4] };
const ALIKE = 0.35;
const DATES = Array.from({ length: THRICE.days }, (_, n) => dayIn(n));

/** A client's latent days: what each item would be, before it is told in whole points. */
function latent(random: () => number, count: number): number[][] {
  const spread = 1.7 * Math.exp(0.25 * normal(random));
  // the items of one person go together: about half of the total's variance is common to them
  const common = spread * Math.sqrt(0.8);
  const single = (spread * Math.sqrt(0.2)) / Math.sqrt(5);
  const means = ARRIVAL_ITEMS.map(() => 3.5 + 0.4 * normal(random));
  const rhythm = Array.from({ length: 7 }, () => 0.6 * normal(random));
  let state = normal(random);
  return Array.from({ length: count }, (_, day) => {
    state = ALIKE * state + Math.sqrt(1 - ALIKE ** 2) * normal(random);
    const shared = (common * state + (rhythm[day % 7] ?? 0)) / 5;
    return means.map((mean) => mean + shared + single * normal(random));
  });
}

const whole = (items: readonly number[]): number[] => items.map((one) => Math.min(5, Math.max(1, Math.round(one))));
const total = (items: readonly number[]): number => items.reduce((sum, one) => sum + one, 0);

function told(days: readonly (readonly number[])[], missing: ReadonlySet<number>): readonly CameDay[] {
  return days.flatMap((items, n) => {
    if (missing.has(n)) return [];
    const answers = whole(items);
    const named = Object.fromEntries(ARRIVAL_ITEMS.map((item, at) => [item, answers[at]]));
    return [{ day: DATES[n] ?? '', items: named, sum: total(answers), usual: false }];
  });
}

const isBelow = (days: readonly CameDay[], day: number): boolean =>
  cameInOf(days, DATES[day] ?? '').verdict.type === 'below';

function run(seed: number, clients: number, { days: DAYS, first: FIRST, weekdays }: Asking, lasts = 3) {
  const random = seeded(seed);
  const drops = [1, 1.5, 2];
  const hits = [0, 0, 0];
  let episodes = 0;
  for (let n = 0; n < clients; n++) {
    const days = latent(random, DAYS);
    const missing = new Set(
      days.flatMap((_, day) => (chance(random, 0.15) || !weekdays.includes(day % 7) ? [day] : [])),
    );
    const plain = told(days, missing);
    let last = -9;
    for (let day = FIRST; day < DAYS; day++) {
      if (!isBelow(plain, day)) continue;
      // days in a row are one episode
      if (day - last > 2) episodes += 1;
      last = day;
    }
    const sums = days.map((items) => total(whole(items)));
    const mean = total(sums) / DAYS;
    const sd = Math.sqrt(total(sums.map((one) => (one - mean) ** 2)) / (DAYS - 1));
    const at = FIRST + 10 + Math.floor(random() * (DAYS - FIRST - 20));
    for (const [k, size] of drops.entries()) {
      const dropped = days.map((items, day) =>
        day >= at && day < at + lasts ? items.map((one) => one - (size * sd) / 5) : items,
      );
      const sessions = told(dropped, missing);
      if (days.some((_, day) => day >= at && day < at + lasts && isBelow(sessions, day))) hits[k] = (hits[k] ?? 0) + 1;
    }
  }
  return { falseAMonth: episodes / ((clients * (DAYS - FIRST)) / 30), hits: hits.map((one) => one / clients) };
}

test.each([8001])(
  'bar 8 of STATS.md §9: false episodes, and drops of three days (seed %i)',
  { timeout: 60_000 },
  (seed) => {
    const { falseAMonth, hits } = run(seed, 600, DAILY);
    expect(falseAMonth).toBeLessThanOrEqual(1);
    expect(hits[1]).toBeGreaterThanOrEqual(0.6);
    expect(hits[0]).toBeGreaterThanOrEqual(0.35);
  },
);

test('asked three days a week, there are fewer false words, and most drops that last a week are told of', {
  timeout: 60_000,
}, () => {
  const { falseAMonth, hits } = run(8002, 500, THRICE, 7);
  expect(falseAMonth).toBeLessThanOrEqual(0.6);
  expect(hits[1]).toBeGreaterThanOrEqual(0.6);
  // of three days such a client is asked on one or two: most of these are not seen
  expect(run(8003, 500, THRICE).hits[1]).toBeLessThan(0.5);
});
