import type { Page } from 'playwright-core';
import { phonePage } from './phonePage';
import { startBrowser } from './process';

/** Opens the app on a new profile with the server there, adds two clients and starts both; then everything is kept for offline use. */
export async function setUp(profile: string, url: string): Promise<void> {
  const browser = startBrowser(profile, 'port');
  try {
    const { page } = await phonePage(browser);
    await page.goto(url);
    for (const name of ['Client K', 'Client V']) {
      await page.getByRole('button', { name: '+ client' }).click();
      await page.getByLabel('Name; an alias').fill(name);
      await page.getByRole('button', { name: 'Add this client' }).click();
      await page.getByRole('button', { name: `Start ${name.at(-1)}` }).click();
      await chooseExercise(page);
      await page.getByRole('button', { name: '‹ Today' }).click();
    }
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      while (!navigator.serviceWorker.controller) await new Promise((resolve) => setTimeout(resolve, 20));
    });
    // what is set up here was not claimed: it gets the time to be saved
    await page.waitForTimeout(1500);
  } finally {
    await browser.kill();
  }
}

async function chooseExercise(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Choose an exercise' }).click();
  await page.getByRole('button', { name: 'Front squat' }).click();
  await page.getByRole('button', { name: /^Log / }).last().waitFor();
}
