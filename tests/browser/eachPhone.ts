import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach } from 'vitest';
import { launchChromium } from '../tools/chromium';
import { type Hands, handsOn } from './hands';
import { openPhone, type Phone } from './harness';

/**
 * Gives every test of a file a phone of its own with hands on it, in one browser, and closes each behind its test. Returns how to reach the browser,
 * for tests that open more than one phone.
 */
export function eachPhone(at: string, begin: (phone: Phone, floor: Hands) => void | Promise<void>): () => Browser {
  let browser: Browser;
  let phone: Phone;
  beforeAll(async () => {
    browser = await launchChromium();
  });
  afterAll(() => browser.close());
  beforeEach(async () => {
    phone = await openPhone(browser, { at });
    await begin(phone, handsOn(phone.page));
  });
  afterEach(() => phone.close());
  return () => browser;
}
