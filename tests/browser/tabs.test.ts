import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { launchChromium } from '../tools/chromium';
import { type Hands, handsOn } from './hands';
import { openPhone, type Phone } from './harness';
import { says, textOf } from './said';

/* Two tabs of one log: one writes, the other shows what was written and offers to take over. No set is lost or doubled. */

let browser: Browser;
let phone: Phone;
let one: Hands;
let other: Hands;

beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());
beforeEach(async () => {
  phone = await openPhone(browser, { at: '10:00' });
  one = handsOn(phone.page);
  await one.addClient({ alias: 'Client K' });
  await one.start('K', 'Front squat');
  await one.say({ load: '60', reps: '5' });
  await one.log();
  other = handsOn(await phone.tab(new URL(one.page.url()).pathname));
});
afterEach(() => phone.close());

test('the second tab shows what was logged and logs nothing until it is used', async () => {
  await says(other.lines(), '60 kg × 5');
  await says(other.pad(), 'Another tab of this app is logging.', 'Use this tab');
  expect(await other.pad().getByRole('button', { name: /^Log/ }).count()).toBe(0);
  // what the first logs comes to the second by itself
  await phone.clock('10:03');
  await one.page.bringToFront();
  await one.tap('62.5', one.pad());
  await one.log();
  await says(other.lines().last(), '62.5 kg × 5');
  await other.page.bringToFront();
  await other.tap('‹ Today');
  await says(other.page.getByRole('main'), 'Running · 3 min · 2 sets.');
});

test('a follower’s taps on a logged set, its sheet or undo store nothing', async () => {
  const before = await phone.stored();
  await other.tapOn(other.lines().first().getByRole('button'));
  const tried = other.sheet().getByRole('button');
  await tried.first().waitFor();
  for (const name of ['2 left', 'clean', 'heel up', 'pain 2', 'Remove this set', 'Keep these changes']) {
    const chip = tried.and(other.page.getByRole('button', { name, exact: true }));
    if (await chip.isVisible()) await chip.tap();
  }
  if (await other.sheet().isVisible()) await other.tap('Close', other.sheet());
  const undo = other.page.getByRole('button', { name: /^Undo/ });
  if (await undo.isVisible()) await undo.tap();
  expect((await phone.stored()).sets('Client K')).toEqual(before.sets('Client K'));
  await says(one.lines(), '1 60 kg × 5 not noted');
});

test('the tabs take over from each other in turn, and every set is there once', async () => {
  await other.tap('Use this tab');
  await phone.clock('10:03');
  await says(await other.log(), '60 kg × 5');
  await says(one.pad(), 'Another tab of this app is logging.');
  await says(one.lines().last(), '2 60 kg × 5');

  await one.page.bringToFront();
  await one.tap('Use this tab');
  await phone.clock('10:06');
  await one.say({ load: '65' });
  await one.log();
  await says(other.pad(), 'Use this tab');
  await says(other.lines().last(), '3 65 kg × 5');
  expect((await phone.stored()).sets('Client K').map((set) => set.load?.value)).toEqual([60, 60, 65]);
  expect(await textOf(one.lines())).toBe(await textOf(other.lines()));
});

test('what is half typed in the first tab is there in the second', async () => {
  await (await one.typing('load')).fill('71,5');
  await other.tap('Use this tab');
  await says(other.pad().getByRole('group', { name: 'next set' }), '71.5 kg × 5');
});

test('when the writing tab is closed, the other takes over at a tap', async () => {
  await says(other.pad(), 'Use this tab');
  await one.page.close();
  await other.tap('Use this tab');
  await phone.clock('10:03');
  await other.log();
  expect((await phone.stored()).sets('Client K')).toHaveLength(2);
});

test('Today of a second tab starts nothing, and says why', async () => {
  const third = handsOn(await phone.tab('/'));
  await says(third.page.getByRole('main'), 'Another tab of this app is logging; open a session here to take over.');
  await third.tap('Resume K');
  await says(third.pad(), 'Use this tab');
});
