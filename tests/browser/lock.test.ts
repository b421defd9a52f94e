import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { cardOn, lockOn, makeCode, NAME, PIN, pinOn, turnOn, unlock } from './lockHands';
import { axeFinds, badTargets } from './measure';
import { says, textOf } from './said';

/* The screen lock: a colleague with the phone in hand sees nothing and reaches nothing, and the trainer finds everything as it was. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await makeCode(floor);
});

const visible = () => textOf(floor.page.locator('body'));

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
  await turnOn(floor, 'after 5 minutes');
  await halfTyped();
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
    await pinOn(floor).waitFor();
    // the log is open behind it by now
    await floor.page.waitForTimeout(500);
    const all = `${await floor.page.content()} ${await floor.page.title()} ${await read()}`;
    for (const word of [NAME, 'Quill', 'Front squat', '60 kg']) expect(all).not.toContain(word);
    expect(await drawn()).toBeNull();
  }
  expect(await axeFinds(floor.page)).toEqual([]);
  expect(await badTargets(floor.page)).toEqual([]);

  await floor.tap('Unlock');
  await says(lockOn(floor), 'A PIN is 4 to 12 digits.');
  await unlock(floor, '2581');
  await says(lockOn(floor), 'That is not the PIN.');
  expect(await visible()).not.toContain(NAME);
  await unlock(floor, PIN);
  await floor.sheet().waitFor();
  expect(floor.page.url()).toBe(address);
  expect(await lockOn(floor).count()).toBe(0);
  // what watched for the name would have seen it
  await expect.poll(drawn).toBe(NAME);
});

test('out of sight nothing is seen, not even an open sheet; back late it is locked, and the PIN brings it back as it was', async () => {
  await turnOn(floor, 'at once');
  await halfTyped();
  expect(await visible()).toContain('Front squat');
  expect(await read()).toContain('half ty');
  const title = (await floor.sheet().getByRole('heading').first().textContent()) ?? '';
  expect(await finds(title)).toBe(true);
  await sight('hidden');
  expect(await visible()).toBe('');
  await sight('visible');
  await pinOn(floor).waitFor();
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

  await unlock(floor, PIN);
  await lockOn(floor).waitFor({ state: 'detached' });
  const field = floor.page.getByLabel('Find, or name a new one');
  expect(await field.inputValue()).toBe('half ty');
  expect(await field.evaluate((one) => one === document.activeElement)).toBe(true);
  // and goes on: the sheet, the rest behind it, the pad
  await floor.type('Find, or name a new one', 'Pull-up');
  await floor.tap('Pull-up', floor.sheet());
  await says(floor.pad(), 'body mass');
});

test('back within its minutes it asks for nothing; with a clock set back it does', async () => {
  await turnOn(floor, 'after 5 minutes');
  await halfTyped();
  const field = floor.page.getByLabel('Find, or name a new one');
  await sight('hidden');
  expect(await visible()).toBe('');
  await phone.clock('10:04:59');
  await sight('visible');
  expect(await field.inputValue()).toBe('half ty');
  expect(await lockOn(floor).count()).toBe(0);
  await sight('hidden');
  await phone.clock('10:04');
  await sight('visible');
  await pinOn(floor).waitFor();
  expect(await field.isVisible()).toBe(false);
});

test('a record that is damaged locks nobody out, and Backup says so', async () => {
  await turnOn(floor, 'at once');
  await floor.page.evaluate(() => localStorage.setItem('cuewright.lock', '{"format":"cuewright-lock/1","salt":'));
  floor = handsOn(await phone.relaunch('/backup'));
  await says(cardOn(floor), 'The lock was off: what it had kept could not be read.', 'It is off.');
});
