import type { Page } from 'playwright-core';

/** Longer than Today waits before it looks at what was done. */
const QUIET = 2500;

/** Waits until Today has looked at what was done with the clients, and what it found of them stays as it is. */
export async function lookedAt(page: Page): Promise<void> {
  let before: string | null = null;
  for (;;) {
    await page.waitForTimeout(QUIET);
    const kept = await page.evaluate(() => localStorage.getItem('cuewright.heads'));
    if (kept !== null && kept === before) return;
    before = kept;
  }
}
