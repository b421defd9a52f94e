import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { handsOn } from '../browser/hands';
import { launchChromium, phone } from './chromium';
import { serveApp } from './serve';

/*
 * The README's pictures, of the built app and of an invented client: `npm run screens`.
 */

const FOLDER = join(import.meta.dirname, '../../fixtures/screens');
/** A Tuesday at the gym. */
const NOW = Date.UTC(2026, 10, 24, 16, 0, 0);

/** Opens the app as someone with this theme sees it, with a clock that stands where the picture wants it. */
async function openApp(browser: Browser, url: string, colorScheme: 'dark' | 'light'): Promise<Page> {
  const context = await browser.newContext({
    ...phone,
    deviceScaleFactor: 2,
    locale: 'en-GB',
    timezoneId: 'Europe/Vienna',
    colorScheme,
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  await page.addInitScript((now) => {
    const from = Date.now();
    const clock = Date.now.bind(Date);
    Date.now = () => now + Number(sessionStorage.getItem('ahead') ?? 0) + (clock() - from);
  }, NOW);
  await page.goto(url);
  return page;
}

const ahead = (page: Page, seconds: number): Promise<void> =>
  page.evaluate((ms) => sessionStorage.setItem('ahead', String(ms)), seconds * 1000);

async function picture(page: Page, name: string): Promise<void> {
  // what is told in the last quarter of a second is drawn by then
  await page.waitForTimeout(400);
  await page.screenshot({ path: join(FOLDER, `${name}.png`) });
  console.log(`fixtures/screens/${name}.png`);
}

async function main(): Promise<void> {
  mkdirSync(FOLDER, { recursive: true });
  const served = await serveApp();
  const browser = await launchChromium();
  try {
    for (const theme of ['dark', 'light'] as const) await pictures(await openApp(browser, served.url, theme), theme);
  } finally {
    await browser.close();
    await served.stop();
  }
}

async function pictures(page: Page, theme: 'dark' | 'light'): Promise<void> {
  const hands = handsOn(page);
  await hands.addClient({ alias: 'Vale', dayName: 'fitting', day: '2026-12-08' });
  await hands.addClient({ alias: 'Client K', dayName: 'opening', day: '2027-01-04' });
  await hands.start('Vale', 'Kneeling cable pull');
  await hands.say({ pin: '7', reps: '8' });
  await hands.log();
  await hands.tap('‹ Today');
  await hands.start('K', 'Front squat');
  await hands.say({ load: '57.5', reps: '5' });
  await hands.tap(/^Ramp done/);
  await ahead(page, 240);
  await hands.log();
  await hands.tap('2 left');
  await hands.tap('clean');
  await hands.tap('+ cue');
  await hands.type(/new cue in your words/, 'elbows to the wall');
  await hands.tap('Add and give');
  await hands.tap('better');
  await ahead(page, 420);
  if (theme === 'dark') await picture(page, 'pad-dark');
  await hands.log();
  await ahead(page, 468);
  await hands.tap('1 left');
  if (theme === 'dark') return picture(page, 'session-dark');
  await hands.tap('‹ Today');
  return picture(page, 'today-light');
}

await main();
