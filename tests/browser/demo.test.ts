import type { Page } from 'playwright-core';
import { beforeEach, describe, expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import { type Phone, storedOn } from './harness';
import { axeFinds, badTargets, reachesPastTheSide } from './measure';
import { says, saysNot } from './said';

/* The demo: loaded and removed with one tap each, marked wherever one goes, never mixed with one's own log. All of it offline. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', (made, hands) => {
  phone = made;
  floor = hands;
});

const main = () => floor.page.getByRole('main');
const mark = () => floor.page.getByRole('complementary', { name: 'Invented demo' });
const remove = () => mark().getByRole('button', { name: 'Remove the demo' });

/** Loads the demo and waits until Today shows its four. */
async function load(): Promise<void> {
  await floor.tap('Load the demo');
  await mark().waitFor();
  await says(main(), 'Client Fog', 'Client Gale', 'Client Puddle', 'Client Sleet');
}

/** Removes the demo and waits until what was left of it is gone. */
async function removed(): Promise<void> {
  await floor.tapOn(remove());
  await expect.poll(() => mark().count()).toBe(0);
  await expect.poll(() => traces(floor.page)).toEqual([]);
}

/** Waits until the page brings no more parts: closed in between, it would complain of the part it did not get. */
async function loaded(): Promise<void> {
  const parts = () => floor.page.evaluate(() => performance.getEntriesByType('resource').length).catch(() => -1);
  for (let before = -1, now = await parts(); before !== now || now <= 0; ) {
    await new Promise((done) => setTimeout(done, 250));
    [before, now] = [now, await parts()];
  }
}

/** Everything of the demo that lies on the device. */
const traces = (page: Page): Promise<readonly string[]> =>
  page.evaluate(async () => {
    const bases = (await indexedDB.databases()).flatMap(({ name }) => name ?? []);
    const folders: string[] = [];
    for await (const name of (await navigator.storage.getDirectory()).keys()) folders.push(name);
    return [...bases, ...folders, ...Object.keys(localStorage)].filter((name) => name.includes('demo'));
  });

/** Opens the trend of the deadlift: the first tap takes it in hand, the second opens it. */
async function trend(): Promise<void> {
  const record = floor.page.getByRole('region', { name: 'record' });
  await floor.tap('Deadlift', record);
  await floor.tap('Deadlift trend', record);
  await floor.sheet().getByRole('img').first().waitFor();
}

/** What the file of the log shown holds, a row a line. */
const lines = async (): Promise<readonly string[]> => (await phone.stored()).lines;

describe('from an empty start', () => {
  beforeEach(load);

  test('every page and sheet bears the mark; a set is logged in a session by the plan of the day; its trend is there at once', async () => {
    const paths = ['/settings', '/help', '/library/exercises', '/library/places', '/backup', '/client/new', '/nowhere'];
    for (const path of paths) {
      floor = handsOn(await phone.relaunch(path));
      await says(mark(), 'Invented demo');
    }
    floor = handsOn(await phone.relaunch('/'));
    await floor.tap('Client Gale');
    await says(main(), 'Client Gale');
    await says(mark(), 'Invented demo');
    await floor.page.goBack();
    await floor.tap('Other work, more of Gale');
    await says(main(), 'rehearsal', 'Heavy from the floor', 'Squat and sacks');
    await says(mark(), 'Invented demo');
    await floor.page.goBack();

    await floor.tap('Start Gale · Heavy from the floor');
    await says(mark(), 'Invented demo');
    const record = floor.page.getByRole('region', { name: 'record' });
    await says(record, 'Hip mobility', 'Deadlift', 'Bench press');
    await trend();
    await says(floor.sheet(), 'kg');
    expect(await remove().isVisible()).toBe(true);
    await floor.tap('Close', floor.sheet());
    await floor.log();
    await says(floor.lines().first(), 'kg × 5');

    const session = new URL(floor.page.url()).pathname;
    for (const sheet of ['end', 'change', 'more', 'arrival', 'signs', 'place', 'exercise', 'block/new']) {
      floor = handsOn(await phone.relaunch(`${session}/${sheet}`));
      await floor.sheet().waitFor();
      await says(mark(), 'Invented demo');
      expect(await remove().isVisible(), sheet).toBe(true);
    }
    floor = handsOn(await phone.relaunch(session.replace('/s/', '/view/')));
    await says(main(), 'Client Gale', 'Today', 'Deadlift');
    await says(mark(), 'Invented demo');
    await removed();
    await says(main(), 'Start the first session');
  });

  test('nothing nags, and a file of it says what it is and cannot be mistaken', async () => {
    await saysNot(main(), 'backup');
    await floor.tap('saved on this phone');
    await says(main(), 'Invented records: they need no backup.');
    await floor.tap('Prepare the file');
    const save = floor.page.getByRole('button', { name: 'Save the file' });
    const [download] = await Promise.all([floor.page.waitForEvent('download'), save.tap()]);
    expect(download.suggestedFilename()).toBe('cuewright-demo-2026-11-24.jsonl');
    const { head } = await storedOnAnew();
    expect(head).toMatchObject({ log: 'cuewright-demo' });
    await removed();
    // having saved the demo is no backup of one's own
    await says(main(), 'no backup yet');
  });

  test('a demo that does not open is removed all the same', async () => {
    await phone.tell('open', 'throws');
    floor = handsOn(await phone.relaunch('/'));
    await says(main(), 'The log did not open');
    await says(mark(), 'Invented demo');
    // the storage refuses that log alone
    await phone.tell('open', null);
    await floor.page.evaluate(
      () =>
        new Promise((done) => {
          indexedDB.deleteDatabase('cuewright-demo').onsuccess = () => {
            const newer = indexedDB.open('cuewright-demo', 99);
            newer.onsuccess = () => done(newer.result.close());
          };
        }),
    );
    floor = handsOn(await phone.relaunch('/'));
    await says(main(), 'These records were written by a newer version of the app.');
    await removed();
    await says(main(), 'Start the first session');
  });

  test('another tab goes along, there and back', async () => {
    const other = await phone.tab('/');
    await says(other.getByRole('main'), 'Client Fog');
    await floor.page.bringToFront();
    await removed();
    await says(other.getByRole('main'), 'Start the first session');
  });

  test.each(['light', 'dark'] as const)('%s: the mark leaves room, at 320 and 390', async (colorScheme) => {
    await floor.page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    const look = async (what: string): Promise<void> => {
      expect(await axeFinds(floor.page), what).toEqual([]);
      for (const [width, height] of [
        [320, 640],
        [390, 844],
      ] as const) {
        await floor.page.setViewportSize({ width, height });
        await floor.page.evaluate(
          () => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))),
        );
        expect(await reachesPastTheSide(floor.page), `${what} ${width}`).toEqual([]);
        expect(await badTargets(floor.page), `${what} ${width}`).toEqual([]);
        const folder = process.env['SIGHTS'];
        if (folder !== undefined)
          await floor.page.screenshot({ path: `${folder}/${what} ${colorScheme} ${width}.png` });
      }
    };
    await look('Today');
    await floor.tap('Start Gale · Heavy from the floor');
    await floor.log();
    await look('touch-up');
    const logs = floor.pad().getByRole('button', { name: /^Log / }).last();
    for (const height of [640, 568]) {
      await floor.page.setViewportSize({ width: 320, height });
      const box = await logs.boundingBox();
      expect((box?.y ?? 0) + (box?.height ?? 999), `${height}`).toBeLessThanOrEqual(height);
      const top = await floor.page.evaluate(
        ([x, y]) => document.elementFromPoint(x, y)?.closest('button')?.textContent ?? '',
        [(box?.x ?? 0) + (box?.width ?? 0) / 2, (box?.y ?? 0) + (box?.height ?? 0) / 2] as const,
      );
      expect(top).toMatch(/^Log/);
    }
    await trend();
    await look('trend');
    for (const path of ['/backup', '/help', '/library/exercises', '/settings']) {
      floor = handsOn(await phone.relaunch(path));
      await loaded();
      await floor.page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
      await look(path.slice(1).replace('/', ' '));
    }
  });
});

describe('with records of one’s own', () => {
  beforeEach(async () => {
    await floor.addClient({ alias: 'Client K' });
    await floor.start('K', 'Front squat');
    await floor.say({ load: '60', reps: '5' });
    await floor.log();
  });

  test('it is refused while a session runs', async () => {
    floor = handsOn(await phone.relaunch('/backup'));
    await floor.tap('Load the demo');
    await says(main(), 'A session is running. End it first, then load the demo.');
    expect(await traces(floor.page)).toEqual([]);
    expect(await mark().count()).toBe(0);
  });

  test('they are untouched by a demo in which one logs, byte for byte', async () => {
    await floor.tap('End');
    await floor.tap(/^End Client K/, floor.sheet());
    const before = await lines();
    floor = handsOn(await phone.relaunch('/backup'));
    await load();
    await saysNot(main(), 'Client K');
    await floor.tap('Start Gale · Heavy from the floor');
    await floor.log();
    const demo = await lines();
    expect(demo.length).toBeGreaterThan(300);
    expect(demo.filter((line) => before.includes(line))).toEqual([]);
    floor = handsOn(await phone.relaunch('/'));
    await says(mark(), 'Invented demo');
    await removed();
    await says(main(), 'Client K');
    await saysNot(main(), 'Client Gale');
    expect(await lines()).toEqual(before);
    floor = handsOn(await phone.relaunch('/'));
    await says(main(), 'Client K', 'Done today');
    expect(await lines()).toEqual(before);
  });
});

describe('killed in the middle', () => {
  test('of loading: the start after shows the demo whole or one’s own log, with no trace', async () => {
    const ends = new Set<string>();
    for (const after of [0, 30, 80, 200, 1000]) {
      await loaded();
      await floor.page.getByRole('button', { name: 'Load the demo' }).tap({ noWaitAfter: true });
      const waited = new Promise((done) => setTimeout(done, after));
      await Promise.race([waited, floor.page.waitForEvent('framenavigated')]);
      if (after >= 1000) await loaded();
      floor = handsOn(await phone.relaunch('/'));
      await loaded();
      await main()
        .getByText(/^Client Gale$|^Start the first session$/)
        .waitFor();
      if ((await mark().count()) > 0) {
        await says(main(), 'Client Fog', 'Client Gale', 'Client Puddle', 'Client Sleet');
        ends.add('whole');
        await removed();
      } else {
        await expect.poll(() => traces(floor.page), { timeout: 5000 }).toEqual([]);
        ends.add('none');
      }
      await says(main(), 'Start the first session');
    }
    expect([...ends].sort()).toEqual(['none', 'whole']);
  });

  test('of loading, with half of it written, or of removing: the start after clears it away', async () => {
    await floor.page.evaluate(async () => {
      localStorage.setItem('cuewright.demo', 'loading');
      localStorage.setItem('cuewright-demo.device', 'abcdefgh');
      const root = await navigator.storage.getDirectory();
      await root.getDirectoryHandle('cuewright-demo-second', { create: true });
      await new Promise((done) => {
        const half = indexedDB.open('cuewright-demo', 1);
        half.onupgradeneeded = () => half.result.createObjectStore('rows', { keyPath: ['stream', 'id'] });
        half.onsuccess = () => done(half.result.close());
      });
    });
    expect(await traces(floor.page)).toHaveLength(4);
    floor = handsOn(await phone.relaunch('/'));
    await says(main(), 'Start the first session');
    await expect.poll(() => traces(floor.page)).toEqual([]);
    await load();
    await floor.page.evaluate(() => localStorage.setItem('cuewright.demo', 'leaving'));
    floor = handsOn(await phone.relaunch('/'));
    await says(main(), 'Start the first session');
    await expect.poll(() => traces(floor.page)).toEqual([]);
  });
});

async function storedOnAnew() {
  floor = handsOn(await phone.relaunch('/backup'));
  return storedOn(floor.page);
}
