import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { axeFinds, badTargets, reachesPastTheSide } from './measure';
import { says, textOf } from './said';
import { storedFrom } from './stored';

/* The screen lock: a colleague with the phone in hand sees nothing and reaches nothing, and the trainer finds everything as it was. */

const NAME = 'Quillfeather';
const PIN = '2580';

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: NAME, short: 'Quill' });
});

const card = () => floor.page.getByRole('region', { name: 'screen lock' });
const pin = () => floor.page.getByLabel('PIN', { exact: true });
const lock = () => floor.page.locator('.lock-screen');
const visible = () => textOf(floor.page.locator('body'));

async function unlock(digits: string): Promise<void> {
  await pin().fill(digits);
  await floor.tap('Unlock');
}

/** Turns the lock on by taps alone, and goes back to where it was done from. */
async function turnOn(when: 'at once' | 'after 5 minutes'): Promise<void> {
  const other = handsOn(await phone.tab('/backup'));
  const form = other.page.getByRole('region', { name: 'screen lock' });
  await says(form, 'It is off.', 'It does not protect against somebody who copies the phone’s storage');
  await other.tap('Set a PIN', form);
  await other.type('New PIN, 4 to 12 digits', PIN);
  await other.type('The same PIN again', '2508');
  await other.tap(when, form);
  await other.tap('Turn it on', form);
  await says(form, 'The two are not the same.');
  await other.type('The same PIN again', PIN);
  expect(await badTargets(other.page)).toEqual([]);
  expect(await axeFinds(other.page)).toEqual([]);
  await other.tap('Turn it on', form);
  await says(form, 'It is on, and asks');
  await other.page.close();
}

/** The session of today, with a set in it and a sheet open in which something is half typed. */
async function halfTyped(): Promise<void> {
  await floor.start('Quill', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  await floor.tap('+ exercise');
  await floor.type('Find, or name a new one', 'half ty');
}

/** As a phone does when another app comes in front, and when this one comes back. */
const sight = (state: 'hidden' | 'visible'): Promise<void> =>
  floor.page.evaluate((next) => {
    Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => next });
    document.dispatchEvent(new Event('visibilitychange'));
  }, state);

/** Everything a screen reader could be told of the page. */
async function read(): Promise<string> {
  const tools = await phone.context.newCDPSession(floor.page);
  const { nodes } = await tools.send('Accessibility.getFullAXTree');
  await tools.detach();
  return nodes
    .filter((node) => !node.ignored)
    .map((node) => `${node.name?.value ?? ''} ${node.value?.value ?? ''}`)
    .join('\n');
}

/** Whether the browser's own search finds a word on the page. */
const finds = (word: string): Promise<unknown> =>
  floor.page.evaluate((text) => {
    getSelection()?.removeAllRanges();
    return Reflect.get(window, 'find').call(window, text, false, false, true);
  }, word);

test('a start with the lock on draws nothing of the records; a wrong PIN is told, the right one opens the same address', async () => {
  await halfTyped();
  await turnOn('after 5 minutes');
  await phone.context.addInitScript((name) => {
    new MutationObserver(() => {
      if (document.documentElement.outerHTML.includes(name)) localStorage.setItem('test.drawn', name);
    }).observe(document, { subtree: true, childList: true, characterData: true, attributes: true });
  }, NAME);
  const drawn = () => floor.page.evaluate(() => localStorage.getItem('test.drawn'));
  const address = floor.page.url();
  expect(address).toContain('/exercise');

  for (const path of ['/', '/backup', new URL(address).pathname]) {
    floor = handsOn(await phone.relaunch(path));
    await pin().waitFor();
    // the log is open behind it by now
    await floor.page.waitForTimeout(500);
    const all = `${await floor.page.content()} ${await floor.page.title()} ${await read()}`;
    for (const word of [NAME, 'Quill', 'Front squat', '60 kg']) expect(all).not.toContain(word);
    expect(await drawn()).toBeNull();
  }
  expect(await axeFinds(floor.page)).toEqual([]);
  expect(await badTargets(floor.page)).toEqual([]);

  await floor.tap('Unlock');
  await says(lock(), 'A PIN is 4 to 12 digits.');
  await unlock('2581');
  await says(lock(), 'That is not the PIN.');
  expect(await visible()).not.toContain(NAME);
  await unlock(PIN);
  await floor.sheet().waitFor();
  expect(floor.page.url()).toBe(address);
  expect(await lock().count()).toBe(0);
  // what watched for the name would have seen it
  await expect.poll(drawn).toBe(NAME);
});

test('out of sight nothing is seen, not even an open sheet; back late it is locked, and the PIN brings it back as it was', async () => {
  await halfTyped();
  await turnOn('at once');
  expect(await visible()).toContain('Front squat');
  expect(await read()).toContain('half ty');
  const title = (await floor.sheet().getByRole('heading').first().textContent()) ?? '';
  expect(await finds(title)).toBe(true);
  await sight('hidden');
  expect(await visible()).toBe('');
  await sight('visible');
  await pin().waitFor();
  for (const word of [NAME, 'Quill', 'Front squat', 'half ty', title]) {
    expect(await visible()).not.toContain(word);
    expect(await read()).not.toContain(word);
    expect(await finds(word)).toBe(false);
  }
  // no key gets behind it
  const stops = new Set<string>();
  for (let key = 0; key < 12; key += 1) {
    await floor.page.keyboard.press(key < 6 ? 'Tab' : 'Shift+Tab');
    stops.add(
      await floor.page.evaluate(() => {
        const at = document.activeElement;
        return at === document.body ? 'page' : at?.closest('.lock-screen') ? 'lock' : (at?.outerHTML ?? 'none');
      }),
    );
  }
  expect([...stops].filter((stop) => stop !== 'page')).toEqual(['lock']);
  await floor.page.keyboard.press('Escape');
  const address = floor.page.url();
  const back = floor.page.waitForURL((url) => url.href !== address, { waitUntil: 'commit' });
  await floor.page.evaluate(() => history.back());
  await back;
  await expect.poll(() => floor.page.url()).toBe(address);
  expect(await axeFinds(floor.page)).toEqual([]);

  await unlock(PIN);
  await lock().waitFor({ state: 'detached' });
  const field = floor.page.getByLabel('Find, or name a new one');
  expect(await field.inputValue()).toBe('half ty');
  expect(await field.evaluate((one) => one === document.activeElement)).toBe(true);
  // and goes on: the sheet, the rest behind it, the pad
  await floor.type('Find, or name a new one', 'Pull-up');
  await floor.tap('Pull-up', floor.sheet());
  await says(floor.pad(), 'body mass');
});

test('back within its minutes it asks for nothing; with a clock set back it does', async () => {
  await halfTyped();
  await turnOn('after 5 minutes');
  const field = floor.page.getByLabel('Find, or name a new one');
  await sight('hidden');
  expect(await visible()).toBe('');
  await phone.clock('10:04:59');
  await sight('visible');
  expect(await field.inputValue()).toBe('half ty');
  expect(await lock().count()).toBe(0);
  await sight('hidden');
  await phone.clock('10:04');
  await sight('visible');
  await pin().waitFor();
  expect(await field.isVisible()).toBe(false);
});

test('five wrong ones make one wait, over a reload too; the next counts double', async () => {
  await turnOn('at once');
  floor = handsOn(await phone.relaunch());
  for (let tries = 0; tries < 5; tries += 1) {
    await unlock(`100${tries}`);
    await says(lock(), tries < 4 ? 'That is not the PIN.' : 'The next can be tried in 0:30.');
    await expect.poll(() => pin().inputValue()).toBe('');
  }
  floor = handsOn(await phone.relaunch());
  await says(lock(), 'Too many wrong ones in a row. The next can be tried in 0:30.');
  expect(await floor.page.getByRole('button', { name: 'Unlock' }).isDisabled()).toBe(true);
  expect(await axeFinds(floor.page)).toEqual([]);
  await phone.clock('10:00:29');
  await says(lock(), 'in 0:01.');
  await phone.clock('10:00:30');
  await expect.poll(() => floor.page.getByRole('button', { name: 'Unlock' }).isEnabled()).toBe(true);
  await unlock('1005');
  await says(lock(), 'in 1:00.');
  await phone.clock('10:01:30');
  await expect.poll(() => floor.page.getByRole('button', { name: 'Unlock' }).isEnabled()).toBe(true);
  await unlock(PIN);
  await says(floor.page.getByRole('main'), NAME);
});

test('when it asks and the PIN are changed, and it is turned off, each with the PIN', async () => {
  await turnOn('at once');
  floor = handsOn(await phone.relaunch('/backup'));
  await unlock(PIN);
  await says(card(), 'as soon as the app was out of sight');
  await floor.tap('Change when it asks', card());
  await floor.tap('after 15 minutes', card());
  await floor.type('PIN as it is now', '1111');
  await floor.tap('Keep when it asks', card());
  await says(card(), 'That is not the PIN.');
  await floor.type('PIN as it is now', PIN);
  await floor.tap('Keep when it asks', card());
  await says(card(), 'asks after 15 minutes out of sight');
  await floor.tap('Change the PIN', card());
  await floor.type('PIN as it is now', PIN);
  await floor.type('New PIN, 4 to 12 digits', '97531');
  await floor.type('The same PIN again', '97531');
  await floor.tap('Keep the new PIN', card());
  await floor.tap('Turn it off', card());
  await floor.type('PIN as it is now', '97531');
  await floor.tap('Turn it off', card());
  await says(card(), 'It is off.');
  floor = handsOn(await phone.relaunch());
  await says(floor.page.getByRole('main'), NAME);
});

test('a record that is damaged locks nobody out, and Backup says so', async () => {
  await turnOn('at once');
  await floor.page.evaluate(() => localStorage.setItem('cuewright.lock', '{"format":"cuewright-lock/1","salt":'));
  floor = handsOn(await phone.relaunch('/backup'));
  await says(card(), 'The lock was off: what it had kept could not be read.', 'It is off.');
});

test('the page that helps where the app does not start hands nothing out without the PIN', async () => {
  await turnOn('at once');
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
  await turnOn('at once');
  floor = handsOn(await phone.relaunch());
  await floor.page.setViewportSize({ width: 320, height: 568 });
  await pin().waitFor();
  const fits = async () => {
    expect(await reachesPastTheSide(floor.page)).toEqual([]);
    expect(await badTargets(floor.page)).toEqual([]);
    expect(await axeFinds(floor.page)).toEqual([]);
  };
  await fits();
  await floor.tap('Forgotten the PIN?');
  await floor.type('Recovery code or passphrase', 'A1B2-C3D4');
  await floor.tap('Open, and turn the lock off');
  await says(lock(), 'This device has no recovery code and no passphrase: only the PIN opens it.');
  await fits();
  await floor.tap('Back to the PIN');
  await unlock(PIN);
  await says(floor.page.getByRole('main'), NAME);
});
