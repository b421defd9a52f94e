import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { launchChromium } from '../tools/chromium';
import { buildApp } from './builds';
import { type Hands, handsOn } from './hands';
import { says, saysNot } from './said';
import { type Builds, countLoads, makeBuilds, type OnHost, openOnHost } from './updateRig';

/* A newer version on the server, the old files gone from there: never under a running session, nothing lost by going over. */

let browser: Browser;
let builds: Builds;
let phone: OnHost;
let floor: Hands;

beforeAll(async () => {
  builds = makeBuilds();
  browser = await launchChromium();
});
afterAll(async () => {
  await browser.close();
  builds.remove();
});
beforeEach(async () => {
  phone = await openOnHost(browser, builds);
  floor = handsOn(phone.page);
  await floor.addClient({ alias: 'Client K' });
});
afterEach(() => phone.close());

const USE = 'Use the new version';
const main = (page: Page) => page.getByRole('main');

async function startSession(): Promise<void> {
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
}

async function endSession(): Promise<void> {
  await floor.tap('End');
  await floor.tap('End Client K’s session', floor.sheet());
}

test('two builds of one tree are equal, byte for byte', () => {
  const [one, again] = [builds.folder('new'), `${builds.folder('new')}-again`].map((folder) => {
    buildApp(folder, 'test · new');
    return bytesOf(folder);
  });
  expect(one!.filter((line) => !again!.includes(line))).toEqual([]);
  expect(again).toHaveLength(one!.length);
  expect(bytesOf(builds.folder('old')).filter((line) => !one!.includes(line)).length).toBeGreaterThan(3);
});

test('a running session goes on whole while a newer version waits, with the network and without', async () => {
  await startSession();
  await (await floor.typing('load')).fill('71,5');
  const loads = countLoads(phone.page);
  await phone.bring('new');
  const asked = phone.host.asked.length;
  // sheets that were never opened before
  await floor.tap('More');
  await floor.tap('Close', floor.sheet());
  await floor.tap('Change today');
  await floor.tap('Close', floor.sheet());
  await phone.context.setOffline(true);
  await phone.host.stop();
  await floor.tap(/Front squat/, floor.page.getByRole('region', { name: 'record' }));
  await floor.tap('Close', floor.sheet());
  await says(await floor.log(), '71.5 kg × 5');
  await floor.tap('‹ Today');
  await says(main(floor.page), 'Running');
  expect(await floor.page.getByRole('button', { name: USE }).count()).toBe(0);
  await floor.page.reload();
  await floor.tap('Resume K');
  await floor.lines().nth(1).waitFor();
  expect(loads()).toBe(1);
  expect(await phone.build(phone.page)).toBe('old');
  expect(phone.host.asked.slice(asked).filter((path) => path.startsWith('/assets/'))).toEqual([]);
});

test('once no session runs Today offers it; at a tap every page goes over once, to the same address', async () => {
  await startSession();
  await phone.bring('new');
  const library = await phone.tab('/library');
  await library.getByRole('heading', { name: 'Library' }).waitFor();
  await phone.page.bringToFront();
  await endSession();
  const loads = [countLoads(phone.page), countLoads(library)];
  await floor.tap(USE);
  await expect.poll(() => phone.build(phone.page)).toBe('new');
  await expect.poll(() => phone.build(library)).toBe('new');
  await phone.page.waitForTimeout(1500);
  expect(loads.map((count) => count())).toEqual([1, 1]);
  expect(new URL(library.url()).pathname).toBe('/library');
  await says(main(floor.page), 'Client K');
  await floor.tap(/saved on this phone/);
  await says(main(floor.page), 'Version test · new.', 'opens without a network');
});

test('a page with something half typed in a form stays as it is, and goes over when that is gone', async () => {
  const other = handsOn(await phone.tab());
  await other.tap('Client K');
  const name = other.page.getByLabel(/^Name/).first();
  await name.fill('Client Kay');
  await phone.page.bringToFront();
  await phone.bring('new');
  await floor.tap(USE);
  await expect.poll(() => phone.build(phone.page)).toBe('new');
  await other.page.bringToFront();
  await other.page.waitForTimeout(1500);
  expect(await phone.build(other.page)).toBe('old');
  expect(await name.inputValue()).toBe('Client Kay');
  await other.tap('‹ Back');
  await expect.poll(() => phone.build(other.page), { timeout: 15_000 }).toBe('new');
});

test('taken over under a running session, the page stays until it is told: same session, same draft, same clock', async () => {
  await startSession();
  await (await floor.typing('load')).fill('71,5');
  await phone.bring('new');
  const loads = countLoads(phone.page);
  await phone.takeOver(phone.page);
  await floor.tap('More');
  await floor.tap('Close', floor.sheet());
  await phone.page.waitForTimeout(1500);
  expect(loads()).toBe(0);
  const clock = await restOf(floor);
  await floor.tap('‹ Today');
  await says(main(floor.page), 'has taken over');
  await floor.tap(USE);
  await expect.poll(() => phone.build(phone.page)).toBe('new');
  await floor.tap('Resume K');
  await says(floor.pad().getByRole('group', { name: 'next set' }), '71.5 kg × 5');
  const gone = clock - (await restOf(floor));
  expect(Math.abs(gone)).toBeLessThan(20);
  await says(await floor.log(), '71.5 kg × 5');
});

test('taken over under a running session, the page goes over by itself when the session has ended', async () => {
  await startSession();
  await phone.bring('new');
  await phone.takeOver(phone.page);
  expect(await phone.build(phone.page)).toBe('old');
  await endSession();
  await expect.poll(() => phone.build(phone.page), { timeout: 5000 }).toBe('new');
  await says(main(floor.page), 'Done today');
});

test('a start at which no session runs takes the newer version; one under a running session does not', async () => {
  await startSession();
  await phone.bring('new');
  const during = await phone.tab();
  await says(main(during), 'Running');
  await during.waitForTimeout(1500);
  expect(await phone.build(during)).toBe('old');
  expect(await phone.worker(during)).toEqual({ waiting: true, installing: false });
  await during.close();
  await endSession();
  await says(main(floor.page), 'Done today');
  const after = await phone.tab();
  await expect.poll(() => phone.build(after), { timeout: 5000 }).toBe('new');
  await expect.poll(() => phone.build(phone.page), { timeout: 5000 }).toBe('new');
  await saysNot(main(after), USE);
});

/** The seconds the rest clock shows. */
async function restOf(hands: Hands): Promise<number> {
  const text = (await hands.page.getByRole('timer').first().textContent()) ?? '';
  const [, minutes = '', seconds = ''] = /(\d+):(\d\d)/.exec(text) ?? [];
  return Number(minutes) * 60 + Number(seconds);
}

/** Every file under a folder with the hash of its bytes, a line each. */
function bytesOf(folder: string): readonly string[] {
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
  const files = paths.filter((path) => statSync(join(folder, path)).isFile());
  return files.map(
    (path) =>
      `${path} ${createHash('sha256')
        .update(readFileSync(join(folder, path)))
        .digest('hex')}`,
  );
}
