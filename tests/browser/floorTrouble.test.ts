import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { says } from './said';

/* What goes wrong in a real session: things removed while they run, clocks that jump, more than fits, texts that are refused. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client K' });
});

const record = () => floor.page.getByRole('region', { name: 'record' });

test('a block emptied while its clock runs: its sets stay, the floor goes on, and undo brings it back', async () => {
  await floor.start('K', 'Dead hang');
  await floor.say({ time: '30' });
  await floor.log();
  await floor.tap('More');
  await floor.tap(/^Add a block/, floor.sheet());
  await floor.tap('work and rest by the clock', floor.sheet());
  await floor.type('Find a station', 'Dead hang');
  await floor.tap('+ Dead hang', floor.sheet());
  await floor.tap('Add the block');
  await floor.tap('Close', floor.sheet());
  await phone.clock('10:05');
  await floor.tap(/^A1 round 1/, record());
  await floor.tap('Start the clock');
  await floor.tap('change block A', record());
  await floor.tap('remove 1 Dead hang', floor.sheet());
  await floor.tap('Close', floor.sheet());
  await says(record(), 'No stations. Add one, or remove the block.');
  const sets = (await phone.stored()).sets('Client K');
  expect(sets.map((set) => [set.exercise, set.seconds])).toEqual([
    ['lib-dead-hang', 30],
    ['lib-dead-hang', 30],
  ]);
  await floor.tap(/^Undo removal/);
  await says(record(), 'A1 Dead hang');
  await floor.tap('change block A', record());
  await floor.tap('Remove the block', floor.sheet());
  await says(record().getByRole('region', { name: 'Dead hang' }), '1 30 s', '2 30 s');
});

test('a client removed with a running session: it is found, goes on, and undo brings the client back', async () => {
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  await floor.tap('‹ Today');
  await floor.tap('Client K');
  await floor.tap('Remove this client…');
  await floor.tap('Remove the client');
  await says(floor.page.getByRole('main'), 'A client who was removed', 'Running');
  floor = handsOn(await phone.relaunch());
  await floor.tap('Resume –');
  await phone.clock('10:05');
  await says(await floor.log('Log – · set 2'), '60 kg × 5');
  await floor.tap(/^Undo set/);
  await floor.tap('‹ Today');
  await floor.tap(/^Undo removal/);
  await floor.tap('Resume K');
  await says(floor.lines(), '60 kg × 5');
});

test('a clock set back and a flight in the middle: the order, the days and the minutes stay as they were told', async () => {
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await phone.clock('10:10');
  await floor.log();
  await phone.clock('09:00');
  await phone.page.getByRole('timer').waitFor();
  await floor.log();
  await says(floor.page.getByRole('main'), '0 min');
  await phone.clock('2026-11-25 08:00');
  await floor.log();
  const { sets } = (await phone.stored()).sessions('Client K')[0] ?? { sets: [] };
  expect(sets).toHaveLength(3);
  expect(sets.map((set) => set.at?.day).sort()).toEqual(['2026-11-24', '2026-11-24', '2026-11-25']);
});

test('sixty exercises in a session: each is listed, the last is in hand, and the list can be changed', async () => {
  await floor.start('K', 'Front squat');
  const session = new URL(floor.page.url()).pathname;
  for (let n = 1; n <= 59; n += 1) {
    await floor.tap('+ exercise');
    await floor.type('Find, or name a new one', `Exercise number ${n}`);
    await floor.tap(/^Add “/);
    await floor.tap('Add and use it', floor.sheet());
    await floor.sheet().waitFor({ state: 'detached' });
  }
  floor = handsOn(await phone.relaunch(session));
  await floor.say({ load: '20', reps: '5' });
  await says(await floor.log(), '20 kg × 5');
  expect((await phone.stored()).sessions('Client K')[0]?.exercises).toHaveLength(60);
  await floor.tap('Change today');
  await floor.tap('Exercise number 59 up', floor.sheet());
  const list = floor.sheet().getByRole('region', { name: 'today’s list' }).getByRole('listitem');
  await says(list.nth(58), 'Exercise number 59');
  expect(await list.count()).toBe(60);
});

test('texts that are refused stay where they were typed, with the sentence that says why', async () => {
  await floor.start('K', 'Farmer carry');
  await floor.say({ load: '24' });
  await floor.tap(/^Log K/, floor.pad());
  await says(floor.pad().getByRole('alert'), 'a carry must say how far or how long');
  await floor.choose('Rotational ball throw');
  await floor.say({ tries: '4', 'good ones': '6' });
  await floor.tap(/^Log K/, floor.pad());
  await says(floor.pad().getByRole('alert'), 'good ones can be at most 4: so many were done');
  await floor.choose('Front squat');
  await floor.tap('+ set-up');
  await floor.type('Tempo: down, below, up, above', '3-1');
  await floor.tap('Keep set-up');
  await says(floor.sheet().getByRole('alert'), 'tempo must be four parts, such as 3-1-1-0');
  await floor.tap('Close', floor.sheet());
  await floor.tap('More');
  await floor.tap(/^Add a block/, floor.sheet());
  await floor.tap('reps by round', floor.sheet());
  await floor.type('Reps of each round, such as 21-15-9', '21-x-9');
  await floor.tap('Add the block');
  await says(floor.sheet().getByRole('alert'), 'reps must be a list, such as 21-15-9; this is “21-x-9”');
  expect((await phone.stored()).sets('Client K')).toEqual([]);
});
