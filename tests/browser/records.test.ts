import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { writeFromAnother } from './anotherDevice';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { lookedAt } from './lookedAt';
import { axeFinds, badTargets, reachesPastTheSide } from './measure';
import { says, saysNot, textOf } from './said';

/* What two devices wrote, what needs mending, what was removed: settled, mended and brought back on the Records page; a client erased for good. */

let phone: Phone;
let floor: Hands;
let set: string;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client K' });
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  set = (await floor.lines().first().getAttribute('data-set')) ?? '';
});

const part = (name: string) => floor.page.getByRole('region', { name, exact: true });
const main = () => floor.page.getByRole('main');

async function end(): Promise<void> {
  await floor.tap('End');
  await floor.tap(/^End Client K/, floor.sheet());
  await says(main(), 'Done today');
}

async function onRecords(): Promise<void> {
  floor = handsOn(await phone.relaunch('/records'));
  await part('Removed in the last thirty days').waitFor();
}

/** What another device wrote of the set, beside what stands there. */
const fromAnother = (values: Readonly<Record<string, { value: never; beside?: boolean }>>) =>
  writeFromAnother(floor.page, 'sessions', `sets/${set}/`, () =>
    Object.fromEntries(Object.entries(values).map(([name, written]) => [`sets/${set}/${name}`, written])),
  );

/** Looks at the page at both phone sizes: nothing past the side, axe clean, a picture where a folder is given. */
async function look(page: Page, name: string): Promise<void> {
  const folder = process.env['SIGHTS'];
  for (const [width, height] of [
    [390, 844],
    [320, 640],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
    expect(await reachesPastTheSide(page)).toEqual([]);
    expect(await badTargets(page)).toEqual([]);
    if (folder !== undefined) await page.screenshot({ path: `${folder}/${name} ${width}.png`, fullPage: true });
  }
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await axeFinds(page)).toEqual([]);
  }
}

test('a value written on two devices is told with both, settled by one tap, and settled otherwise after all', async () => {
  await end();
  await saysNot(main(), 'to settle');
  const load = { value: { value: 65, unit: 'kg' } as never, beside: true };
  await fromAnother({ load });
  floor = handsOn(await phone.relaunch());
  await floor.tap('Records: 1 to settle');
  const both = part('Written on two devices');
  await says(both, 'Client K · session of 24 Nov · Front squat 65 kg × 5 at 10:00 · load');
  await says(
    both,
    '65 kg',
    'a device without a name (lapt), 24 Nov, 10:00 · shown now',
    '60 kg',
    'this device, 24 Nov, 10:00',
  );
  await look(floor.page, 'two devices');
  await floor.tap(/^60 kg/, both);
  await both.waitFor({ state: 'detached' });
  await says(main(), 'Nothing to settle, nothing to mend.');
  expect((await phone.stored()).sets('Client K')).toMatchObject([{ load: { value: 60, unit: 'kg' } }]);

  // the value that was let go is still there after a restart, and can be chosen after all
  await onRecords();
  const settled = part('Settled lately');
  await says(settled, '60 kg', 'chosen', '65 kg', 'a device without a name (lapt)');
  await look(floor.page, 'settled lately');
  await floor.tap(/^65 kg/, settled);
  await says(settled, '65 kg', 'chosen', '60 kg');
  expect((await phone.stored()).sets('Client K')).toMatchObject([{ load: { value: 65, unit: 'kg' } }]);
  await floor.tap(/^60 kg/, settled);
  await says(settled, '60 kg', 'chosen', '65 kg');
  await onRecords();
  await says(main(), 'Nothing to settle, nothing to mend.');
  const stored = await phone.stored();
  const row = stored.rows.find((one) => one.kind === 'session');
  expect(row?.body[`sets/${set}/load`]).toMatchObject([{ value: { value: 60, unit: 'kg' } }]);
  floor = handsOn(await phone.relaunch());
  await says(main(), 'Done today');
  await saysNot(main(), 'Records:');
});

test('a start goes through the log only when rows may have come in from outside', async () => {
  await end();
  // what was done is looked at once, behind Today
  await lookedAt(floor.page);
  await phone.context.addInitScript(() => {
    const { getAll } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.getAll = function (this: IDBObjectStore, ...how: Parameters<typeof getAll>) {
      // what goes through a whole store, or all of a client's, takes so many at a time
      if (typeof how[1] === 'number') Object.assign(globalThis, { wentThrough: true });
      return getAll.apply(this, how);
    };
  });
  const wentThrough = () => floor.page.evaluate(() => 'wentThrough' in globalThis);
  floor = handsOn(await phone.relaunch());
  await says(main(), 'Done today');
  // longer than Today waits before it looks at anything
  await floor.page.waitForTimeout(3500);
  expect(await wentThrough()).toBe(false);
  await fromAnother({ load: { value: { value: 65, unit: 'kg' } as never, beside: true } });
  floor = handsOn(await phone.relaunch());
  await says(main(), 'Records: 1 to settle');
  expect(await wentThrough()).toBe(true);
  await lookedAt(floor.page);
  // what is to settle stays told, without going through it again
  floor = handsOn(await phone.relaunch());
  await says(main(), 'Records: 1 to settle');
  expect(await wentThrough()).toBe(false);
});

test('the same choice stands in the sheet of the set, by the name the device was given', async () => {
  const session = new URL(floor.page.url()).pathname;
  await fromAnother({ reps: { value: 8 as never, beside: true } });
  floor = handsOn(await phone.relaunch('/settings'));
  await floor.type('This device’s name', 'x'.repeat(41));
  await floor.tap('Keep this name');
  await says(part('this device'), 'a device’s name must have at most 40 characters; this has 41');
  await floor.type('This device’s name', 'Gym phone');
  await floor.tap('Keep this name');
  await says(floor.page.getByRole('status'), 'Name kept.');
  floor = handsOn(await phone.relaunch(session));
  await floor.tapOn(floor.lines().first().getByRole('button'));
  const choice = floor.sheet().getByRole('region', { name: 'written on two devices' });
  await says(choice, 'tap the one that is right', 'reps', '8', 'shown now', '5', 'Gym phone (this device)');
  await look(floor.page, 'the sheet of a set');
  await floor.tap(/^5/, choice);
  await choice.waitFor({ state: 'detached' });
  await says(floor.lines().first(), '60 kg × 5');
  floor = handsOn(await phone.relaunch('/settings'));
  await expect.poll(() => floor.page.getByLabel('This device’s name').inputValue()).toBe('Gym phone');
});

test('what was removed on one device and edited on another is kept, or removed again', async () => {
  await end();
  await fromAnother({ removed: { value: { removed: true, seen: {} } as never } });
  await onRecords();
  const both = part('Removed here, edited there');
  await says(
    both,
    'Front squat 60 kg × 5 at 10:00',
    'Removed on a device without a name (lapt)',
    'edited on this device',
  );
  await look(floor.page, 'removed and edited');
  await floor.tap(/^Remove it again: /, both);
  await both.waitFor({ state: 'detached' });
  await says(part('Removed in the last thirty days'), 'Front squat 60 kg × 5');
  expect((await phone.stored()).sets('Client K')).toEqual([]);
  await floor.tap('Undo removal · K');
  await floor.tap(/^Keep it: /, both);
  await both.waitFor({ state: 'detached' });
  await says(part('Removed in the last thirty days'), 'Nothing was removed in the last thirty days.');
  expect((await phone.stored()).sets('Client K')).toMatchObject([{ reps: 5 }]);
});

test('a set and a client that were removed come back in one tap, and undo removes them again', async () => {
  await floor.tapOn(floor.lines().first().getByRole('button'));
  await floor.tap('Remove this set', floor.sheet());
  await expect.poll(() => floor.lines().count()).toBe(0);
  await end();
  await floor.tap('Client K');
  await floor.tap('Remove this client…');
  await floor.tap('Remove the client');
  await onRecords();
  const gone = part('Removed in the last thirty days');
  await says(gone, 'Removed on this device, 24 Nov, 10:00');
  await floor.tap('Bring it back: Client K', gone);
  await says(gone, 'Client K · session of 24 Nov · Front squat 60 kg × 5 at 10:00');
  await look(floor.page, 'recently removed');
  await floor.tap(/^Bring it back: .*Front squat/, gone);
  await says(gone, 'Nothing was removed in the last thirty days.');
  expect((await phone.stored()).sets('Client K')).toMatchObject([{ reps: 5 }]);
  await floor.tap('Undo bringing back · K');
  await says(gone, 'Front squat 60 kg × 5');
  await phone.clock('2026-12-25 10:00');
  await onRecords();
  await says(part('Removed in the last thirty days'), 'Nothing was removed in the last thirty days.');
});

test('what does not go together is told in words, opened and mended by an ordinary edit', async () => {
  await end();
  const kg = (value: number) => ({ value: { value, unit: 'kg' } as never });
  await fromAnother({ added: kg(10), assist: kg(5) });
  floor = handsOn(await phone.relaunch());
  await floor.tap('Records: 1 to mend');
  const mending = part('Needs mending');
  await says(mending, '1 value is left out of what is counted until mended');
  await says(mending, 'needs mending: load added and load taken off are both noted');
  await look(floor.page, 'needs mending');
  await floor.tap(/^Open it: Client K/, mending);
  await says(floor.sheet(), 'load added and load taken off are both noted');
  await floor.tap('Keep these changes', floor.sheet());
  await floor.sheet().waitFor({ state: 'detached' });
  await onRecords();
  await says(main(), 'Nothing to settle, nothing to mend.');
  const [mended] = (await phone.stored()).sets('Client K');
  expect(mended).toMatchObject({ load: { value: 60 }, unread: [] });
});

test('a client whose name cannot be read is listed, and is given one', async () => {
  await end();
  await writeFromAnother(floor.page, 'rows', 'alias', () => ({ alias: { value: 7 } }));
  await onRecords();
  await says(part('Needs mending'), 'a client without a name', 'its name cannot be read by this version');
  await floor.tap('Open it: a client without a name', part('Needs mending'));
  await says(floor.page.getByRole('heading', { level: 1 }), 'A client without a name');
  await floor.type(/^Name; an alias/, 'Client K');
  await floor.tap('Keep these changes');
  floor = handsOn(await phone.relaunch());
  await says(main(), 'Client K', 'Done today');
  expect((await phone.stored()).sets('Client K')).toHaveLength(1);
});

test('a client who is erased is nowhere on the device any more, and Today goes on without them', async () => {
  await floor.tapOn(floor.lines().first().getByRole('button'));
  await floor.type('Note', 'KESTREL in the rafters');
  await floor.tap('Keep note', floor.sheet());
  await floor.tap('Close', floor.sheet());
  await end();
  await floor.addClient({ alias: 'Client L' });
  await expect.poll(() => keptOn(floor.page)).toContain('KESTREL');
  await floor.tap('Client K');
  await floor.tap('Erase this client for good…');
  const erase = part('erase');
  await says(erase, 'all sessions, sets, results, notes', 'It does not reach files that were made before');
  await says(erase, 'none is known to have been saved on this device', 'There is no undo.');
  await look(floor.page, 'erase');
  await floor.type('The client’s name', 'Client L');
  await floor.tap('Erase for good', erase);
  await says(erase, 'This is not the client’s name');
  await floor.type('The client’s name', 'Client K');
  await floor.tap('Erase for good', erase);
  await says(main(), 'Client L');
  await saysNot(main(), 'Client K');
  await expect.poll(() => keptOn(floor.page)).not.toContain('KESTREL');
  const kept = await keptOn(floor.page);
  expect(kept).toContain('Client L');
  expect(kept).not.toContain('Client K');
  floor = handsOn(await phone.relaunch());
  await says(main(), 'Client L');
  expect(await textOf(main())).not.toContain('Client K');
  expect(await keptOn(floor.page)).not.toMatch(/KESTREL|Client K/);
  expect((await phone.stored()).ofKind('erased')).toHaveLength(1);
});

/** Returns everything that the page's origin keeps, as one text: all databases, private files, and what localStorage holds. */
function keptOn(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const kept: unknown[] = [{ ...localStorage }];
    for (const { name = '' } of await indexedDB.databases()) {
      const opening = indexedDB.open(name);
      const db = await new Promise<IDBDatabase>((resolve) => {
        opening.onsuccess = () => resolve(opening.result);
      });
      for (const store of db.objectStoreNames) {
        const all = db.transaction(store).objectStore(store).getAll();
        kept.push(
          await new Promise((resolve) => {
            all.onsuccess = () => resolve(all.result);
          }),
        );
      }
      db.close();
    }
    const folders = [await navigator.storage.getDirectory()];
    for (const folder of folders) {
      for await (const entry of folder.values()) {
        if (entry.kind === 'directory') folders.push(entry as FileSystemDirectoryHandle);
        else kept.push(entry.name, await (await (entry as FileSystemFileHandle).getFile()).text());
      }
    }
    return JSON.stringify(kept);
  });
}
