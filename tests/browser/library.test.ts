import { expect, test } from 'vitest';
import { shown } from '../../src/merge/shown';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { says, textOf } from './said';

/* The library that ships with the app, as a session uses it: nothing of it needs the network, and nothing is stored before it is chosen. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client K' });
});

const picks = () => floor.sheet().getByRole('listitem').getByRole('button');
const parts = () => floor.sheet().getByRole('heading', { level: 3 }).allInnerTexts();

test('an exercise is found by a slip of the finger and logged; one that is not there can be added by its name', async () => {
  await floor.start('K');
  await floor.tap('Choose an exercise');
  await floor.type('Find, or name a new one', 'romanain');
  await expect.poll(() => picks().allInnerTexts()).toContain('Romanian deadlift');
  expect((await picks().allInnerTexts()).every((name) => name.includes('Romanian'))).toBe(true);
  await floor.type('Find, or name a new one', 'wall walk');
  await says(floor.sheet(), 'Add “wall walk”', 'Nothing here is called “wall walk”, nor nearly so.');
  await floor.type('Find, or name a new one', 'gobblet');
  await floor.tap('Goblet squat', floor.sheet());
  await floor.say({ load: '16', reps: '8' });
  await floor.log();
  const stored = await phone.stored();
  expect(stored.sets('Client K')).toMatchObject([{ exercise: 'lib-goblet-squat', load: { value: 16 }, reps: 8 }]);
  expect(stored.ofKind('exercise')).toEqual([]);
});

test('what was done today and lately stands first', async () => {
  await floor.start('K', 'Plank');
  await floor.say({ time: '30' });
  await floor.log();
  await floor.choose('Face pull');
  await floor.say({ pin: '5', reps: '12' });
  await floor.log();
  await floor.tap('End', phone.page.getByRole('main'));
  await floor.tap(/^End/, floor.sheet());
  await phone.clock('2026-11-26 10:00');
  await phone.relaunch();
  floor = handsOn(phone.page);
  await floor.start('K', 'Dead hang');
  await floor.tap('+ exercise');
  await expect.poll(parts).toEqual(expect.arrayContaining(['today', 'done last', 'squat', 'range']));
  const first = (await picks().allInnerTexts()).slice(0, 3);
  expect(first[0]).toBe('Dead hang');
  expect(first.slice(1).sort()).toEqual(['Face pull', 'Plank']);
  await floor.tap('Close', floor.sheet());
  await floor.tap('More');
  await floor.tap(/^Add a block/, floor.sheet());
  await floor.type('Find a station', 'fase pul');
  await floor.tap('+ Face pull', floor.sheet());
});

test('a cue that ships is found by its fault, given, answered and there the next time; it makes no row', async () => {
  await floor.start('K', 'Front squat');
  await floor.say({ load: '50', reps: '5' });
  await floor.log();
  await floor.tap('+ cue');
  expect((await parts())[0]).toBe('suits this exercise');
  await floor.type('Find, or a new cue in your words', 'knee in');
  await floor.tap(/swing doors/, floor.sheet());
  await floor.tap('better');
  await says(floor.lines().first(), 'cue better');
  await phone.clock('10:03');
  await floor.log();
  // the fault seen in this set brings its cues to the front, behind those given before
  await floor.tap('more about this set');
  await floor.tap('ribs up', floor.sheet());
  await floor.tap('Close', floor.sheet());
  await floor.tap(/^cue: .*choose another/);
  expect((await parts()).slice(0, 2)).toEqual(['given before in this exercise', 'for the fault noted']);
  expect(await picks().first().textContent()).toContain('swing doors');
  await floor.tap('Close', floor.sheet());
  const stored = await phone.stored();
  expect(stored.sets('Client K')).toMatchObject([
    { cues: [{ cue: 'lib-cue-saloon-doors', answer: 'better' }] },
    { cues: [], faults: [{ id: 'lib-ribs-up', gone: false }] },
  ]);
  expect(stored.ofKind('cue')).toEqual([]);
  await floor.tap(/^Front squat trend/);
  await says(floor.sheet(), 'swing doors');
});

test('a place begins with what is usual in its kind: nothing is kept before it is said so, and its bands are offered', async () => {
  await floor.start('K', 'Band row');
  await floor.tap('More');
  await floor.tap(/^Place/, floor.sheet());
  await floor.tap('Add a place', floor.sheet());
  await floor.tap('hotel room', floor.sheet());
  expect((await phone.stored()).ofKind('kit')).toEqual([]);
  await floor.tap('small studio', floor.sheet());
  await floor.type('Name of the place', 'Studio by the river');
  await floor.type('Plates', '20 10,5');
  await floor.tap('Keep the place', floor.sheet());
  await says(floor.sheet(), 'plates must be numbers with a space between, such as 20 2.5; this is “10,5”');
  await floor.type('Plates', '20 10 5');
  await floor.tap('Keep the place', floor.sheet());
  await floor.sheet().waitFor({ state: 'detached' });
  await floor.tap(/^band: /, floor.pad());
  await floor.tap('strong', floor.pad());
  await floor.say({ reps: '15' });
  await says(await floor.log(), 'strong');
  const stored = await phone.stored();
  expect(stored.ofKind('kit')).toEqual([
    {
      name: 'Studio by the river',
      bands: ['light', 'medium', 'strong', 'extra strong'],
      pins: 15,
      unit: 'kg',
      bars: [20, 15],
      plates: [20, 10, 5],
      dumbbells: [{ from: 2, to: 24, step: 2 }],
    },
  ]);
  expect(stored.sets('Client K')).toMatchObject([{ band: 'strong', reps: 15 }]);
});

test('a usual set-up is shown as such and goes with the set, until the client has one, be it none', async () => {
  await floor.start('K', 'Box jump');
  const shown = () => textOf(phone.page.getByRole('button', { name: /set-up/ }).filter({ hasNotText: 'Undo' }));
  expect(await shown()).toBe('usual set-up: 50 cm');
  await floor.say({ landings: '5' });
  await floor.log();
  await floor.tap('usual set-up: 50 cm');
  expect(await floor.sheet().getByLabel('Height', { exact: true }).inputValue()).toBe('50');
  await floor.type('Height', '60');
  await floor.tap('Keep set-up');
  await expect.poll(shown).toBe('set-up: 60 cm');
  await phone.clock('10:02');
  await floor.log();
  await floor.tap('set-up: 60 cm');
  await floor.type('Height', '');
  await floor.tap('Keep set-up');
  await expect.poll(shown).toBe('+ set-up');
  await phone.clock('10:04');
  await floor.log();
  const [usual, own, none] = (await phone.stored()).sets('Client K');
  expect([usual?.height, own?.height]).toEqual([
    { value: 50, unit: 'cm' },
    { value: 60, unit: 'cm' },
  ]);
  expect(none).not.toHaveProperty('height');
  expect(none).not.toHaveProperty('setUp');
});

test('the library is read and changed at its page: a shipped exercise by what differs alone', async () => {
  await floor.tap('Library');
  const page = phone.page.getByRole('main');
  await says(page, 'Front squat', 'steps of 2.5; rest 2:30.', 'Works quads, glutes; half: inner thighs, lower back.');
  await floor.type('Find, or name a new one', 'pulup');
  await says(page, 'Pull-up', '96 % of body mass is moved. Usual set-up: palms away. Easier: Inverted row.');
  await floor.tap('change Pull-up');
  await floor.type('Rest after a set, seconds', '2 min');
  await floor.tap('Keep');
  await says(page, 'rest must be a number');
  await floor.type('Rest after a set, seconds', '200');
  await floor.type('Name', 'Strict pull-up');
  await floor.tap('Keep');
  await says(page, 'Strict pull-up', 'rest 3:20.');
  await floor.type('Find, or name a new one', 'Wall walk');
  await floor.tap('Add “Wall walk”');
  await floor.tap('tries: throws, strikes, skills', page);
  await floor.tap('Add it');
  await says(page.getByRole('region', { name: 'found' }), 'Wall walk', 'tries: throws, strikes, skills');
  await floor.tap('cues', page);
  await floor.type('A new cue, in your words', 'elbows to the wall');
  await floor.tap('Add the cue');
  await says(page, 'Your own', '“elbows to the wall”', 'For heel up', '“whole foot stays heavy” on the body');
  await floor.tap('faults', page);
  await says(page, 'heel up 3 cues');
  await floor.tap('places', page);
  await floor.tap('Add a place', page);
  await floor.tap('commercial gym', page);
  await floor.tap('Keep the place', page);
  await says(page, 'commercial gym', 'Highest pin: 20', 'Dumbbells: 1-10 by 1, 12-40 by 2 kg');
  const stored = await phone.stored();
  const changed = stored.rows.filter((row) => row.id === 'lib-pull-up');
  expect(changed.map((row) => shown(row))).toEqual([{ name: 'Strict pull-up', rest: 200 }]);
  expect(stored.ofKind('exercise')).toHaveLength(2);
  expect(stored.ofKind('exercise')).toContainEqual({ name: 'Wall walk', holds: 'tries', sides: 'both' });
  expect(stored.ofKind('cue')).toEqual([{ words: 'elbows to the wall' }]);
  await floor.tap('‹ Back');
  await floor.start('K', 'Strict pull-up');
  await floor.say({ reps: '4' });
  await floor.log();
  await says(phone.page.getByRole('timer', { name: 'rest left' }), '3:20');
});
