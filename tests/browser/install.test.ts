import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { axeFinds, badTargets, reachesPastTheSide } from './measure';
import { says, saysNot } from './said';

/* The hint to install: once on Today after the first kept session, always on Backup, told by what the browser can do. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client K' });
});

const TITLE = 'Put the app on this device';
const hint = () => floor.page.locator('section').filter({ hasText: TITLE });

/** Makes the browser look like another kind by what it can do, from the next start on. */
type Looks = {
  readonly standalone?: boolean;
  readonly touches?: number;
  readonly gestures?: true;
  readonly moz?: true;
};

async function startAs(looks: Looks, path: string): Promise<void> {
  await phone.context.addInitScript(({ standalone, touches = 0, gestures, moz }: Looks) => {
    Object.defineProperty(navigator, 'maxTouchPoints', { value: touches });
    if (standalone !== undefined) Object.defineProperty(navigator, 'standalone', { value: standalone });
    if (gestures) Object.defineProperty(window, 'GestureEvent', { value: class {} });
    if (moz) CSS.supports = () => true;
  }, looks);
  floor = handsOn(await phone.relaunch(path));
}

async function keepSession(): Promise<void> {
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
}

async function endSession(): Promise<void> {
  await floor.tap('End');
  await floor.tap('End Client K’s session', floor.sheet());
}

test('it comes after the first kept session, never while one runs, and “not now” is for good', async () => {
  const main = () => floor.page.getByRole('main');
  await says(main(), 'Client K');
  expect(await hint().count()).toBe(0);
  await keepSession();
  expect(await hint().count()).toBe(0);
  await floor.tap('‹ Today');
  await says(main(), 'Running');
  expect(await hint().count()).toBe(0);
  await floor.tap('Resume K');
  await endSession();
  await says(hint(), 'Open the browser’s menu', 'Not now');
  expect(await badTargets(floor.page)).toEqual([]);
  expect(await axeFinds(floor.page)).toEqual([]);
  await floor.tap('Not now', hint());
  await saysNot(main(), TITLE);
  floor = handsOn(await phone.relaunch());
  await says(main(), 'Done today');
  expect(await hint().count()).toBe(0);
  floor = handsOn(await phone.relaunch('/backup'));
  await says(hint(), 'Open the browser’s menu');
  expect(await hint().getByRole('button').count()).toBe(0);
});

test('where the browser offers to install, one tap asks it, once', async () => {
  floor = handsOn(await phone.relaunch('/backup'));
  await says(hint(), 'Open the browser’s menu');
  const held = await floor.page.evaluate(() => {
    const offer = Object.assign(new Event('beforeinstallprompt', { cancelable: true }), {
      prompt: () => Promise.resolve(document.body.setAttribute('data-asked', 'yes')),
    });
    return !window.dispatchEvent(offer);
  });
  expect(held, 'left to itself the browser could ask in the middle of a set').toBe(true);
  await floor.tap('Install', hint());
  expect(await floor.page.locator('body').getAttribute('data-asked')).toBe('yes');
  await says(hint(), 'Open the browser’s menu');
  await floor.page.evaluate(() => window.dispatchEvent(new Event('appinstalled')));
  await saysNot(floor.page.getByRole('main'), TITLE);
});

test('on an iPhone it says what to tap and why, and warns that the installed app begins empty', async () => {
  await keepSession();
  await endSession();
  await startAs({ standalone: false, touches: 5, gestures: true }, '/');
  await says(
    hint(),
    'Tap Share, then “Add to Home Screen”',
    'seven days',
    'does not see what this tab holds. Save the backup file',
  );
  expect(await badTargets(floor.page)).toEqual([]);
  expect(await axeFinds(floor.page)).toEqual([]);
  await floor.page.setViewportSize({ width: 320, height: 640 });
  expect(await reachesPastTheSide(floor.page)).toEqual([]);
  await floor.tap('Backup', hint());
  await says(
    floor.page.getByRole('main'),
    'nowhere else',
    'It is lost',
    'So put the app on the Home Screen',
    'A sealed backup',
    'Everything as a plain file',
    TITLE,
  );
  expect(await axeFinds(floor.page)).toEqual([]);
  expect(await reachesPastTheSide(floor.page)).toEqual([]);
});

test.each<[string, Looks, string]>([
  ['Safari on a Mac', { gestures: true }, '“Add to Dock”'],
  ['Firefox on a phone', { moz: true, touches: 5 }, 'Add app to Home screen'],
  ['Firefox on a computer', { moz: true }, 'Firefox on a computer may not offer'],
])('%s', async (_name, looks, words) => {
  await startAs(looks, '/backup');
  await says(hint(), words);
});

test('installed, there is nothing to say', async () => {
  await startAs({ standalone: true, touches: 5 }, '/backup');
  await says(floor.page.getByRole('main'), 'Where the records are', 'The app');
  expect(await hint().count()).toBe(0);
});
