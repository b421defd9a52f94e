import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { at, backupFrom, recoveryCode } from './fileHands';
import type { Hands } from './hands';
import type { Phone } from './harness';
import { axeFinds, badTargets, reachesPastTheSide } from './measure';
import { says, saysNot } from './said';

/* What Today asks for once a week: a backup while something is on this device alone, and the recovery code a week after it was made. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client K', short: 'Kay' });
  await train(floor);
});

async function train(hands: Hands): Promise<void> {
  await hands.start('Kay', 'Front squat');
  await hands.say({ load: '60', reps: '5' });
  await hands.log();
  await hands.tap('End');
  await hands.tap(/^End Client K/, hands.sheet());
  await says(hands.page.getByRole('main'), 'Done today');
}

const card = (hands: Hands) => hands.page.getByRole('region', { name: 'backup', exact: true });

async function onDay(day: string): Promise<Hands> {
  await phone.clock(`${day} 10:00`);
  const hands = await at(phone, '/');
  await says(hands.page.getByRole('main'), 'Kay');
  // what comes late has come
  await hands.page.evaluate(() => new Promise((later) => setTimeout(later, 400)));
  return hands;
}

test('a backup is asked for after a week, put off until tomorrow, and not again once one is handed over', async () => {
  let hands = await onDay('2026-11-30');
  expect(await card(hands).count()).toBe(0);
  hands = await onDay('2026-12-01');
  await says(card(hands), 'There is no backup yet, and 2 records are only on this device.');
  for (const width of [390, 320]) {
    await hands.page.setViewportSize({ width, height: 844 });
    expect(await reachesPastTheSide(hands.page)).toEqual([]);
    expect(await badTargets(hands.page)).toEqual([]);
  }
  expect(await axeFinds(hands.page)).toEqual([]);
  await hands.tap('Tomorrow', card(hands));
  await card(hands).waitFor({ state: 'detached' });
  hands = await onDay('2026-12-02');
  await says(card(hands), 'There is no backup yet');
  await hands.tap('Backup', card(hands));
  await says(hands.page.getByRole('main'), '2 records are only on this device.');
  await backupFrom(phone);
  hands = await onDay('2026-12-10');
  // a week later, and nothing has come since: nothing is on this device alone
  expect(await card(hands).count()).toBe(0);
  await train(hands);
  hands = await onDay('2026-12-10');
  await says(card(hands), 'The last backup was 8 days ago, and 1 record is only on this device.');
});

test('the recovery code is asked back a week after it was made, once', async () => {
  const code = await recoveryCode(phone);
  await backupFrom(phone);
  let hands = await onDay('2026-11-30');
  expect(await card(hands).count()).toBe(0);
  hands = await onDay('2026-12-01');
  await says(card(hands), 'Do you still have the recovery code?');
  await hands.tap('Keys', card(hands));
  await hands.type('Type it back from the paper', code);
  await hands.tap('Is it right?');
  await says(hands.page.getByRole('region', { name: 'recovery code' }), 'Last typed back Tuesday 1 December.');
  hands = await onDay('2026-12-02');
  await saysNot(hands.page.getByRole('main'), 'Do you still have');
  expect(await card(hands).count()).toBe(0);
});
