import { beforeEach, expect, test } from 'vitest';
import { type Answers, answersOf } from '../../src/analysis/answers';
import { usesOf } from '../../src/analysis/others';
import { knownBy, readStudio } from '../../src/analysis/studio';
import { addDays } from '../../src/domain/day';
import type { Row } from '../../src/merge/row';
import { shown } from '../../src/merge/shown';
import { appOn } from './appInPage';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { openDemo } from './openDemo';
import { says } from './said';

/* The other answers in the built app, with the network cut: worked out beside the page, the same as anywhere else, with the floor as it is without. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', (made, hands) => {
  phone = made;
  floor = hands;
});

const TODAY = '2026-11-24';

beforeEach(() => openDemo(floor));

/** Where the workers that run now come from: they live on for a minute. */
const workers = (): readonly string[] => floor.page.workers().map((one) => one.url());

/** What the running page says of every client, the first first. */
async function said(): Promise<readonly Answers[]> {
  const app = await appOn(floor.page);
  const text = await app.evaluate(
    async ({ analysing }, day) => JSON.stringify(await (await analysing()).studio(day, () => undefined)),
    TODAY,
  );
  return JSON.parse(text) as readonly Answers[];
}

/** Returns where two of what was worked out are apart: two engines differ in the last digits of a logarithm, and a fit that rests on it a little more. */
function apart(a: unknown, b: unknown, at = ''): readonly string[] {
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) <= 1e-5 * Math.max(Math.abs(a), Math.abs(b), 1e-4) ? [] : [`${at}: ${a} and ${b}`];
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null)
    return a === b ? [] : [`${at}: ${String(a)} and ${String(b)}`];
  const names = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...names].flatMap((name) => apart(Reflect.get(a, name), Reflect.get(b, name), `${at}/${name}`));
}

/** What is to be said of the rows in a file that the app hands out. */
function expected(rows: readonly Row[]): readonly Answers[] {
  const all = readStudio(rows.map((row) => ({ ...row, values: shown(row) })));
  const known = all.clients.map((client) => knownBy(client, TODAY));
  const answers = known.map((client) =>
    answersOf(client, known.filter((other) => other !== client).map(usesOf), all, TODAY),
  );
  return JSON.parse(JSON.stringify(answers)) as readonly Answers[];
}

test('a worker says of every client what is worked out of the same rows elsewhere; one is enough', async () => {
  const first = await said();
  expect(first.map(({ alias }) => alias).sort()).toEqual([
    'Client Fog',
    'Client Gale',
    'Client Puddle',
    'Client Sleet',
  ]);
  expect(await said()).toEqual(first);
  expect(workers()).toEqual([expect.stringContaining('/assets/analysisWorker-')]);
  expect(apart(first, expected((await phone.stored()).rows))).toEqual([]);
});

test('where the page may start no worker it says the same', async () => {
  const inWorker = await said();
  await phone.context.addInitScript(() => {
    Reflect.deleteProperty(globalThis, 'Worker');
  });
  floor = handsOn(await phone.relaunch('/'));
  await says(floor.page.getByRole('main'), 'Client Gale');
  expect(await said()).toEqual(inWorker);
  expect(workers()).toEqual([]);
});

test('a set logged while everything is worked out anew is shown at once and saved, and the next answers have it', async () => {
  await floor.tap('Start Gale · Heavy from the floor');
  await floor.tap('Deadlift', floor.page.getByRole('region', { name: 'record' }));
  const app = await appOn(floor.page);
  // as of one day after the other nothing is kept that could be used again
  const running = await app.evaluateHandle(
    ({ analysing }, days) => {
      const work = { done: 0, over: false, stop: new AbortController() };
      void (async () => {
        const { studio } = await analysing();
        const each = (): void => {
          work.done += 1;
        };
        for (const day of days) await studio(day, each, work.stop.signal);
        work.over = true;
      })();
      return { work };
    },
    Array.from({ length: 84 }, (_, n) => addDays(TODAY, -n)),
  );
  const told = () => running.evaluate(({ work }) => ({ done: work.done, over: work.over }));
  await expect.poll(async () => (await told()).done).toBeGreaterThan(2);
  const before = await told();
  const line = await floor.log();
  await says(line, 'kg × 5');
  const after = await told();
  expect(after.over).toBe(false);
  await expect.poll(async () => (await told()).done).toBeGreaterThan(before.done);
  await running.evaluate(({ work }) => work.stop.abort());
  await expect.poll(async () => (await told()).over).toBe(true);

  const now = await said();
  const { rows } = await phone.stored();
  expect(apart(now, expected(rows))).toEqual([]);
  const gale = now.find(({ alias }) => alias === 'Client Gale');
  expect(gale?.others.load.days.at(-1)).toMatchObject({ day: TODAY, kind: 'partly', missing: 1 });
});
