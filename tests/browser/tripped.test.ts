import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import type { Hands } from './hands';
import type { Phone } from './harness';
import { says, saysNot, textOf } from './said';

/* What strangers tripped over when they used the app with nothing but its README. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client K', short: 'Kay' });
});

test('a note typed in a set’s sheet is kept when the sheet is closed, and one of a removed set brings nothing back', async () => {
  await floor.start('Kay', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  await floor.tapOn(floor.lines().first().getByRole('button'));
  await floor.type('Note', '  heels came up ');
  await floor.tap('Close', floor.sheet());
  await floor.sheet().waitFor({ state: 'detached' });
  await expect.poll(async () => (await phone.stored()).sets('Client K')).toMatchObject([{ note: 'heels came up' }]);
  await floor.tapOn(floor.lines().first().getByRole('button'));
  await floor.type('Note', 'gone with it');
  await floor.tap('Remove this set', floor.sheet());
  await floor.sheet().waitFor({ state: 'detached' });
  expect((await phone.stored()).sets('Client K')).toEqual([]);
});

test('the very name is found first, and what could be added stands behind what is there', async () => {
  await floor.start('Kay');
  await floor.tap('Choose an exercise');
  await floor.type('Find, or name a new one', 'plank');
  const names = floor.sheet().getByRole('button');
  await expect.poll(() => names.allTextContents()).toContain('Side plank');
  expect((await names.allTextContents()).slice(1, 3)).toEqual(['Plank', 'Side plank']);
  expect((await names.allTextContents()).at(-1)).toBe('Add “plank”');
  await floor.type('Find, or name a new one', 'plank of my own');
  await says(floor.sheet(), 'Add “plank of my own”');
});

test('a cell that the plan leaves open says what it waits for; a done block says so, and its last set can be noted', async () => {
  await floor.start('Kay');
  await floor.tap('More');
  await floor.tap(/^Add a block/, floor.sheet());
  await floor.type('Find a station', 'Front squat');
  await floor.tap('+ Front squat', floor.sheet());
  await floor.tap('Add the block');
  await floor.tap('Close', floor.sheet());
  const block = floor.page.getByRole('region', { name: 'block A' });
  await floor.tapOn(block.getByRole('button', { name: /^A1 round 1/ }));
  await says(block.getByRole('alert'), 'load must say something');
  await floor.say({ load: '40', reps: '5' });
  await floor.tap(/^Log Kay · round 1/, floor.pad());
  await saysNot(block, 'load must say something');
  for (const round of [2, 3]) await floor.tap(new RegExp(`^Log Kay · round ${round}`), floor.pad());
  await says(floor.pad(), 'Last set, while you rest', 'This block is done. Choose what comes next.');
  await floor.tap('2 left', floor.pad());
  await expect.poll(async () => (await phone.stored()).sets('Client K').at(-1)).toMatchObject({ effort: { value: 2 } });
  expect(await textOf(floor.pad())).not.toContain('mobility');
});

test('what was done today is counted after a restart, and after a page that was scrolled the next begins at its top', async () => {
  await floor.start('Kay', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  await floor.tap('End');
  await floor.tap(/^End Client K/, floor.sheet());
  const again = await phone.relaunch('/');
  await says(again.getByRole('main'), 'Done today · 1 set.');
  const page = await phone.relaunch('/backup');
  const keys = page.getByRole('button', { name: 'Keys, and a lost phone' });
  await keys.scrollIntoViewIfNeeded();
  await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
  expect(await page.evaluate(() => scrollY)).toBeGreaterThan(100);
  await keys.evaluate((button) => (button as HTMLElement).click());
  await says(page.getByRole('main'), 'Recovery code');
  expect(await page.evaluate(() => scrollY)).toBe(0);
});
