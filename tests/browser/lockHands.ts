import type { Locator } from 'playwright-core';
import { expect } from 'vitest';
import type { Hands } from './hands';
import { axeFinds, badTargets } from './measure';
import { says } from './said';

/* What a trainer does with the screen lock, by taps. */

export const NAME = 'Quillfeather';
export const PIN = '2580';

/** Returns the card on the Backup page. */
export const cardOn = (floor: Hands): Locator => floor.page.getByRole('region', { name: 'screen lock' });
/** Returns the screen that is there while it is locked. */
export const lockOn = (floor: Hands): Locator => floor.page.locator('.lock-screen');
/** Returns its field. */
export const pinOn = (floor: Hands): Locator => floor.page.getByLabel('PIN', { exact: true });

/** Types a PIN and taps Unlock. */
export async function unlock(floor: Hands, digits: string): Promise<void> {
  await pinOn(floor).fill(digits);
  await floor.tap('Unlock');
}

/** Adds a client, is refused a lock without a way back, and makes the recovery code. Returns it; Today is shown again. */
export async function makeCode(floor: Hands): Promise<string> {
  await floor.addClient({ alias: NAME, short: 'Quill' });
  await floor.tap(/^saved on this phone/);
  await floor.tap('Set a PIN', cardOn(floor));
  await says(cardOn(floor), 'Make a recovery code first');
  await floor.tap('To the recovery code', cardOn(floor));
  await floor.tap('Make the recovery code');
  const code = (await floor.page.locator('.seal-code').textContent()) ?? '';
  await floor.tap('‹ Back');
  await cardOn(floor).waitFor();
  await floor.tap('‹ Back');
  return code;
}

/** Turns the lock on from Today, and goes back there. */
export async function turnOn(floor: Hands, when: 'at once' | 'after 5 minutes'): Promise<void> {
  await floor.tap(/^saved on this phone/);
  const card = cardOn(floor);
  await says(card, 'It is off.', 'It does not protect against somebody who copies the phone’s storage');
  await floor.tap('Set a PIN', card);
  await floor.type('New PIN, 4 to 12 digits', PIN);
  await floor.type('The same PIN again', '2508');
  await floor.tap(when, card);
  await floor.tap('Turn it on', card);
  await says(card, 'The two are not the same.');
  await floor.type('The same PIN again', PIN);
  expect(await badTargets(floor.page)).toEqual([]);
  expect(await axeFinds(floor.page)).toEqual([]);
  await floor.tap('Turn it on', card);
  await says(card, 'It is on, and asks');
  await floor.tap('‹ Back');
}
