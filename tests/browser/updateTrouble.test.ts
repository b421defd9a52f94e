import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { launchChromium } from '../tools/chromium';
import { type Hands, handsOn } from './hands';
import { axeFinds } from './measure';
import { says } from './said';
import { storedFrom } from './stored';
import { type Builds, isKept, makeBuilds, type OnHost, openOnHost } from './updateRig';

/* Updates that go wrong: half downloaded, slept through, broken when published, or learned of in no other way. */

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
afterEach(() => phone.close());

async function openWithClient(options: Parameters<typeof openOnHost>[2] = {}): Promise<void> {
  phone = await openOnHost(browser, builds, options);
  floor = handsOn(phone.page);
  await floor.addClient({ alias: 'Client K' });
}

const main = (page: Page) => page.getByRole('main');
const USE = 'Use the new version';

test.each(['cut', 'missing', 'page'] as const)(
  'an update of which a file comes as "%s": the old one goes on, and it is tried again',
  async (fault) => {
    await openWithClient();
    phone.host.spoil('assets/Library-', fault);
    phone.publish('new');
    await phone.look(phone.page);
    await expect
      .poll(() => phone.host.asked.some((path) => path.includes('assets/Library-') && path.endsWith('.js')))
      .toBe(true);
    await expect.poll(() => phone.worker(phone.page)).toEqual({ waiting: false, installing: false });
    await phone.context.setOffline(true);
    await phone.page.reload();
    expect(await phone.build(phone.page)).toBe('old');
    await floor.tap('Library');
    await says(main(phone.page), 'Library');
    await phone.context.setOffline(false);
    phone.host.spoil('assets/Library-', null);
    await phone.bring('new');
  },
);

test('the app looks by itself when it is seen again, and not more often than every half hour', async () => {
  await openWithClient();
  const looks = () => phone.host.asked.filter((path) => path === '/version.json').length;
  await expect.poll(looks).toBe(1);
  phone.publish('new');
  await seeAgain(phone.page, 29);
  await seeAgain(phone.page, 29);
  await phone.page.waitForTimeout(500);
  expect(looks()).toBe(1);
  await seeAgain(phone.page, 31);
  await expect.poll(looks).toBe(2);
  await floor.tap(USE);
  await expect.poll(() => phone.build(phone.page)).toBe('new');
});

test('where the browser allows no worker, the app learns of it from the server, and a tap loads it', async () => {
  await openWithClient({ serviceWorkers: 'block' });
  // a part that is still to come when its file is gone brings the page over by itself
  await isLoaded();
  phone.publish('new');
  await seeAgain(phone.page, 31);
  await floor.tap(USE);
  await expect.poll(() => phone.build(phone.page)).toBe('new');
  await says(main(phone.page), 'Client K');
});

test('a tab that slept while another took the new version goes over when it wakes', async () => {
  await openWithClient();
  await phone.bring('new');
  // its log does not open yet, so that none of its later parts is loaded
  await phone.page.evaluate(() => localStorage.setItem('test.open', 'late'));
  const asleep = await phone.tab('/library');
  // the browser puts a change of workers off while the old one still answers
  await asleep.waitForLoadState('networkidle');
  await asleep.waitForTimeout(1000);
  await phone.takeOver(phone.page);
  await expect.poll(() => phone.build(phone.page)).toBe('new');
  expect(await phone.build(asleep)).toBe('old');
  const kept = await asleep.evaluate(async () => {
    const names = await caches.keys();
    const all = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
    return all.flat().map(({ url }) => new URL(url).pathname);
  });
  const script = await asleep.locator('script[type=module]').getAttribute('src');
  expect(kept).not.toContain(script);
  await phone.page.evaluate(() => localStorage.removeItem('test.open'));
  await expect.poll(() => phone.build(asleep), { timeout: 10_000 }).toBe('new');
  await says(main(asleep), 'Library');
});

test('a part that is gone from the server says so under a running session, and at a tap comes with the draft kept', async () => {
  // no worker and a first visit of which a part never came: then another version is published
  phone = await openOnHost(browser, builds, { serviceWorkers: 'block' });
  await phone.page.close();
  phone.host.spoil('assets/SetUpSheet-', 'missing');
  const page = await phone.tab();
  floor = handsOn(page);
  await floor.addClient({ alias: 'Client K' });
  await floor.start('K', 'Front squat');
  await floor.say({ load: '57.5', reps: '5' });
  phone.host.spoil('assets/SetUpSheet-', null);
  phone.publish('new');
  await floor.tap('+ set-up');
  const said = page.getByRole('alertdialog');
  await says(said, 'This part belongs to an older version');
  if (process.env['SIGHTS']) await page.screenshot({ path: `${process.env['SIGHTS']}/lost part.png` });
  expect(await axeFinds(page)).toEqual([]);
  // the session goes on without it
  await floor.tap('Back', said);
  await floor.log();
  await page.waitForTimeout(1200);
  expect(await phone.build(page)).toBe('old');
  await floor.say({ load: '62.5' });
  await floor.tap('+ set-up');
  await floor.tapOn(said.getByRole('button', { name: USE }));
  await expect.poll(() => phone.build(page)).toBe('new');
  await says(floor.sheet(), 'Set-up');
  await floor.tap('Close', floor.sheet());
  await says(floor.pad().getByRole('group', { name: 'next set' }), '62.5 kg × 5');
});

test('a version that does not start has a way back: the records as a file, then the app anew, and no record is touched', async () => {
  await openWithClient();
  await phone.bring('broken');
  await floor.tap(USE);
  const { page } = phone;
  await says(main(page), 'The app did not start', 'nothing on this page deletes them');
  expect(await axeFinds(page)).toEqual([]);
  if (process.env['SIGHTS']) await page.screenshot({ path: `${process.env['SIGHTS']}/repair.png` });
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save the records as a file' }).tap(),
  ]);
  expect(storedFrom(readFileSync(await download.path(), 'utf8')).ofKind('client')).toMatchObject([
    { alias: 'Client K' },
  ]);
  const anew = page.getByRole('button', { name: 'Fetch the app anew' });
  await phone.context.setOffline(true);
  await anew.tap();
  await says(page.getByRole('status'), 'The server cannot be reached');
  expect(await page.evaluate(async () => (await caches.keys()).length)).toBe(1);
  await phone.context.setOffline(false);
  phone.publish('new');
  await anew.tap();
  await expect.poll(() => phone.build(page)).toBe('new');
  await says(main(page), 'Client K');
  await isKept(page);
});

/** Waits until the page has asked the host for nothing for two seconds: every part of it is there. */
async function isLoaded(): Promise<void> {
  for (let asked = -1; asked !== phone.host.asked.length; ) {
    asked = phone.host.asked.length;
    await phone.page.waitForTimeout(2000);
  }
}

/** Leaves a page so many minutes after its first look, and comes back to it. */
function seeAgain(page: Page, minutes: number): Promise<void> {
  return page.evaluate((ahead) => {
    localStorage.setItem('test.ahead', String(ahead));
    document.dispatchEvent(new Event('visibilitychange'));
  }, minutes * 60_000);
}
