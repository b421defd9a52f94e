import { describe, expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { says } from './said';

/* A killed app, a dead battery, a hidden tab, a slow start: the floor comes back to the same place. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client K' });
});

const next = () => floor.pad().getByRole('group', { name: 'next set' });
const clock = () => floor.page.getByRole('timer', { name: 'rest left' });
const today = () => floor.page.getByRole('list').getByRole('listitem');
const path = () => new URL(floor.page.url()).pathname;

/** Resolves once the draft in the store holds a text: it is written when the typing pauses. */
async function draftHolds(text: string): Promise<void> {
  await expect
    .poll(() =>
      floor.page.evaluate(async () => {
        const opening = indexedDB.open('cuewright');
        const db = await new Promise<IDBDatabase>((resolve) => {
          opening.onsuccess = () => resolve(opening.result);
        });
        const all = db.transaction('drafts').objectStore('drafts').getAll();
        return new Promise<string>((resolve) => {
          all.onsuccess = () => {
            db.close();
            resolve(JSON.stringify(all.result));
          };
        });
      }),
    )
    .toContain(text);
}

test('killed in the middle of typing: the text, the exercise in hand and the rest clock are there again', async () => {
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  await floor.choose('Pull-up');
  await floor.tap('body mass', next());
  await floor.tap('+ load', floor.pad());
  await (await floor.typing('load')).fill('12,2');
  await draftHolds('12,2');
  await floor.tap('15 seconds more rest');
  await draftHolds('165');
  const session = path();

  await phone.clock('10:01');
  floor = handsOn(await phone.relaunch(session));
  await says(next(), 'body mass + 12.2 kg × reps?');
  expect(await (await floor.typing('load')).inputValue()).toBe('12,2');
  await says(clock(), '1:45');
  await says(floor.lines(), '60 kg × 5');
});

test('a text that is no number comes back as it was typed', async () => {
  await floor.start('K', 'Front squat');
  await (await floor.typing('load')).fill('6o kg ');
  await draftHolds('6o kg ');
  floor = handsOn(await phone.relaunch(path()));
  expect(await (await floor.typing('load')).inputValue()).toBe('6o kg ');
});

test('Today resumes the session that ran, with its minutes', async () => {
  await floor.start('K', 'Front squat');
  await phone.clock('10:17');
  floor = handsOn(await phone.relaunch());
  await says(today(), 'Running · 17 min · 0 sets.');
  await floor.tap('Resume K');
  await says(next(), 'load? × reps? working');
});

test('a rest that ran out while the app was away is over, and is not sounded', async () => {
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  await says(clock(), '2:30');
  await phone.clock('10:20');
  floor = handsOn(await phone.relaunch(path()));
  await says(floor.page.getByRole('navigation', { name: 'clients' }), 'K ready');
  expect(await clock().count()).toBe(0);
});

test('hidden: what is typed is written at once; back after a minute, what another tab logged is there', async () => {
  await floor.start('K', 'Front squat');
  await floor.say({ reps: '5' });
  await floor.page.evaluate(() => {
    const load = document.querySelector<HTMLButtonElement>('[aria-label^="load: "]');
    load?.click();
  });
  await (await floor.typing('load')).fill('61,5');
  // hidden in the same task, before the pause after typing is over
  await floor.page.evaluate(() => {
    Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => 'hidden' });
    document.dispatchEvent(new Event('visibilitychange'));
  });
  await draftHolds('61,5');

  const other = handsOn(await phone.tab(path()));
  await other.tap('Use this tab');
  await phone.clock('10:02');
  await other.log();
  await other.page.close();
  await floor.page.evaluate(() => {
    Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => 'visible' });
    document.dispatchEvent(new Event('visibilitychange'));
  });
  await says(floor.lines(), '61.5 kg × 5');
});

describe('before the log is open', () => {
  test('Today is painted as it was, and a tap on Start is kept until the log is there', async () => {
    await phone.tell('open', 'held');
    floor = handsOn(await phone.relaunch());
    await says(today(), 'Client K', 'No session yet.');
    await says(floor.page.getByRole('main'), 'opening the log…');
    await floor.tap('Start K');
    expect(path()).toBe('/');
    await phone.tell('open', null);
    await says(floor.pad(), 'Nothing is in hand yet.');
    expect(path()).toMatch(/^\/s\//);
    expect((await phone.stored()).sessions('Client K')).toHaveLength(1);
  });

  test('a tap on Resume goes to the session, which says that it opens', async () => {
    await floor.start('K', 'Front squat');
    await floor.say({ load: '60', reps: '5' });
    await floor.log();
    await floor.tap('‹ Today');
    await says(today(), 'Running');
    await phone.tell('open', 'held');
    floor = handsOn(await phone.relaunch());
    await floor.tap('Resume K');
    await says(floor.page.getByRole('main'), 'Opening the log…');
    await phone.tell('open', null);
    await says(floor.lines(), '60 kg × 5');
    await says(next(), '60 kg × 5 working');
  });

  test('a new client is kept, and added once the log is there', async () => {
    await phone.tell('open', 'held');
    floor = handsOn(await phone.relaunch('/client/new'));
    await floor.type(/^Name; an alias/, 'Vale');
    await floor.tap('Add this client');
    await phone.tell('open', null);
    await says(floor.page.getByRole('main'), 'Client K', 'Vale');
    expect((await phone.stored()).ofKind('client')).toHaveLength(2);
  });
});

test('the browser is asked to keep the log at the first End, and not before', async () => {
  const asked = () => floor.page.evaluate(() => localStorage.getItem('test.asked-to-persist'));
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  floor = handsOn(await phone.relaunch(path()));
  await floor.lines().first().waitFor();
  expect(await asked()).toBeNull();
  await floor.tap('End');
  expect(await asked()).toBeNull();
  await floor.tap(/^End Client K/, floor.sheet());
  await expect.poll(asked).toBe('1');
});

test('a launch alone never says that another tab is logging, however short', async () => {
  await floor.start('K', 'Front squat');
  await draftHolds('lib-front-squat');
  const session = path();
  await phone.context.addInitScript(() => {
    const seen: string[] = [];
    Object.assign(window, { seen });
    new MutationObserver(() => {
      const text = document.body?.textContent ?? '';
      if (text.includes('Another tab')) seen.push(text);
    }).observe(document, { childList: true, subtree: true, characterData: true });
  });
  for (const at of [session, '/']) {
    floor = handsOn(await phone.relaunch(at));
    await floor.page.getByRole('button', { name: at === '/' ? 'Resume K' : 'another client' }).waitFor();
    await says(floor.page.getByRole('main'), at === '/' ? 'saved on this phone' : 'Log K');
    expect(await floor.page.evaluate(() => Reflect.get(window, 'seen'))).toEqual([]);
  }
});
