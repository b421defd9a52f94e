import type { Page } from 'playwright-core';
import { writeFromAnother } from './anotherDevice';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';

/** What is looked at; `floor` where one trains (the larger targets hold there), `pages` elsewhere. */
export type Sight = { readonly name: string; readonly where: 'floor' | 'pages' };

/** A name as long as a name may be, and one that runs from right to left. */
export const LONG = 'The Honourable Understudy of the Tall On';
export const HEBREW = 'השחקנית הראשית בהצגה';

/**
 * Walks through every screen, sheet and state of the pad of a new phone, and stops at each for `look`. The clients have the longest
 * names there can be.
 */
export async function tour(phone: Phone, look: (sight: Sight) => Promise<void>): Promise<void> {
  const floor = handsOn(phone.page);
  const floorSight = (name: string): Promise<void> => look({ name, where: 'floor' });
  const pageSight = (name: string): Promise<void> => look({ name, where: 'pages' });

  await floorSight('Today, first start');
  await floor.tap('+ client');
  await pageSight('a new client');
  await floor.tap('Add this client');
  await pageSight('a new client, refused');
  await floor.tap('‹ Back');
  await floor.addClient({ alias: LONG, short: 'Onando', dayName: 'first rehearsal on stage', day: '2027-01-05' });
  await floor.addClient({ alias: HEBREW, dayName: 'חזרה', day: '2026-11-24' });
  await floor.addClient({ alias: 'Client K' });
  await floorSight('Today, nobody trained');

  await floor.start('בהצגה');
  await floorSight('a session with nothing in hand');
  await floor.tap('Choose an exercise');
  await floorSight('the exercises');
  await floor.type('Find, or name a new one', 'Wall walk');
  await floor.tap(/^Add “/);
  await floorSight('an exercise that is added');
  await floor.type('Find, or name a new one', 'Split squat');
  await floor.tap('Split squat', floor.sheet());
  await floorSight('a pad with nothing to begin from');
  await floor.say({ load: '12', reps: '8' });
  await phone.clock('10:01');
  await floor.log();
  await floorSight('the other side due');
  await floor.tap('right', floor.pad().getByRole('group', { name: 'next set' }));
  await floorSight('the sides');

  await floor.tap('another client');
  await floorSight('another client');
  await floor.tap('Start Client K', floor.sheet());
  await floor.tap('‹ Today');
  await phone.clock('10:02');
  await floor.start('Onando', 'Pull-up');
  await floor.tap('body mass', floor.pad().getByRole('group', { name: 'next set' }));
  await floorSight('the ways of body mass');
  await floor.choose('Kneeling cable pull');
  await floorSight('a pin');
  await floor.choose('Dead hang');
  await floorSight('time');
  await floor.choose('Front squat');
  await floor.say({ load: '157.5', reps: '12' });
  await floorSight('a ramp offered');
  await rest(phone, floor, floorSight);
  await parts(phone, floor, floorSight);
  await sheets(floor, floorSight);
  await ends(phone, floor, floorSight, pageSight);
}

type Look = (name: string) => Promise<void>;

async function rest(phone: Phone, floor: Hands, look: Look): Promise<void> {
  await floor.tap(/^Ramp done/);
  await phone.clock('10:04');
  await floor.log();
  await look('the rest, nothing noted');
  await floor.tap('+ cue');
  await look('the first cue');
  await floor.type(
    'Find, or a new cue in your words',
    'ribs down, elbows to the wall, and push the floor away as if it were a heavy door',
  );
  await floor.tap('Add and give');
  for (const chip of ['2 left', 'clean', 'better']) await floor.tap(chip, floor.pad());
  await look('the rest, all noted');
  await floor.kind('back-off');
  await look('the rest, with a back-off in hand');
  await floor.kind('working');
  await look('the rest, with the kinds in hand');
  await phone.clock('10:20');
  await floor.page.getByRole('timer').waitFor({ state: 'detached' });
  await look('the kinds');
  await floor.kind('back-off');
  await look('a back-off');
}

async function parts(phone: Phone, floor: Hands, look: Look): Promise<void> {
  await floor.kind('drop');
  await floor.say({ 'load of part 2': '120', 'reps of part 2': '10' });
  await floor.tap('+ part', floor.pad());
  await look('a drop in three parts');
  await (await floor.typing('load of part 3')).fill('x');
  await look('typing');
  await floor.tap(/^Log .* · /, floor.pad());
  await floor.pad().getByRole('alert').waitFor();
  await look('a text that is refused');
  await floor.say({ 'load of part 3': '100' });
  await phone.tell('full', 'yes');
  await phone.clock('10:24');
  await floor.tap(/^Log .* · /, floor.pad());
  await floor.pad().getByRole('alert').waitFor();
  await look('a set that is not saved');
  await phone.tell('full', null);
  await floor.tap('Try again', floor.pad());
  await floor.pad().getByRole('alert').waitFor({ state: 'detached' });
  await look('the rest after a drop');
}

async function sheets(floor: Hands, look: Look): Promise<void> {
  await floor.tapOn(floor.lines().last().getByRole('button'));
  await floor.tap('pain 3', floor.sheet());
  await floor.type('Effort as RPE', '11');
  await floor.tap('Keep RPE', floor.sheet());
  await look('a set');
  await floor.tap('Close', floor.sheet());
  await floor.tap('+ set-up');
  await look('a set-up');
  await floor.type(
    'Box, grip, seat, whatever must be the same',
    'low bar, heels on 20 mm, three seconds down, one second at the bottom',
  );
  await floor.tap('Keep set-up');
  await look('a long set-up');
  await floor.tap('more about this set');
  await floor.tap(/^cue: /, floor.sheet());
  await look('the cues');
  await floor.tap('Close', floor.sheet());
  await floor.tap('Close', floor.sheet());
}

async function ends(phone: Phone, floor: Hands, look: Look, lookAtPage: Look): Promise<void> {
  await phone.clock('10:40');
  await floor.page.getByRole('timer').waitFor({ state: 'detached' });
  await floor.tap('End');
  await floor.tap('cut short', floor.sheet());
  await look('the end');
  await floor.tap(/^End The Honourable/, floor.sheet());
  await look('Today, one done and two running');
  await floor.tap('Look at today’s session');
  await look('an ended session');
  await floor.tap('‹ Today');
  await floor.tap(LONG);
  await lookAtPage('a client');
  await floor.tap('‹ Back');
  await floor.tap(/^saved on this phone/);
  await floor.tap('Prepare the file');
  await floor.page.getByRole('button', { name: 'Save the file' }).waitFor();
  await lookAtPage('the backup');
  await records(phone, lookAtPage);
  await library(phone, lookAtPage);
  for (const page of ['Settings', 'Help', 'The week']) {
    const shown = await phone.relaunch(`/${page.split(' ').at(-1)?.toLowerCase()}`);
    await shown.getByRole('heading', { name: page, level: 1 }).waitFor();
    if (page === 'The week') await shown.getByText(/^Looked through: all/).waitFor();
    await lookAtPage(page);
  }
  const second = handsOn(await arriveAt(phone, '/no/such/page'));
  await lookAtPage('no page');
  await second.tap('Today');
  await arriveAt(phone, '/s/nobody/nothing');
  await lookAtPage('no session');
  await arriveAt(phone, '/client/nobody');
  await lookAtPage('no client');
  await phone.tell('open', 'throws');
  const shut = await phone.relaunch();
  await shut.getByRole('heading', { name: 'The log did not open' }).waitFor();
  await lookAtPage('a log that did not open');
}

/** Opens the app anew at an address, and waits until its page is drawn: its code comes behind the first screen. */
async function arriveAt(phone: Phone, path: string): Promise<Page> {
  const page = await phone.relaunch(path);
  await page.getByRole('main').waitFor();
  return page;
}

async function library(phone: Phone, lookAtPage: Look): Promise<void> {
  const floor = handsOn(await arriveAt(phone, '/library'));
  await lookAtPage('the library');
  await floor.tap('change Front squat');
  await lookAtPage('an exercise that is changed');
  await floor.tap('cues');
  await lookAtPage('the library of cues');
  await floor.tap('faults');
  await lookAtPage('the library of faults');
  await floor.tap('places');
  await floor.tap('Add a place');
  await floor.tap('commercial gym');
  await lookAtPage('a place to begin with');
}

async function records(phone: Phone, lookAtPage: Look): Promise<void> {
  await writeFromAnother(phone.page, 'sessions', 'sets/', ({ body }) => {
    const [path = ''] = Object.keys(body).filter((one) => /^sets\/[^/]+\/reps$/.test(one));
    const set = path.slice(0, -'/reps'.length);
    const kg = { value: { value: 20, unit: 'kg' } };
    return {
      [path]: { value: 11, beside: true },
      [`${set}/removed`]: { value: { removed: true, seen: {} } },
      [`${set}/added`]: kg,
      [`${set}/assist`]: kg,
    };
  });
  const floor = handsOn(await arriveAt(phone, '/records'));
  await floor.page.getByRole('region', { name: 'Needs mending' }).waitFor();
  await lookAtPage('what is to settle and to mend');
  await floor.tapOn(floor.page.getByRole('button', { name: /^11/ }).first());
  await floor.page.getByRole('region', { name: 'Settled lately' }).waitFor();
  await lookAtPage('what was settled');
  const { stream } = await floor.page.evaluate(async () => {
    const opening = indexedDB.open('cuewright');
    const db = await new Promise<IDBDatabase>((resolve) => {
      opening.onsuccess = () => resolve(opening.result);
    });
    const all = db.transaction('rows').objectStore('rows').getAll();
    const rows = await new Promise<{ kind: string; stream: string }[]>((resolve) => {
      all.onsuccess = () => resolve(all.result);
    });
    db.close();
    return { stream: rows.find(({ kind }) => kind === 'client')?.stream ?? '' };
  });
  const page = handsOn(await arriveAt(phone, `/client/${stream}`));
  await page.tap('Erase this client for good…');
  await page.tap('Erase for good');
  await lookAtPage('a client to be erased, refused');
}
