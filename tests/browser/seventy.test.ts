import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe } from 'vitest';
import { launchChromium } from '../tools/chromium';
import { blocks } from './seventyBlocks';
import { care } from './seventyCare';
import { placesAndCounts } from './seventyCounts';
import { type Floor, oneStory, openFloor } from './seventyHands';
import { endAndNextTime } from './seventyNext';
import { arrivalAndSets } from './seventySets';

/*
 * Seventy minutes with three clients side by side, offline, the server gone: every kind of set, blocks and clocks, changes of today, pain,
 * and the day after. Each chapter goes on where the one before ended.
 */

let browser: Browser;
let floor: Floor;

beforeAll(async () => {
  browser = await launchChromium();
  floor = await openFloor(browser, '10:00');
});
afterAll(async () => {
  await floor.close();
  await browser.close();
});
oneStory();

describe('seventy minutes', () => {
  arrivalAndSets(() => floor);
  placesAndCounts(() => floor);
  blocks(() => floor);
  care(() => floor);
  endAndNextTime(() => floor);
});
