import { handsOn } from './hands';
import type { Phone } from './harness';
import { LONG, type Sight } from './tour';

/** Walks through what a whole session can be: every kind of set, blocks, changes, care, other work; stops at each for `look`. */
export async function tourFloor(phone: Phone, look: (sight: Sight) => Promise<void>): Promise<void> {
  const floor = handsOn(phone.page);
  const see = (name: string): Promise<void> => look({ name, where: 'floor' });
  const seePage = (name: string): Promise<void> => look({ name, where: 'pages' });
  const pad = floor.pad();
  const sheet = floor.sheet();

  await floor.addClient({ alias: LONG, short: 'Onando', dayName: 'first rehearsal on stage', day: '2027-01-05' });
  for (const alias of ['Vale', 'Moth', 'Client K']) await floor.addClient({ alias });

  await floor.start('Onando');
  await see('before we start');
  await floor.tap('Ask');
  for (const answer of ['Sleep 2', 'knee', 'pain before 5']) await floor.tap(answer, sheet);
  await see('how they came in');
  await floor.tap('Done');
  await floor.choose('Hop and hold');
  await floor.tap('direction?', pad);
  await see('the directions');
  await floor.tap('back-out', pad);
  await floor.say({ landings: '12' });
  await floor.tapOn(pad.getByRole('button', { name: /^landings: / }));
  for (const n of [1, 2]) await floor.tap(`landing ${n}: not noted`, pad);
  await floor.tap('landing 2: good', pad);
  await floor.tap('not knee over foot', pad);
  await see('twelve landings');
  await phone.clock('10:02');
  await floor.log();
  await phone.clock('10:03');
  await floor.log();
  await see('the rest after landings');
  await floor.choose('Rotational ball throw');
  await floor.say({ tries: '6' });
  await phone.clock('10:05');
  await floor.log();
  await phone.clock('10:06');
  await floor.log();
  await see('the rest after throws');
  await floor.choose('Farmer carry');
  await floor.say({ load: '24', distance: '40' });
  await see('a carry');
  await floor.choose('Push-up');
  await floor.tap('More');
  await see('more of a session');
  await floor.tap(/^Spread over/, sheet);
  await see('a count over the session');
  await floor.type('How many in all', '30');
  await floor.tap('Keep the count');
  await floor.choose('Front squat');
  await see('a count in the pad');

  await block(phone, see);
  await care(phone, see);
  await floor.tap('another client');
  await floor.tap('Start Vale', sheet);
  for (const other of ['Moth', 'Client K']) {
    await floor.tap('another client');
    await floor.tap(`Start ${other}`, sheet);
  }
  await see('four clients');
  await floor.tap('More');
  await floor.tap('Pause the session', sheet);
  await see('a pause');
  await floor.tap('Go on with the session');
  await floor.tap('End');
  await floor.tap(/^End Client K/, sheet);
  await floor.tap('Other work, more of Vale');
  await floor.tap('rehearsal');
  await floor.tap('3 hours');
  await seePage('a client’s day');
  await floor.tap('keep with effort 6');
  await floor.tap('cancelled');
  await seePage('other work noted');
  await floor.tap('‹ Back');
  await floor.tap('Vale');
  await floor.tap('Add a restriction');
  await floor.tap('hide jump and land');
  await seePage('a restriction');
  await floor.type('Who said it', 'the physiotherapist');
  await floor.type('What must not be done', 'no jumping, no landing, and nothing that is close to one');
  await floor.tap('Add this restriction');
  await seePage('a restriction that holds');
  await floor.tap('‹ Back');
  await floor.tap('Resume Vale');
  await see('a session under a restriction');
}

async function block(phone: Phone, look: (name: string) => Promise<void>): Promise<void> {
  const floor = handsOn(phone.page);
  const sheet = floor.sheet();
  await floor.tap('More');
  await floor.tap(/^Add a block/, sheet);
  for (const station of ['Kneeling cable pull', 'Dead hang', 'Push-up']) {
    await floor.type('Find a station', station);
    await floor.tap(`+ ${station}`, sheet);
  }
  await look('a new block');
  await floor.tap('Add the block');
  await floor.tap('plan 1 Kneeling cable pull', sheet);
  await look('a station that is planned');
  const said = sheet.getByRole('group', { name: 'next set' });
  for (const [field, text] of [
    ['pin', '7'],
    ['reps', '8'],
  ] as const) {
    const typed = said.getByRole('textbox', { name: field, exact: true });
    while (!(await typed.isVisible())) await said.getByRole('button', { name: new RegExp(`^${field}: `) }).tap();
    await typed.fill(text);
    await typed.press('Enter');
  }
  await floor.tap('Keep this plan');
  await floor.tap('Close', sheet);
  await phone.clock('10:20');
  const record = floor.page.getByRole('region', { name: 'record' });
  await floor.tap(/^A1 round 1/, record);
  await look('a block in hand');
  await floor.tap('change block A', record);
  await floor.tap('work and rest by the clock', sheet);
  await floor.tap('Keep the block');
  await floor.tap('Start the clock');
  await look('a block by the clock');
  await floor.tap('Stop the clock');
}

async function care(phone: Phone, look: (name: string) => Promise<void>): Promise<void> {
  const floor = handsOn(phone.page);
  const sheet = floor.sheet();
  const record = floor.page.getByRole('region', { name: 'record' });
  await floor.tap('Front squat', record);
  await floor.say({ load: '60', reps: '5' });
  await phone.clock('10:30');
  await floor.log();
  await floor.tap('more about this set');
  await floor.tap('pain 2', sheet);
  await floor.tap('rising in the set', sheet);
  await floor.tap('Close', sheet);
  await phone.clock('10:40');
  await look('an easier step offered');
  await floor.tap('Front squat trend', record);
  await look('a trend');
  await floor.tap('As a table', sheet);
  await look('a trend as a table');
  await floor.tap('Close', sheet);
  await floor.tap('Stop signs');
  await look('stop signs');
  await floor.tap('acute joint pain, or a pop with swelling', sheet);
  await look('an exercise that is closed');
  await floor.tap('Note a clearance');
  await look('a clearance');
  await floor.tap('Close', sheet);
  await floor.tap('Swap or skip it');
  await floor.tap('20', sheet);
  await look('changes of today');
  await floor.tap('Close', sheet);
  await floor.tap('More');
  await floor.tap(/^Place/, sheet);
  await floor.tap('Add a place', sheet);
  await look('a place');
  await floor.type('Name of the place', 'The basement behind the old town theatre');
  await floor.type('Bands, from light to heavy, with commas between', 'thin, grey, wide, double, doubled and doubled');
  await floor.tap('Keep the place');
  await floor.choose('Band pull-apart');
  await look('the bands of a place');
  await floor.tap('More');
  await floor.tap('Keep as a template', sheet);
  await look('a template');
  await floor.tap('Close', sheet);
  await floor.tap(/^Show /);
  await look('the client’s view');
  await floor.tap('‹ Back');
}
