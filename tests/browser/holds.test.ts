import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import type { Hands } from './hands';
import type { Phone } from './harness';
import { says } from './said';

/* Every kind of hold is told as itself on the screen, and stored as itself: no band, pin or body mass becomes made-up kilograms. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client K' });
});

const tabs = () => phone.page.getByRole('navigation', { name: 'clients' });
const next = () => floor.pad().getByRole('group', { name: 'next set' });
const lastSet = async () => (await phone.stored()).sets('Client K').at(-1);

test('body mass alone, with load added, with load taken off, and with a band', async () => {
  await floor.start('K', 'Pull-up');
  await floor.say({ reps: '6' });
  await says(await floor.log(), 'body mass × 6');
  const alone = await lastSet();
  expect(alone).toMatchObject({ exercise: 'lib-pull-up', reps: 6 });
  for (const register of ['load', 'added', 'assist', 'band']) expect(alone).not.toHaveProperty(register);

  const way = async (from: string, to: string) => {
    await floor.tap(from, next());
    await floor.tap(to, floor.pad().getByRole('group', { name: 'body mass' }));
  };
  await phone.clock('10:03');
  await way('body mass', '+ load');
  await floor.say({ load: '10' });
  await says(next(), 'body mass + 10 kg × 6');
  await says(await floor.log(), 'body mass +10 kg × 6');
  expect(await lastSet()).toMatchObject({ added: { value: 10, unit: 'kg' }, reps: 6 });

  await phone.clock('10:06');
  await way('body mass +', '− assist');
  await floor.say({ load: '15' });
  await floor.kind('assisted');
  await says(await floor.log(), 'body mass −15 kg × 6', 'assisted');
  expect(await lastSet()).toMatchObject({ assist: { value: 15, unit: 'kg' }, reps: 6, kind: 'assisted' });

  await phone.clock('10:09');
  await way('body mass −', 'band');
  await floor.tap('heavy', floor.pad().getByRole('group', { name: 'band' }));
  await says(await floor.log(), 'heavy band × 6');
  const banded = await lastSet();
  expect(banded).toMatchObject({ band: 'heavy', reps: 6, unread: [] });
  expect(banded).not.toHaveProperty('assist');
});

test('a band by its own name, a pin by its number, each side with its rest only after both', async () => {
  await floor.start('K', 'Band pull-apart');
  await floor.say({ band: 'grün', reps: '20' });
  await says(await floor.log(), 'grün band × 20');
  expect(await lastSet()).toMatchObject({ band: 'grün', reps: 20 });

  await floor.choose('Kneeling cable pull');
  await floor.say({ pin: '7', reps: '10' });
  await phone.clock('10:04');
  await says(await floor.log(/^Log K · left, set 1/), 'pin 7 × 10 left');
  await says(tabs(), 'K other side');
  await phone.clock('10:05');
  await says(await floor.log(/^Log K · right, set 1/), 'pin 7 × 10 right');
  await says(tabs(), 'K rest 1:00');
  expect((await phone.stored()).sets('Client K').slice(1)).toMatchObject([
    { pin: '7', reps: 10, side: 'left' },
    { pin: '7', reps: 10, side: 'right' },
  ]);
});

test('time held, with a load and without', async () => {
  await floor.start('K', 'Dead hang');
  await says(next(), 'time? with no load');
  await floor.say({ time: '35' });
  await says(await floor.log(), '35 s');
  const bare = await lastSet();
  expect(bare).toMatchObject({ seconds: 35 });
  expect(bare).not.toHaveProperty('load');
  await phone.clock('10:03');
  await floor.say({ load: '5' });
  await says(await floor.log(), '35 s with 5 kg');
  expect(await lastSet()).toMatchObject({ seconds: 35, load: { value: 5, unit: 'kg' } });
});

test('pounds stay pounds, a load in each hand is one of two, and a set may be logged without a rest', async () => {
  await floor.start('K', 'Dumbbell bench press');
  await (await floor.typing('load')).fill('45');
  await floor.tap('lb', floor.pad().getByRole('group', { name: 'unit' }));
  await floor.say({ reps: '9' });
  await says(await floor.log('Log, no rest'), '2 × 45 lb × 9');
  await says(tabs(), 'K ready');
  expect(await phone.page.getByRole('timer').count()).toBe(0);
  expect(await lastSet()).toMatchObject({ load: { value: 45, unit: 'lb' }, reps: 9, noRest: true });
});

test('an exercise of the trainer’s own, and how it is set up for this client, go with each set from then on', async () => {
  await floor.start('K');
  await floor.tap('Choose an exercise');
  await floor.type('Find, or name a new one', 'Wall handstand');
  await floor.tap('Add “Wall handstand”');
  await floor.tap('time', floor.sheet());
  await floor.tap('each side apart', floor.sheet());
  await floor.tap('Add and use it', floor.sheet());
  await floor.tap('+ set-up');
  await floor.type('Box, grip, seat, whatever must be the same', 'hands 20 cm from the wall');
  await floor.tap('Keep set-up');
  await floor.say({ time: '20' });
  await says(await floor.log(/left, set 1/), '20 s left');
  const stored = await phone.stored();
  const [own] = stored.rows.filter((row) => row.kind === 'exercise');
  expect(stored.ofKind('exercise')).toMatchObject([{ name: 'Wall handstand', holds: 'time', sides: 'each' }]);
  expect(stored.sets('Client K')).toMatchObject([
    { exercise: own?.id, seconds: 20, side: 'left', setUp: 'hands 20 cm from the wall' },
  ]);
});
