import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { serveApp } from '../tools/serve';
import { type Chance, chance } from './chance';
import type { Fault } from './judge';
import { judge, type Life, live, type Moment } from './life';
import { abortUnsaid, completeTooEarly, draftsUnkept, moveInTwo, tornSet } from './plants';
import type { Taste } from './reports';
import { setUp } from './setUp';
import type { Disk } from './store';
import { tearEnd } from './tear';

/*
 * Kills the browser while sets are logged, and looks whether everything that showed as saved is there. KILLS sets how often, SEED repeats a run's
 * choices (not its timing, which is the machine's), DIST names another built app than dist, KEEP leaves the profiles.
 */

const KILLS = Number(process.env['KILLS'] ?? 25);
const SEED = Number(process.env['SEED'] ?? Math.floor(Date.now() / 1000) % 1_000_000);
/** Kills within which each planted bug must be found. */
const TRIES = 12;
/** Lives behind a torn end that are killed at once. */
const TORN = Number(process.env['TORN'] ?? 3);

const folders: string[] = [];
let url: string;
/** A profile in which the app was set up; the server is gone since. */
let seedProfile: string;

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'cuewright-kill-'));
  folders.push(made);
  return made;
}

function copyOf(profile: string): string {
  const copy = folder();
  cpSync(profile, copy, { recursive: true, filter: (path) => !path.includes('Singleton') });
  return copy;
}

beforeAll(async () => {
  const built = process.env['DIST'];
  const served = await serveApp(built === undefined ? {} : { folder: built });
  url = served.url;
  seedProfile = folder();
  await setUp(seedProfile, url);
  await served.stop();
});
afterAll(() => {
  if (process.env['KEEP'] !== undefined) return;
  for (const made of folders) rmSync(made, { recursive: true, force: true });
});

const MOMENTS: readonly Moment[] = ['mid-write', 'process-start', 'any', 'app-start', 'mid-write'];

test(
  `no saved set is lost and none is torn over ${KILLS} kills, seed ${SEED}`,
  async () => {
    const random = chance(SEED);
    const found: string[] = [];
    const seen = { saved: 0, gone: 0, typed: 0, undoing: 0, thrownAway: 0 };
    const stuck: string[] = [];
    let before: Disk | undefined;
    let profile = copyOf(seedProfile);
    for (let n = 1; n <= KILLS; n += 1) {
      const moment = MOMENTS[n % MOMENTS.length] ?? 'any';
      const taste: Taste = n % 10 === 2 ? 'typing' : n % 5 === 0 ? 'moves' : 'all';
      const { ledger, verdict } = await kill(profile, { moment, taste, chance: random }, before);
      before = verdict.disk;
      seen.saved += ledger.claims().length;
      seen.gone += ledger.gone().size;
      seen.typed += ledger.typed() ? 1 : 0;
      seen.undoing += ledger.undoing() ? 1 : 0;
      seen.thrownAway += ledger.madeAnew().length + (verdict.thrownAway ? 1 : 0);
      stuck.push(...ledger.stuck());
      const faults = verdict.faults.map((fault) => `kill ${n} (${moment}, ${taste}): ${fault.type} ${fault.detail}`);
      if (faults.length > 0) console.log(profile, ...faults);
      found.push(...faults);
      // a long run goes on with a new profile now and then: a trainer's day does not hold a thousand sessions; and what is wrong is told once
      if (n % 50 === 0 || faults.length > 0) {
        profile = copyOf(seedProfile);
        before = undefined;
      }
    }
    console.log(`kills ${KILLS}, seed ${SEED}`, JSON.stringify(seen), `stuck ${stuck.length}`, ...stuck.slice(0, 3));
    expect(found).toEqual([]);
    // a lab that saw next to nothing proves nothing
    expect(seen.saved).toBeGreaterThan(KILLS * 2);
  },
  KILLS * 20_000,
);

test('the end of the database torn by a kill costs nothing', async () => {
  const random = chance(SEED);
  const profile = copyOf(seedProfile);
  const life = { moment: 'any', taste: 'all', chance: random, spared: 2000 } as const;
  const { verdict } = await kill(profile, life);
  expect(verdict.faults).toEqual([]);
  tearEnd(profile);
  // what this life writes lies behind the torn record
  const second = await kill(profile, life, verdict.disk);
  expect(second.verdict.faults).toEqual([]);
  expect(second.verdict.thrownAway).toBe(false);
}, 60_000);

test(
  'the first set that is saved behind a torn end is there',
  async () => {
    const random = chance(SEED);
    const found: string[] = [];
    let claims = 0;
    for (let n = 1; n <= TORN; n += 1) {
      const profile = copyOf(seedProfile);
      const first = await kill(profile, { moment: 'any', taste: 'all', chance: random, spared: 500 });
      tearEnd(profile);
      const second = await kill(profile, { moment: 'first-saved', taste: 'all', chance: random }, first.verdict.disk);
      claims += second.ledger.claims().length;
      found.push(...second.verdict.faults.map((fault) => `life ${n}: ${fault.type} ${fault.detail}`));
    }
    console.log(`${claims} claims`, ...found.map((one) => one.slice(0, 200)));
    expect(found).toEqual([]);
    expect(claims).toBeGreaterThan(TORN);
  },
  TORN * 40_000,
);

const planted: readonly {
  name: string;
  plant: () => void;
  taste: Taste;
  moment: Moment;
  finds: readonly Fault['type'][];
}[] = [
  {
    name: 'a set shown as saved too early',
    plant: completeTooEarly,
    taste: 'all',
    moment: 'first-saved',
    finds: ['lost', 'changed'],
  },
  { name: 'a write aborted and not told', plant: abortUnsaid, taste: 'all', moment: 'any', finds: ['lost', 'changed'] },
  {
    name: 'a move in two transactions',
    plant: moveInTwo,
    taste: 'moves',
    moment: 'any',
    finds: ['lost', 'in-two-sessions'],
  },
  { name: 'a set put without its instant', plant: tornSet, taste: 'all', moment: 'any', finds: ['torn'] },
  { name: 'drafts that are not kept', plant: draftsUnkept, taste: 'typing', moment: 'any', finds: ['draft-lost'] },
];

for (const { name, plant, taste, moment, finds } of planted) {
  test(
    `the lab finds ${name}`,
    async () => {
      const random = chance(SEED);
      for (let n = 1; n <= TRIES; n += 1) {
        const { verdict } = await kill(copyOf(seedProfile), { moment, taste, chance: random, plant });
        if (!verdict.faults.some((fault) => finds.includes(fault.type))) continue;
        console.log(`${name}: found at kill ${n}: ${verdict.faults[0]?.type} ${verdict.faults[0]?.detail}`);
        return;
      }
      expect.fail(`not found in ${TRIES} kills`);
    },
    TRIES * 20_000,
  );
}

async function kill(profile: string, life: Life & { chance: Chance }, before?: Disk) {
  const ledger = await live(profile, url, life);
  return { ledger, verdict: await judge(profile, url, ledger, before, life.plant === undefined) };
}
