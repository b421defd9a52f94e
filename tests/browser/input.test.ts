import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchChromium } from '../tools/chromium';
import { type Hands, handsOn } from './hands';
import { openPhone, type Phone } from './harness';
import { says, textOf } from './said';

/* What is not right gets a sentence at its field; the text stays, and nothing is stored. */

let browser: Browser;
let phone: Phone;
let floor: Hands;

beforeAll(async () => {
  browser = await launchChromium();
  phone = await openPhone(browser, { at: '10:00' });
  floor = handsOn(phone.page);
  await floor.addClient({ alias: 'Client K' });
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
});
afterAll(async () => {
  await phone.close();
  await browser.close();
});

const alert = () => floor.pad().getByRole('alert');
const sets = async () => (await phone.stored()).sets('Client K');

describe('the pad', () => {
  test.each([
    ['load', 'six', 'load must be a number, such as 57.5; this is “six”'],
    ['load', '-5', 'load must be between 0 and 600 kg'],
    ['load', '601', 'load must be between 0 and 600 kg'],
    ['load', '1e3', 'load must be a number, such as 57.5; this is “1e3”'],
    ['load', '1.250,5', 'load must be a number, such as 57.5; this is “1.250,5”'],
    ['load', '57.5555', 'load takes at most 3 decimals'],
    ['load', '', 'load must say something'],
    ['reps', '5.5', 'reps must be a whole number'],
    ['reps', '999', 'reps must be between 0 and 500'],
    ['reps', '٥', 'reps must be a number, such as 5; this is “٥”'],
  ])('%s “%s”: %s', async (field, text, sentence) => {
    await floor.say({ load: '60', reps: '5' });
    const typed = await floor.typing(field);
    await typed.fill(text);
    await floor.tap(/^Log .* · /, floor.pad());
    await says(alert(), sentence);
    // it stands where it was typed, marked, ready to be mended
    const still = await floor.typing(field);
    expect(await still.inputValue()).toBe(text);
    expect(await still.getAttribute('aria-invalid')).toBe('true');
    expect(await floor.lines().count()).toBe(1);
  });

  test('nothing of it was stored, and the mended text is', async () => {
    expect(await sets()).toHaveLength(1);
    await floor.say({ load: ' 57,25 ', reps: '0' });
    await phone.clock('10:05');
    await says(await floor.log(), '57.25 kg × 0');
    expect(await alert().count()).toBe(0);
    expect((await sets()).at(-1)).toMatchObject({ load: { value: 57.25, unit: 'kg' }, reps: 0 });
  });

  test('a later part is named by its place', async () => {
    await floor.kind('drop');
    await floor.say({ load: '60', reps: '5', 'load of part 2': 'x', 'reps of part 2': '5' });
    await floor.tap(/^Log .* · /, floor.pad());
    await says(alert(), 'load of part 2 must be a number, such as 57.5; this is “x”');
    expect(await (await floor.typing('load of part 2')).inputValue()).toBe('x');
    expect(await sets()).toHaveLength(2);
    await floor.kind('working');
  });
});

describe('a logged set', () => {
  test.each([
    ['Effort as RPE', 'Keep RPE', '8.3', 'RPE goes in steps of 0.5'],
    ['Effort as RPE', 'Keep RPE', '11', 'RPE must be between 1 and 10'],
    ['Effort as RPE', 'Keep RPE', 'hard', 'RPE must be a number, such as 57.5; this is “hard”'],
    ['Note', 'Keep note', 'n'.repeat(2001), 'note takes at most 2,000 characters; this has 2,001'],
  ])('%s, %s', async (label, keep, text, sentence) => {
    await floor.tapOn(floor.lines().first().getByRole('button'));
    await floor.type(label, text);
    await floor.tap(keep, floor.sheet());
    await says(floor.sheet(), sentence);
    expect(await floor.page.getByLabel(label, { exact: true }).inputValue()).toBe(text);
    await floor.tap('Close', floor.sheet());
    await floor.sheet().waitFor({ state: 'detached' });
    await says(floor.lines().first(), '60 kg × 5 not noted');
  });

  test('an edit that is not right changes nothing', async () => {
    const before = await sets();
    await floor.tapOn(floor.lines().first().getByRole('button'));
    const held = floor.sheet().getByRole('region', { name: 'what it held' });
    await floor.tapOn(held.getByRole('button', { name: /^load: / }));
    await held.getByRole('textbox', { name: 'load' }).fill('heavy');
    await floor.tap('Keep these changes', held);
    await says(held.getByRole('alert'), 'load must be a number, such as 57.5; this is “heavy”');
    await floor.type('Set-up in this set', 's'.repeat(201));
    await held.getByRole('textbox', { name: 'load' }).fill('60');
    await floor.tap('Keep these changes', held);
    await says(held.getByRole('alert'), 'set-up takes at most 200 characters; this has 201');
    await floor.tap('Close', floor.sheet());
    expect(await sets()).toEqual(before);
  });

  test('a note of 2,000 characters is kept whole', async () => {
    const note = `${'n'.repeat(1999)}.`;
    await floor.tapOn(floor.lines().first().getByRole('button'));
    await floor.type('Note', note);
    await floor.tap('Keep note', floor.sheet());
    await says(floor.lines().first(), 'note');
    await floor.tap('Close', floor.sheet());
    expect((await sets())[0]).toMatchObject({ note });
  });
});

describe('the sheets', () => {
  test('End: effort and minutes', async () => {
    await floor.tap('End');
    for (const [label, text, sentence] of [
      [/^Whole-session effort/, '10.5', 'effort must be between 0 and 10'],
      [/^Whole-session effort/, '7.3', 'effort goes in steps of 0.5'],
      [/^Minutes trained/, '0', 'minutes must be between 1 and 600 min'],
      [/^Minutes trained/, '45.5', 'minutes must be a whole number'],
    ] as const) {
      await floor.type(/^Whole-session effort/, '7');
      await floor.type(/^Minutes trained/, '45');
      await floor.type(label, text);
      await floor.tap(/^End Client K/, floor.sheet());
      await says(floor.sheet(), sentence);
      expect(await floor.page.getByLabel(label).inputValue()).toBe(text);
    }
    await floor.tap('Close', floor.sheet());
    expect((await phone.stored()).sessions('Client K')[0]).not.toHaveProperty('end');
  });

  test('a cue and an exercise without words, or with too many', async () => {
    await floor.tap('+ exercise');
    await floor.tap('Add a new exercise');
    await floor.tap('Add and use it');
    await says(floor.sheet(), 'name must say something');
    await floor.type('Find, or name a new one', 'x'.repeat(300));
    await floor.tap('Add and use it');
    await says(floor.sheet(), 'name takes at most 60 characters; this has 300');
    await floor.tap('Close', floor.sheet());
    expect((await phone.stored()).ofKind('exercise')).toEqual([]);
  });
});

describe('a client', () => {
  test.each([
    ['no name', { alias: '  ' }, 'name must say something'],
    ['300 characters', { alias: 'x'.repeat(300) }, 'name takes at most 40 characters; this has 300'],
    ['41 Hebrew ones', { alias: 'ק'.repeat(41) }, 'name takes at most 40 characters; this has 41'],
    ['a long short name', { alias: 'V', short: 'toolong' }, 'short name takes at most 6 characters; this has 7'],
    ['a named day without its day', { alias: 'V', dayName: 'opening' }, 'day must say something'],
    ['a day without its name', { alias: 'V', day: '2026-12-01' }, 'name of the day must say something'],
  ])('%s', async (_what, client, sentence) => {
    const other = handsOn(await phone.tab('/'));
    await other.tap('+ client');
    const { alias, short, dayName, day } = { short: '', dayName: '', day: '', ...client };
    await other.type(/^Name; an alias/, alias);
    await other.type('Short name for the tab', short);
    await other.type(/^A day to work towards/, dayName);
    await other.type('When', day);
    await other.tap('Add this client');
    await says(other.page.getByRole('alert'), sentence);
    expect(await other.page.getByLabel(/^Name; an alias/).inputValue()).toBe(alias);
    await other.page.close();
    expect((await phone.stored()).ofKind('client')).toHaveLength(1);
  });

  test('a body mass out of bounds, and a day that is not there', async () => {
    await floor.tap('‹ Today');
    await floor.tap('Client K');
    const card = floor.page.getByRole('region', { name: 'body mass' });
    for (const [mass, day, sentence] of [
      ['5', '2026-11-24', 'body mass must be between 20 and 300 kg'],
      ['sixty', '2026-11-24', 'body mass must be a number, such as 57.5; this is “sixty”'],
      ['61', '', 'day must be a day that exists, such as 2027-02-28; this is “”'],
    ] as const) {
      await card.getByLabel('Body mass', { exact: true }).fill(mass);
      await card.getByLabel('Day', { exact: true }).fill(day);
      await floor.tap('Note body mass');
      await says(card, sentence);
    }
    expect((await phone.stored()).ofKind('result')).toEqual([]);
    expect(await textOf(floor.page.getByRole('main'))).not.toContain('undefined');
    await floor.tap('‹ Back');
  });
});
