import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { launchChromium } from '../tools/chromium';
import { type Hands, handsOn } from './hands';
import { openPhone, type Phone } from './harness';
import { says } from './said';

/* How many taps the floor takes, each once out of a rest and once in it. The figures are the project's goals. */

let browser: Browser;
let phone: Phone;
let floor: Hands;

beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

const tabs = () => phone.page.getByRole('navigation', { name: 'clients' });
const next = () => floor.pad().getByRole('group', { name: 'next set' });
const resting = () => phone.page.getByRole('timer', { name: 'rest left' });

describe.each([
  { where: 'out of a rest', seconds: 1800, rests: 0 },
  { where: 'in a rest', seconds: 20, rests: 1 },
])('$where', ({ seconds, rests }) => {
  let now = Date.parse('2026-11-24T10:00+01:00');

  /** K has a set of a squat behind and Vale one of a row; each test goes on where the one before ended. */
  beforeAll(async () => {
    phone = await openPhone(browser, { at: '10:00' });
    floor = handsOn(phone.page);
    await floor.addClient({ alias: 'Client K' });
    await floor.addClient({ alias: 'Vale' });
    await floor.start('Vale', 'Front squat');
    await floor.say({ load: '40', reps: '8' });
    await floor.log();
    await floor.tap('‹ Today');
    await floor.start('K', 'Front squat');
    await floor.say({ load: '55', reps: '5' });
    await floor.log();
    await later();
    await floor.say({ load: '57.5' });
    await floor.log();
  });
  afterAll(() => phone.close());
  beforeEach(async () => {
    await later();
    await expect.poll(() => resting().count()).toBe(rests);
    floor.count();
  });
  const later = () => {
    now += seconds * 1000;
    return phone.tell('now', now);
  };

  test('log the prefilled set: 1', async () => {
    await says(await floor.log(), '57.5 kg × 5');
    expect(floor.count()).toBe(1);
  });

  test('change the load to a recent value and log: 2', async () => {
    await floor.tap('55', floor.pad());
    await says(await floor.log(), '55 kg × 5');
    expect(floor.count()).toBe(2);
  });

  test('change the reps and log: 3', async () => {
    await floor.tapOn(next().getByRole('button', { name: /^reps/ }));
    await floor.tap('6', floor.pad());
    await says(await floor.log(), '55 kg × 6');
    expect(floor.count()).toBe(3);
  });

  test('change the kind and log: 3', async () => {
    await floor.tap('working', next());
    await floor.tap('test', floor.pad());
    await says(await floor.log(), '55 kg × 6 test');
    expect(floor.count()).toBe(3);
  });

  test('a back-off of 30 % and log: 4', async () => {
    await floor.tap('test', next());
    await floor.tap('back-off', floor.pad());
    await floor.tap('30 % less', floor.pad());
    await says(await floor.log(), '37.5 kg × 6 back-off');
    expect(floor.count()).toBe(4);
  });

  test('switch to another client: 1, and what was in hand of the first is there again', async () => {
    await floor.tap(/^Vale /, tabs());
    await says(next(), '40 kg × 8 working');
    expect(floor.count()).toBe(1);
    await floor.tap(/^K /, tabs());
    await says(next(), '37.5 kg × 6 back-off');
    expect(floor.count()).toBe(1);
  });

  test('move a set to another client: at most 3', async () => {
    const before = await floor.lines().count();
    await floor.tapOn(floor.lines().last().getByRole('button'));
    await floor.tap('move to Vale', floor.sheet());
    await expect.poll(() => floor.lines().count()).toBe(before - 1);
    expect(floor.count()).toBeLessThanOrEqual(3);
  });
});

test('the other side: 0', async () => {
  phone = await openPhone(browser, { at: '10:00' });
  floor = handsOn(phone.page);
  await floor.addClient({ alias: 'Client K' });
  await floor.start('K', 'One-arm row');
  await floor.say({ load: '20', reps: '8' });
  floor.count();
  for (const [time, named] of [
    ['10:01', /left, set 1/],
    ['10:02', /right, set 1/],
    ['10:02:20', /left, set 2/],
    ['10:03', /right, set 2/],
  ] as const) {
    await phone.clock(time);
    await floor.log(named);
  }
  expect(floor.count()).toBe(4);
  await phone.close();
});

describe('touch up, in the rest', () => {
  test('effort, form, how it ended and a cue’s answer: 1 each', async () => {
    phone = await openPhone(browser, { at: '10:00' });
    floor = handsOn(phone.page);
    await floor.addClient({ alias: 'Client K' });
    await floor.start('K', 'Front squat');
    await floor.say({ load: '55', reps: '5' });
    await floor.log();
    await floor.tap('+ cue');
    await floor.type('Find, or a new cue in your words', 'knees out');
    await floor.tap('Add and give');
    await phone.clock('10:02');
    await floor.log();
    const line = floor.lines().last();
    floor.count();
    let said = '';
    for (const [chip, told] of [
      ['2 left', '2 left'],
      ['clean', ' · clean'],
      ['missed', ' · missed'],
      // the cue given before is in hand for the set that follows
      ['better', ' · cue better'],
    ] as const) {
      await floor.tap(chip, floor.pad());
      said += told;
      await says(line, said);
      expect(floor.count()).toBe(1);
    }
    // after the rest the same line opens what the touch-up held: two taps
    await phone.clock('10:30');
    await expect.poll(() => resting().count()).toBe(0);
    await floor.tapOn(line.getByRole('button'));
    await floor.tap('slipping', floor.sheet());
    await says(line, '2 left · slipping');
    expect(floor.count()).toBe(2);
    await phone.close();
  });
});

describe('start', () => {
  test('a session from Today: 1; beside one that runs, or in the first paint of a new launch: at most 2', async () => {
    phone = await openPhone(browser, { at: '10:00' });
    floor = handsOn(phone.page);
    await floor.addClient({ alias: 'Client K' });
    await floor.addClient({ alias: 'Vale' });
    floor.count();
    await floor.tap('Start K');
    await says(floor.pad(), 'Nothing is in hand yet.');
    expect(floor.count()).toBe(1);
    await floor.tap('another client');
    await floor.tap('Start Vale', floor.sheet());
    await says(phone.page.getByRole('heading', { level: 1 }), 'Vale');
    expect(floor.count()).toBe(2);
    await phone.clock('10:01');
    floor = handsOn(await phone.relaunch());
    await floor.tap('Resume Vale');
    await says(floor.pad(), 'Nothing is in hand yet.');
    expect(floor.count()).toBe(1);
    await phone.close();
  });
});
