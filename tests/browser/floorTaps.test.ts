import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import type { Hands } from './hands';
import type { Phone } from './harness';
import { says } from './said';

/* The tap figures of the whole floor, and the same floor without a finger: by the keyboard alone. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client K' });
});

const record = () => floor.page.getByRole('region', { name: 'record' });

/** A block of two stations by body mass and reps, three rounds, with what was done before as its plan. */
async function block(): Promise<void> {
  for (const [station, time] of [
    ['Push-up', '10:01'],
    ['Inverted row', '10:05'],
  ] as const) {
    await floor.choose(station);
    await floor.say({ reps: '8' });
    await phone.clock(time);
    await floor.log();
  }
  await phone.clock('10:10');
  await floor.tap('More');
  await floor.tap(/^Add a block/, floor.sheet());
  for (const station of ['Push-up', 'Inverted row']) {
    await floor.type('Find a station', station);
    await floor.tap(`+ ${station}`, floor.sheet());
  }
  await floor.tap('Add the block');
  await floor.tap('Close', floor.sheet());
  await floor.tap(/^A1 round 1/, record());
}

test('log a whole round: 1; undo of it: 1', async () => {
  await floor.start('K', 'Front squat');
  await block();
  await phone.clock('10:11');
  await floor.tap(/^Log K · round 1/, floor.pad());
  await phone.clock('10:20');
  floor.count();
  await floor.tap(/^Log K · round 2/, floor.pad());
  expect(floor.count()).toBe(1);
  const inRound = async (round: number) => {
    const { sets } = (await phone.stored()).sessions('Client K')[0] ?? { sets: [] };
    return sets.filter((set) => set.in?.round === round).map((set) => [set.exercise, set.reps]);
  };
  expect(await inRound(2)).toEqual([
    ['lib-push-up', 8],
    ['lib-inverted-row', 8],
  ]);
  await floor.tap(/^Undo round/);
  expect(await inRound(2)).toEqual([]);
  expect(await inRound(1)).toHaveLength(2);
});

test('swap for a suggested exercise: at most 3; a trend: 1, and back: 1', async () => {
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  floor.count();
  await floor.tap('Front squat trend', record());
  await says(floor.sheet(), '60 kg × 5');
  expect(floor.count()).toBe(1);
  await floor.tap('Close', floor.sheet());
  await floor.sheet().waitFor({ state: 'detached' });
  expect(floor.count()).toBe(1);
  await floor.tap('Change today');
  await floor.tap('Swap for Back squat', floor.sheet());
  expect(floor.count()).toBeLessThanOrEqual(3);
  await says(record(), 'Swapped for Back squat.');
  await floor.say({ load: '50', reps: '5' });
  await says(await floor.log(), '50 kg × 5');
});

test('each side with the same numbers: 1, taken back by one undo', async () => {
  await floor.start('K', 'One-arm row');
  await floor.say({ load: '20', reps: '8' });
  await phone.clock('10:05');
  floor.count();
  await floor.tap('Each side, same', floor.pad());
  expect(floor.count()).toBe(1);
  await says(floor.lines().nth(0), '1 20 kg × 8 left');
  await says(floor.lines().nth(1), '1 20 kg × 8 right');
  await says(floor.page.getByRole('timer', { name: 'rest left' }), '1:00');
  await floor.tap(/^Undo round/);
  await expect.poll(() => floor.lines().count()).toBe(0);
});

test('other work: 3 after opening it; a rest day: 2; the usual session of the day: at most 2', async () => {
  await floor.tap('Other work, more of K');
  floor.count();
  for (const chip of ['rehearsal', '3 hours', 'keep with effort 6']) await floor.tap(chip);
  expect(floor.count()).toBe(3);
  await says(floor.page.getByRole('region', { name: 'other work' }), '24 Nov: rehearsal, 3 h, effort 6');
  expect((await phone.stored()).ofKind('otherWork')).toMatchObject([
    { work: 'rehearsal', hours: 3, day: '2026-11-24', effort: { value: 6, as: 'session' } },
  ]);
  floor.count();
  for (const name of ['rest day', 'Keep the rest day']) await floor.tap(name);
  expect(floor.count()).toBe(2);
  const noted = floor.page.getByRole('region', { name: 'other work' });
  await says(noted, '24 Nov: rest day');
  await floor.tap('remove rest day of 24 Nov', noted);
  await expect.poll(() => noted.getByRole('listitem').count()).toBe(1);
  await floor.tap('‹ Back');
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  await floor.tap('More');
  await floor.tap('Keep as a template', floor.sheet());
  await floor.type('Name of the template', 'Tuesday');
  await floor.tap('Keep the template', floor.sheet());
  await floor.tap('End');
  await floor.tap(/^End Client K/, floor.sheet());
  floor.count();
  await floor.tap('Start K · Tuesday');
  await says(record(), 'Front squat', 'Plan: 1 set of 60 kg × 5');
  expect(floor.count()).toBeLessThanOrEqual(2);
});

test('a session by the keyboard alone: start, choose, type, log, touch up, round, end', async () => {
  const { page } = phone;
  const { keyboard } = page;
  /** Goes on with Tab until the thing named has the focus; fails where the round of all stops does not reach it. */
  const reach = async (name: RegExp): Promise<void> => {
    for (let stop = 0; stop < 120; stop += 1) {
      await keyboard.press('Tab');
      const at = await page.evaluate(() => {
        const focused = document.activeElement;
        const label = focused?.id ? document.querySelector(`label[for="${focused.id}"]`)?.textContent : null;
        return (focused?.getAttribute('aria-label') ?? label ?? focused?.textContent ?? '').trim();
      });
      if (name.test(at)) return;
    }
    throw new Error(`no stop is called ${name}`);
  };
  const press = async (name: RegExp): Promise<void> => {
    await reach(name);
    await keyboard.press('Enter');
  };
  await press(/^Start K$/);
  await press(/^Choose an exercise$/);
  await floor.sheet().waitFor();
  await press(/^Push-up$/);
  // the reps are in hand already: one press types them
  await press(/^reps: /);
  const inHand = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label'));
  await expect.poll(inHand).toBe('reps');
  await keyboard.type('8');
  await keyboard.press('Enter');
  await press(/^Log K · set 1$/);
  await says(floor.lines().first(), 'body mass × 8 not noted');
  await press(/^2 left$/);
  await says(floor.lines().first(), '2 left');
  await press(/^More$/);
  await press(/^Add a block/);
  await reach(/^Find a station$/);
  await keyboard.type('Push-up');
  await press(/^\+ Push-up$/);
  await press(/^Add the block$/);
  await floor.sheet().getByRole('heading', { name: 'Change the block' }).waitFor();
  await keyboard.press('Escape');
  await floor.sheet().waitFor({ state: 'detached' });
  await press(/^A1 round 1/);
  await says(record(), 'Round 1 done');
  await press(/^End$/);
  await press(/^End Client K’s session$/);
  await says(page.getByRole('main'), 'Done today · 2 sets');
});
