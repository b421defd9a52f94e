import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';

/* What a trainer does with sealed files, by taps: prepare and save, choose, type the words, take in. */

/** A sealed file as it left a device: where it lies, and the words that were shown with it. */
export type FileOut = { readonly path: string; readonly bytes: Buffer; readonly words: string };

/** Goes to a page of the app by its address, as after a start. */
export async function at(phone: Phone, path: string): Promise<Hands> {
  return handsOn(await phone.relaunch(path));
}

/** Saves the file that stands prepared on a page. */
export async function savedFrom(page: Page): Promise<FileOut> {
  const list = page.getByRole('list', { name: 'the seven words' });
  await list.waitFor();
  const words = (await list.getByRole('listitem').allTextContents()).join(' ');
  const save = page.getByRole('button', { name: 'Save the file' });
  const [download] = await Promise.all([page.waitForEvent('download'), save.tap()]);
  const path = await download.path();
  await page.getByText(/file handed over\.$/i).waitFor({ state: 'attached' });
  return { path, bytes: readFileSync(path), words };
}

/** Makes and saves a backup of everything. */
export async function backupFrom(phone: Phone): Promise<FileOut> {
  const hands = await at(phone, '/backup');
  await hands.tap('Prepare the sealed file');
  return savedFrom(hands.page);
}

/** Chooses a file on the page that takes files in, and opens it with its words. */
export async function openFile(hands: Hands, { path, words }: Pick<FileOut, 'path' | 'words'>): Promise<void> {
  await hands.page.getByLabel(/^(Choose the file|Another file)$/).setInputFiles(path);
  await hands.type('Its seven words', words);
  await hands.tap('Open it');
}

/** Makes a recovery code, and types it back. Returns it. */
export async function recoveryCode(phone: Phone): Promise<string> {
  const hands = await at(phone, '/keys');
  await hands.tap('Make the recovery code');
  const shown = hands.page.locator('.seal-code');
  await shown.waitFor();
  const code = (await shown.textContent()) ?? '';
  await hands.type('Type it back from the paper', code);
  await hands.tap('Is it right?');
  await shown.waitFor({ state: 'detached' });
  return code;
}
