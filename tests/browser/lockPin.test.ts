import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { cardOn, lockOn, makeCode, NAME, PIN, pinOn, turnOn, unlock } from './lockHands';
import { axeFinds, badTargets, reachesPastTheSide } from './measure';
import { says } from './said';
import { storedFrom } from './stored';

/* The PIN of the screen lock: wrong, changed, turned off, forgotten. */

let phone: Phone;
let floor: Hands;
let code: string;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  code = await makeCode(floor);
});

test('five wrong ones make one wait, over a reload too; the next counts double', async () => {
  await turnOn(floor, 'at once');
  floor = handsOn(await phone.relaunch());
  for (let tries = 0; tries < 5; tries += 1) {
    await unlock(floor, `100${tries}`);
    await says(lockOn(floor), tries < 4 ? 'That is not the PIN.' : 'The next can be tried in 0:30.');
    await expect.poll(() => pinOn(floor).inputValue()).toBe('');
  }
  floor = handsOn(await phone.relaunch());
  await says(lockOn(floor), 'Too many wrong ones in a row. The next can be tried in 0:30.');
  expect(await floor.page.getByRole('button', { name: 'Unlock' }).isDisabled()).toBe(true);
  expect(await axeFinds(floor.page)).toEqual([]);
  await phone.clock('10:00:29');
  await says(lockOn(floor), 'in 0:01.');
  await phone.clock('10:00:30');
  await expect.poll(() => floor.page.getByRole('button', { name: 'Unlock' }).isEnabled()).toBe(true);
  await unlock(floor, '1005');
  await says(lockOn(floor), 'in 1:00.');
  await phone.clock('10:01:30');
  await expect.poll(() => floor.page.getByRole('button', { name: 'Unlock' }).isEnabled()).toBe(true);
  await unlock(floor, PIN);
  await says(floor.page.getByRole('main'), NAME);
});

test('when it asks and the PIN are changed, and it is turned off, each with the PIN', async () => {
  await turnOn(floor, 'at once');
  floor = handsOn(await phone.relaunch('/backup'));
  await unlock(floor, PIN);
  await says(cardOn(floor), 'as soon as the app was out of sight');
  await floor.tap('Change when it asks', cardOn(floor));
  await floor.tap('after 15 minutes', cardOn(floor));
  await floor.type('PIN as it is now', '1111');
  await floor.tap('Keep when it asks', cardOn(floor));
  await says(cardOn(floor), 'That is not the PIN.');
  await floor.type('PIN as it is now', PIN);
  await floor.tap('Keep when it asks', cardOn(floor));
  await says(cardOn(floor), 'asks after 15 minutes out of sight');
  await floor.tap('Change the PIN', cardOn(floor));
  await floor.type('PIN as it is now', PIN);
  await floor.type('New PIN, 4 to 12 digits', '97531');
  await floor.type('The same PIN again', '97531');
  await floor.tap('Keep the new PIN', cardOn(floor));
  await floor.tap('Turn it off', cardOn(floor));
  await floor.type('PIN as it is now', '97531');
  await floor.tap('Turn it off', cardOn(floor));
  await says(cardOn(floor), 'It is off.');
  floor = handsOn(await phone.relaunch());
  await says(floor.page.getByRole('main'), NAME);
});

test('the page that helps where the app does not start hands nothing out without the PIN', async () => {
  await turnOn(floor, 'at once');
  floor = handsOn(await phone.relaunch('/?repair'));
  const field = floor.page.getByLabel('PIN of the screen lock');
  const save = floor.page.getByRole('button', { name: 'Save the records as a file' });
  let files = 0;
  floor.page.on('download', () => {
    files += 1;
  });
  await save.tap();
  await says(floor.page.getByRole('status'), 'That is not the PIN.');
  await field.fill('1111');
  await save.tap();
  await says(floor.page.getByRole('status'), 'That is not the PIN.');
  expect(files).toBe(0);
  expect(await floor.page.content()).not.toContain(NAME);
  expect(await axeFinds(floor.page)).toEqual([]);
  expect(await badTargets(floor.page)).toEqual([]);
  await field.fill(PIN);
  const [download] = await Promise.all([floor.page.waitForEvent('download'), save.tap()]);
  expect(storedFrom(readFileSync(await download.path(), 'utf8')).ofKind('client')).toMatchObject([{ alias: NAME }]);
});

test('the lock and the way out fit the smallest screen', async () => {
  await turnOn(floor, 'at once');
  floor = handsOn(await phone.relaunch());
  await floor.page.setViewportSize({ width: 320, height: 568 });
  await pinOn(floor).waitFor();
  const fits = async () => {
    expect(await reachesPastTheSide(floor.page)).toEqual([]);
    expect(await badTargets(floor.page)).toEqual([]);
    expect(await axeFinds(floor.page)).toEqual([]);
  };
  await fits();
  await floor.tap('Forgotten the PIN?');
  await floor.type('Recovery code or passphrase', 'A1B2-C3D4');
  await floor.tap('Open, and turn the lock off');
  await says(lockOn(floor), 'That is neither the recovery code nor the passphrase');
  await fits();
  await floor.tap('Back to the PIN');
  await unlock(floor, PIN);
  await says(floor.page.getByRole('main'), NAME);
});

test('a forgotten PIN: the recovery code opens, the lock is off from then on, and a new PIN can be set', async () => {
  await turnOn(floor, 'at once');
  floor = handsOn(await phone.relaunch('/backup'));
  await unlock(floor, '0000');
  await says(lockOn(floor), 'That is not the PIN.');
  await floor.tap('Forgotten the PIN?');
  await floor.type('Recovery code or passphrase', `${code.slice(0, -1)}${code.endsWith('2') ? '3' : '2'}`);
  await floor.tap('Open, and turn the lock off');
  await says(lockOn(floor), 'That is neither the recovery code nor the passphrase');
  await floor.type('Recovery code or passphrase', code.toLowerCase());
  await floor.tap('Open, and turn the lock off');
  await says(cardOn(floor), 'It is off.');
  floor = handsOn(await phone.relaunch());
  await says(floor.page.getByRole('main'), NAME);
  await turnOn(floor, 'at once');
  floor = handsOn(await phone.relaunch());
  await pinOn(floor).waitFor();
});
