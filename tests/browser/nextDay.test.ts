import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { says } from './said';

/* What the app still knows on the next day, opened anew without a network. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client K', dayName: 'opening', day: '2026-11-26' });
});

const next = () => floor.pad().getByRole('group', { name: 'next set' });
const record = () => floor.page.getByRole('region', { name: 'record' });
const today = () => floor.page.getByRole('list').getByRole('listitem');
const on = async (time: string, path = '/') => {
  await phone.clock(time);
  floor = handsOn(await phone.relaunch(path));
};

async function endSession(): Promise<void> {
  await floor.tap('End');
  await floor.tap(/^End Client K/, floor.sheet());
  await floor.page.getByRole('button', { name: 'Start K' }).waitFor();
}

test('the last time is told beside the exercise, and the next set begins where it began', async () => {
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.tap(/^Ramp done/);
  await phone.clock('10:04');
  await floor.log();
  await floor.tap('3 left', floor.pad());
  await floor.tap('+ cue', floor.pad());
  await floor.type('Find, or a new cue in your words', 'knees out');
  await floor.tap('Add and give');
  await floor.tap('better', floor.pad());
  await phone.clock('10:08');
  await floor.tap('62.5', floor.pad());
  await floor.log();
  await phone.clock('10:12');
  await floor.log();
  await floor.tap('1 left', floor.pad());
  await endSession();
  await says(today(), 'Done today · 3 sets.', '2 days to opening');

  await on('2026-11-25 10:00');
  await says(today(), 'Client K', 'Last session 24 Nov.', '1 day to opening');
  await floor.start('K', 'Front squat');
  await says(record(), 'Last time, 24 Nov: 60 kg: 5; 62.5 kg: 5 · 5, 1 left.', 'Better with “knees out”');
  await says(next(), '60 kg × 5 working');
  await says(floor.pad(), 'Ramp done: 25 × 5 · 35 × 3 · 47.5 × 2');
  await floor.tap('62.5', floor.pad());
  await floor.log();
  await phone.clock('2026-11-25 10:05');
  // today's own set leads from now on
  await says(next(), '62.5 kg × 5 working');
  await floor.kind('back-off');
  await says(next(), '62.5 kg × 5 back-off');
  await says(floor.pad(), '−10 % −20 % −30 %');
});

test('prefill takes the same side and kind: a warm-up says nothing about the working set', async () => {
  await floor.start('K', 'One-arm row');
  await floor.kind('warm-up');
  await floor.say({ load: '8', reps: '12' });
  await floor.log();
  await phone.clock('10:01');
  await floor.log(/right, warm-up/);
  await floor.kind('working');
  await floor.say({ load: '20', reps: '8' });
  await phone.clock('10:03');
  await floor.log(/left, set 1/);
  await floor.say({ reps: '7' });
  await phone.clock('10:04');
  await floor.log(/right, set 1/);
  // the sides were unequal: each keeps its own numbers
  await says(next(), '20 kg × 8 left');
  await phone.clock('10:06');
  await floor.log(/left, set 2/);
  await says(next(), '20 kg × 7 right');
  await endSession();

  await on('2026-11-25 10:00');
  await floor.start('K', 'One-arm row');
  await says(next(), '20 kg × 8 left working');
  await floor.kind('warm-up');
  await says(next(), '8 kg × 12 left warm-up');
  expect(
    await floor
      .pad()
      .getByRole('button', { name: /^Ramp done/ })
      .count(),
  ).toBe(0);
});

test('every address of the app opens by itself with the server gone', async () => {
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  const line = await floor.log();
  const session = new URL(floor.page.url()).pathname;
  await floor.tapOn(line.getByRole('button'));
  const set = new URL(floor.page.url()).pathname;

  await on('10:02', set);
  await floor.page.getByRole('dialog', { name: 'Front squat: 60 kg × 5' }).waitFor();
  await floor.tap('Close', floor.sheet());
  await floor.sheet().waitFor({ state: 'detached' });
  expect(new URL(floor.page.url()).pathname).toBe(session);
  await says(floor.lines(), '60 kg × 5');
  for (const [sheet, title] of [
    ['exercise', 'Exercise'],
    ['end', 'End the session'],
    ['client', 'Another client'],
    ['set-up/lib-front-squat', 'Set-up, Front squat'],
  ] as const) {
    await on('10:03', `${session}/${sheet}`);
    await floor.page.getByRole('dialog', { name: title, exact: true }).waitFor();
  }
  await on('10:04', '/client/new');
  await says(floor.page.getByRole('heading', { level: 1 }), 'A new client');
  await on('10:04', '/s/nobody/nothing');
  await says(floor.page.getByRole('main'), 'This session is not on this phone');
  await on('10:04', '/client/nobody');
  await says(floor.page.getByRole('main'), 'This client is not on this phone.');
  await on('10:04', '/no/such/page');
  await says(floor.page.getByRole('main'), 'There is no page at this address.');
  await floor.tap('Today');
  await says(today(), 'Running · 4 min · 1 set.');
});

test('the phone’s Back closes a sheet, and then leaves the session', async () => {
  await floor.start('K', 'Front squat');
  await floor.tap('End');
  await floor.sheet().waitFor();
  await floor.page.goBack();
  await floor.sheet().waitFor({ state: 'detached' });
  await says(next(), 'load? × reps?');
  await floor.page.goBack();
  await says(today(), 'Resume K');
});
