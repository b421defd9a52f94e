import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchChromium } from '../tools/chromium';
import { openPhone, type Phone } from './harness';
import { axeFinds, badTargets, reachesPastTheSide } from './measure';
import { type Sight, tour } from './tour';
import { tourFiles } from './tourFiles';
import { tourFloor } from './tourFloor';

/* Every screen, sheet and state of the pad, seen dark and light, narrow and wide, with the longest names. */

let browser: Browser;
const found: Record<'axe' | 'targets' | 'past the side', string[]> = { axe: [], targets: [], 'past the side': [] };
let sights = 0;

beforeAll(async () => {
  browser = await launchChromium();
  for (const walk of [tour, tourFloor, tourFiles]) {
    const phone = await openPhone(browser, { at: '10:00', reducedMotion: 'reduce' });
    await walk(phone, (sight) => look(phone, sight));
    await phone.close();
  }
}, 300_000);

async function look(phone: Phone, { name, where }: Sight): Promise<void> {
  const { page } = phone;
  sights += 1;
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    found.axe.push(...(await axeFinds(page)).map((fault) => `${name}, ${colorScheme}: ${fault}`));
  }
  for (const width of [1280, 820, 320, 390]) {
    await page.setViewportSize({ width, height: width === 320 ? 640 : 844 });
    // two frames on, the page has been drawn at its new width
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
    found['past the side'].push(...(await reachesPastTheSide(page)).map((fault) => `${name} at ${width}: ${fault}`));
    if (where === 'floor' && width < 400) {
      const faults = await badTargets(page);
      found.targets.push(...faults.map(({ what, fault }) => `${name} at ${width}: ${what} ${fault}`));
    }
    const folder = process.env['SIGHTS'];
    if (folder !== undefined && (width === 390 || width === 320)) {
      await page.screenshot({ path: `${folder}/${String(sights).padStart(2, '0')} ${name} ${width}.png` });
    }
  }
}
afterAll(() => browser.close());

test('the tour came to its end', () => expect(sights).toBe(51 + 32 + 8));
test('axe finds nothing, dark or light', () => expect(found.axe).toEqual([]));
test('nothing reaches past the side at 320, 390, 820 and 1280', () => expect(found['past the side']).toEqual([]));
test('on the floor every target is 48 by 48 or more, and 8 from the next', () => expect(found.targets).toEqual([]));
