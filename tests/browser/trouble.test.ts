import { describe, expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import { type Phone, storedOn } from './harness';
import { says, saysNot } from './said';

/* Storage that fails: the floor says so, drops nothing, and a file can be saved in any case. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client K' });
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
});

const main = () => floor.page.getByRole('main');
const bar = () => floor.pad().getByRole('alert');

describe('no room', () => {
  test('a set that is not in the store shows NOT SAVED, is in the file, and is saved once there is room', async () => {
    await phone.clock('10:03');
    await phone.tell('full', 'yes');
    await floor.tap(/^Log K · set 2/, floor.pad());
    await says(bar(), 'NOT SAVED', '1 record on this screen alone; this phone’s storage is full');
    await says(floor.lines().last(), '60 kg × 5', 'NOT SAVED');
    expect(await floor.lines().last().getAttribute('data-saved')).toBeNull();
    expect(await floor.lines().first().getAttribute('data-saved')).toBe('');

    // one more, and a touch-up: all of it waits
    await phone.clock('10:06');
    await floor.tap('62.5', floor.pad());
    await floor.tap(/^Log K · set 3/, floor.pad());
    await floor.tap('2 left', floor.pad());
    await floor.tap('Save a file', bar());
    const unsaved = await storedOn(floor.page);
    expect(unsaved.sets('Client K').map((set) => set.load?.value)).toEqual([60, 60, 62.5]);
    expect(unsaved.sets('Client K').at(-1)).toMatchObject({ effort: { value: 2, as: 'left' } });
    await floor.tap('‹ Back');

    await floor.tap('Try again', bar());
    await says(bar(), 'NOT SAVED');
    await phone.tell('full', null);
    await floor.tap('Try again', bar());
    await expect.poll(() => bar().count()).toBe(0);
    expect(await floor.page.locator('li:not([data-saved])').count()).toBe(0);
    floor = handsOn(await phone.relaunch(new URL(floor.page.url()).pathname));
    await says(floor.lines().last(), '62.5 kg × 5 2 left');
    expect(await floor.lines().count()).toBe(3);
  });

  test('Today says it too, and the next set that fits saves what waited', async () => {
    await phone.tell('full', 'yes');
    await phone.clock('10:03');
    await floor.tap(/^Log K · set 2/, floor.pad());
    await says(bar(), 'NOT SAVED');
    await floor.tap('‹ Today');
    await says(main(), 'NOT SAVED: 1 record', 'NOT SAVED: 1 record on this screen alone');
    await floor.tap('Resume K');
    await phone.tell('full', null);
    await phone.clock('10:06');
    await floor.log();
    await saysNot(main(), 'NOT SAVED');
    expect((await phone.stored()).sets('Client K')).toHaveLength(3);
  });
});

describe('a log that does not open', () => {
  test.each([
    ['never answers', 'held', 'The browser’s storage did not answer.'],
    ['refuses', 'throws', 'The browser’s storage could not be opened (UnknownError).'],
  ] as const)('%s: it is said, and the file holds what the second copy has', async (_how, told, sentence) => {
    await secondCopyHoldsTheSet();
    await phone.tell('open', told);
    floor = handsOn(await phone.relaunch());
    await floor.page.getByRole('heading', { name: 'The log did not open' }).waitFor({ timeout: 15_000 });
    await says(main(), sentence, 'Reload');
    await floor.tap('Save what can be read as a file');
    await says(main(), sentence);
    const stored = await storedOn(floor.page);
    expect(stored.head).toMatchObject({ databaseRead: false });
    expect(stored.sets('Client K')).toMatchObject([{ load: { value: 60, unit: 'kg' }, reps: 5 }]);
    await says(main(), 'this file holds only what was on the screen and in the second copy');
    // nothing of this counts as a backup
    await says(main(), 'No backup yet');
    await phone.tell('open', null);
    floor = handsOn(await phone.relaunch());
    await floor.tap('Resume K');
    await says(floor.lines(), '60 kg × 5');
  });

  test('is from a newer app: it is said, and the file holds everything', async () => {
    await floor.page.evaluate(
      () =>
        new Promise<void>((resolve, reject) => {
          const opening = indexedDB.open('cuewright', 99);
          opening.onsuccess = () => {
            opening.result.close();
            resolve();
          };
          opening.onerror = () => reject(opening.error);
        }),
    );
    await says(floor.pad().getByRole('alert'), 'NOT SAVING', 'a newer version of the app is open in another tab');
    floor = handsOn(await phone.relaunch());
    await says(main(), 'The log did not open', 'These records were written by a newer version of the app.');
    await floor.tap('Save what can be read as a file');
    const stored = await storedOn(floor.page);
    expect(stored.head).toMatchObject({ databaseRead: true });
    expect(stored.sets('Client K')).toHaveLength(1);
  });
});

describe('a database that is gone', () => {
  test('is told, and what the second copy held comes back', async () => {
    await secondCopyHoldsTheSet();
    await phone.tell('wipe', 'cuewright');
    floor = handsOn(await phone.relaunch());
    await says(
      floor.page.getByRole('alert'),
      'This browser’s storage was found empty, and it had held records.',
      '2 came back',
    );
    await floor.tap('Resume K');
    await says(floor.lines(), '60 kg × 5');
    expect((await phone.stored()).sets('Client K')).toMatchObject([{ load: { value: 60, unit: 'kg' }, reps: 5 }]);
    // and it is not told again
    floor = handsOn(await phone.relaunch());
    await says(main(), 'Client K', 'Running');
    expect(await floor.page.getByRole('alert').count()).toBe(0);
  });
});

/** Resolves once the session in the second copy holds the set: a moment after it showed as saved. */
async function secondCopyHoldsTheSet(): Promise<void> {
  await expect
    .poll(() =>
      floor.page.evaluate(async () => {
        const root = await navigator.storage.getDirectory();
        const folder = await root.getDirectoryHandle('cuewright-second', { create: true });
        const texts: string[] = [];
        for await (const file of folder.values()) {
          if (file.kind === 'file') texts.push(await (await file.getFile()).text());
        }
        return texts.join();
      }),
    )
    .toMatch(/sets\/\w+\/reps/);
}
