import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { says } from './said';

let phone: Phone;
let floor: Hands;

eachPhone('16:00', (made, hands) => {
  phone = made;
  floor = hands;
});

const main = () => phone.page.getByRole('main');
const button = (name: string | RegExp) => phone.page.getByRole('button', { name });

/** Takes the first exercise of a session in hand. */
async function begin(exercise: string): Promise<void> {
  await floor.tap('Choose an exercise');
  await floor.tap(exercise, floor.sheet());
  await floor.sheet().waitFor({ state: 'detached' });
}

/** One set of each exercise, and the end of the session. */
async function train(exercises: readonly string[], at: string): Promise<void> {
  for (const [index, exercise] of exercises.entries()) {
    await phone.clock(`${at}:${10 + index}`);
    await (index === 0 ? begin(exercise) : floor.choose(exercise));
    await floor.say({ reps: '8' });
    await floor.log();
  }
  await floor.tap('End');
  await floor.tap(/^End Client/, floor.sheet());
}

test('the first session without any set-up: a set is saved after six taps, and the cautions were shown', async () => {
  await says(main(), 'not medical advice', 'Pain of 4 or more, or a stop sign');
  floor.count();
  await floor.tap('Start the first session');
  await floor.tap('Choose an exercise');
  await floor.tap('Push-up', floor.sheet());
  await floor.say({ reps: '8' });
  await floor.tap(/^Log A/);
  await says(floor.lines().first(), 'body mass × 8');
  expect(floor.count()).toBeLessThanOrEqual(6);
  const stored = await phone.stored();
  expect(stored.ofKind('client')).toMatchObject([{ alias: 'Client A' }]);
  expect(stored.sets('Client A')).toHaveLength(1);
});

test('an empty name is refused at its field, and nothing is stored', async () => {
  await floor.type('Who trains? An alias is enough', '  ');
  await floor.tap('Start the first session');
  await says(main(), 'name must say something');
  expect((await phone.stored()).ofKind('client')).toEqual([]);
});

test('after two sessions alike Today offers the usual one, and it starts in one tap with what was done', async () => {
  await floor.tap('Start the first session');
  await train(['Push-up', 'Pull-up'], '16:01');
  await phone.clock('2026-11-26 16:00');
  floor = handsOn(await phone.relaunch());
  await says(main(), 'Start A');
  expect(await button(/the usual/).count()).toBe(0);
  await floor.tap('Start A');
  await train(['Pull-up', 'Push-up'], '2026-11-26 16:01');
  await phone.clock('2026-11-28 16:00');
  floor = handsOn(await phone.relaunch());
  await says(main(), 'The usual: ');
  floor.count();
  await floor.tap('Start A · the usual');
  expect(floor.count()).toBe(1);
  const record = phone.page.getByRole('region', { name: 'record' });
  await says(record, 'Pull-up', 'Plan: 1 set of 8', 'Push-up', 'Plan: 1 set of 8');
});

test('settings: pounds, RPE and a rest are used from the next set on; what was logged stays', async () => {
  await floor.tap('Start the first session');
  await begin('Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  await says(floor.lines().first(), '60 kg × 5');
  await floor.tap(/^‹/);
  await floor.tap('Settings');
  await floor.tap('pounds');
  await floor.tap('RPE');
  await floor.tap('1:30', phone.page.getByRole('group', { name: 'rest, Loads, pins and carries' }));
  await floor.tap('‹ Back');
  await floor.tap(/^Resume/);
  await phone.clock('16:10');
  await floor.choose('Back squat');
  await floor.say({ load: '135', reps: '5' });
  await floor.log();
  // today's last load was in kilograms, and what was used last goes before the setting
  await says(floor.lines().last(), '135 kg × 5');
  await says(phone.page.getByRole('timer', { name: /rest/ }), '1:30');
  await floor.tap('RPE 8');
  await floor.tap('RPE 8');
  await says(floor.lines().last(), 'RPE 8.5');
  await says(floor.lines().first(), '60 kg × 5');
  const sets = (await phone.stored()).sets('Client A');
  expect(sets.map((set) => set.load)).toEqual([
    { value: 60, unit: 'kg' },
    { value: 135, unit: 'kg' },
  ]);
  expect(sets[1]).toMatchObject({ effort: { value: 8.5, as: 'rpe' } });
});

test('a new session begins in the unit that was chosen', async () => {
  await floor.tap('Settings');
  await floor.tap('pounds');
  await floor.tap('‹ Back');
  await floor.tap('Start the first session');
  await begin('Front squat');
  await floor.say({ load: '135', reps: '5' });
  await floor.log();
  await says(floor.lines().first(), '135 lb × 5');
});

test('the theme is kept on the device, and shown before anything is drawn at the next start', async () => {
  const ground = () => phone.page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  await floor.tap('Settings');
  await floor.tap('light');
  expect(await ground()).toBe('rgb(247, 244, 236)');
  await floor.tap('dark');
  expect(await ground()).toBe('rgb(15, 20, 24)');
  const page = await phone.relaunch();
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor)).toBe('rgb(15, 20, 24)');
});

test('help and settings are reached from Today, and say where records are kept', async () => {
  await floor.tap('Help');
  await says(main(), 'The first session', 'Keeping the records', 'Pain of 4 or more');
  await floor.tap('‹ Back');
  await says(main(), 'Start the first session');
});
