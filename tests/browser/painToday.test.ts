import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { says, saysNot, textOf } from './said';

/* Pain of an own client, from the floor to Today and to the next session. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client B', short: 'B' });
});

const HELD = 'is offered until a clearance is noted; a licensed practitioner is to be asked.';
const today = () => floor.page.getByRole('list').getByRole('listitem');
const on = async (time: string) => {
  await phone.clock(time);
  floor = handsOn(await phone.relaunch());
};

/** One session of drop landings, with pain told of its one set; ended, and back on Today. */
async function landed(pain: number): Promise<void> {
  await floor.tap(/^Start B/);
  const card = floor.page.getByRole('region', { name: 'Drop landing' });
  const choose = floor.page.getByRole('button', { name: 'Choose an exercise' });
  await expect.poll(async () => (await card.count()) + (await choose.count())).toBeGreaterThan(0);
  if ((await card.count()) === 0) {
    await floor.tap('Choose an exercise');
    await floor.tap('Drop landing', floor.sheet());
  }
  await floor.say({ landings: '6' });
  await noted(pain);
  await end();
}

async function noted(pain: number): Promise<void> {
  const line = await floor.log();
  await floor.tapOn(line.getByRole('button'));
  await floor.tap(`pain ${pain}`, floor.sheet());
  await floor.tap('Close', floor.sheet());
}

async function end(): Promise<void> {
  await floor.tap('End');
  await floor.tap(/^End Client B/, floor.sheet());
  await floor.page.getByRole('button', { name: /^Start B/ }).waitFor();
}

test('pain in two sessions is said on Today: right after, on the next day with the app left open, and at once after a relaunch', async () => {
  await landed(2);
  await on('2026-11-26 10:00');
  await landed(2);
  await says(today(), 'Pain: 2 of 10. Drop landing: in 2 sessions running', 'Ask the client about it');

  // the phone lies there over night with Today on it
  await phone.clock('2026-11-27 08:00');
  await says(floor.page.getByRole('heading', { level: 1 }), '27');
  await says(today(), 'Last session 26 Nov.', 'Pain: 2 of 10. Drop landing', 'Ask the client about it');

  // what was said earlier today stands before anything is worked out
  floor = handsOn(await phone.relaunch());
  await today().first().waitFor();
  expect(await textOf(today())).toContain('Pain: 2 of 10. Drop landing');

  // and what a session changes is not waited for as if nothing had happened
  await landed(0);
  await says(today(), 'Done today', 'since without a note of it');
  await on('2026-12-14 10:00');
  await says(today(), 'Last session 27 Nov.');
  await floor.page.waitForTimeout(4000);
  await saysNot(today(), 'Pain');
});

test('the next session says it before the first set, and what was stopped is said in one wording on the floor and the client’s page', async () => {
  const record = () => floor.page.getByRole('region', { name: 'record' });
  await floor.start('B', 'Drop landing');
  await floor.tap('Ask');
  await floor.tap('pain before 3', floor.sheet());
  await floor.tap('Done', floor.sheet());
  await floor.say({ landings: '6' });
  await noted(2);
  await end();

  await on('2026-11-26 10:00');
  await floor.tap(/^Start B/);
  await says(record(), 'Before we start', 'Last time, 24 Nov, came in with pain 3 of 10: ask about it.');
  await floor.tap('Choose an exercise');
  await floor.tap('Drop landing', floor.sheet());
  await says(record(), 'Drop landing', 'Last time, 24 Nov: 6 landings.', 'Pain 2 of 10: ask before the first set.');
  await noted(4);
  await saysNot(record(), 'ask before');
  await saysNot(record(), 'ask about it');
  await says(floor.pad(), 'Drop landing. Closed for this session: pain 4 of 10. Stop and refer: nothing heavier', HELD);
  await end();
  await says(today(), 'Pain: 4 of 10. Drop landing: in 2 sessions running', `Refer: nothing heavier than then ${HELD}`);

  await on('2026-11-28 10:00');
  await says(today(), `Refer: nothing heavier than then ${HELD}`);
  await floor.tap('Client B', today());
  await says(
    floor.page.getByRole('main'),
    'Drop landing: in 2 sessions running',
    `Refer: nothing heavier than then ${HELD}`,
  );
  await floor.tap('‹ Back');
  await floor.tap(/^Start B/);
  await says(record(), 'Pain 4 of 10: ask before the first set.');
  await says(floor.pad(), `Pain 4 of 10 on 26 Nov. Refer: nothing heavier than then ${HELD}`, 'Note a clearance');
  await floor.tap('Note a clearance', floor.pad());
  await floor.type('Who cleared it', 'Physio R');
  await floor.tap('Note the clearance', floor.sheet());
  await saysNot(floor.pad(), 'nothing heavier');
  await saysNot(record(), 'ask before');
});
