import { expect, test } from 'vitest';
import type { StoredRow } from '../../src/log/encode';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { says, textOf } from './said';

/* Text that looks like markup, rows from a newer app, and sessions longer than any: shown or kept as they are. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', (made, hands) => {
  phone = made;
  floor = hands;
});

const path = () => new URL(floor.page.url()).pathname;
const record = () => floor.page.getByRole('region', { name: 'record' });

/** Puts what `change` makes of the stored session with sets back into the store, as another version or a long day would have left it. */
async function changeStored(change: (row: StoredRow) => StoredRow): Promise<void> {
  const at = path();
  const text = await floor.page.evaluate(async () => {
    const opening = indexedDB.open('cuewright');
    const db = await new Promise<IDBDatabase>((resolve) => {
      opening.onsuccess = () => resolve(opening.result);
    });
    Object.assign(window, { testDb: db });
    const all = db.transaction('sessions').objectStore('sessions').getAll();
    return new Promise<string>((resolve) => {
      all.onsuccess = () => {
        const rows: { body: object }[] = all.result;
        const withSets = rows.find(({ body }) => Object.keys(body).some((name) => name.startsWith('sets/')));
        resolve(JSON.stringify(withSets));
      };
    });
  });
  await floor.page.evaluate(
    (changed) => {
      const db = Reflect.get(window, 'testDb') as IDBDatabase;
      const tx = db.transaction('sessions', 'readwrite', { durability: 'strict' });
      tx.objectStore('sessions').put(JSON.parse(changed));
      return new Promise<void>((resolve) => {
        tx.oncomplete = () => resolve();
      });
    },
    JSON.stringify(writtenByAnother(JSON.parse(text) as StoredRow, change)),
  );
  floor = handsOn(await phone.relaunch(at));
  await record().waitFor();
}

/** Stamps what a change adds as another writer's: under the stamps of the row itself it would look like what the row has dropped [M2]. */
function writtenByAnother(row: StoredRow, change: (row: StoredRow) => StoredRow): StoredRow {
  const changed = change(row);
  const l = 1 + Math.max(...row.seen.map(([, highest]) => highest));
  const body = Object.entries(changed.body).map(([name, register]) => {
    const isNew = JSON.stringify(row.body[name]) !== JSON.stringify(register);
    return [name, isNew ? register.map((part, at) => [l, row.seen.length, part][at % 3] ?? null) : register] as const;
  });
  return { ...changed, seen: [...row.seen, ['another1-writer01', l]], body: Object.fromEntries(body) };
}

test('markup typed into any field is text', async () => {
  const bad = '<img src=x onerror=alert(1)>';
  const dialogs: string[] = [];
  phone.context.on('dialog', (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  await floor.addClient({ alias: bad, short: '<b>K', dayName: '<script>a()</script>', day: '2026-12-01' });
  await says(floor.page.getByRole('main'), bad, '<script>a()</script>');
  await floor.start('<b>K');
  await floor.tap('Choose an exercise');
  await floor.type('Find, or name a new one', `${bad}1`);
  await floor.tap(/^Add “/);
  await floor.tap('band and reps', floor.sheet());
  await floor.tap('Add and use it', floor.sheet());
  await floor.tap('+ set-up');
  await floor.type('Box, grip, seat, whatever must be the same', `${bad}2`);
  await floor.tap('Keep set-up');
  await floor.say({ band: '<svg onload=alert(1)>', reps: '5' });
  await says(await floor.log(), '<svg onload=alert(1)> band × 5');
  await floor.tap('+ cue');
  await floor.type('Find, or a new cue in your words', `${bad}3`);
  await floor.tap('Add and give');
  await says(floor.pad(), `“${bad}3”`);
  await floor.tapOn(floor.lines().last().getByRole('button'));
  await floor.type('Note', `${bad}4`);
  await floor.tap('Keep note', floor.sheet());
  await floor.tap('Close', floor.sheet());
  await says(record(), `${bad}1`, `set-up: ${bad}2`);
  await floor.tap('End');
  await floor.tap('cut short', floor.sheet());
  await floor.type('Why', `${bad}5`);
  await floor.type('Note', `${bad}6`);
  await floor.tap(/^End /, floor.sheet());
  floor = handsOn(await phone.relaunch());
  await says(floor.page.getByRole('main'), bad);
  await floor.tap(bad);
  await says(floor.page.getByRole('heading', { level: 1 }), bad);
  expect(await floor.page.locator('img, script:not([src]), svg[onload], b:not([dir])').count()).toBe(0);
  expect(dialogs).toEqual([]);
  expect((await phone.stored()).sessions(bad)).toMatchObject([{ why: `${bad}5`, note: `${bad}6` }]);
});

test('what a newer app noted survives log, touch-up, edit, move and undo', async () => {
  await floor.addClient({ alias: 'Client K' });
  await floor.addClient({ alias: 'Vale' });
  await floor.start('Vale');
  await floor.tap('‹ Today');
  await phone.clock('10:01');
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  const set = (await floor.lines().first().getAttribute('data-set')) ?? '';
  const newer = {
    [`sets/${set}/barSpeed`]: { value: 0.61, from: 'sensor', raw: [1, null, 'é'] },
    [`sets/${set}/parts/1abc/tempo/left`]: '3-1-x',
    'sets/zzzzzzzz/barSpeed': 0.5,
    'blocks/aaaa/letter': 'B',
    weather: { inside: true },
  };
  await changeStored((row) => {
    const [l, writer] = row.body[`sets/${set}/reps`] ?? [];
    const more = Object.entries(newer).map(([name, value]) => [name, [l ?? 1, writer ?? 0, value]]);
    return { ...row, body: { ...row.body, ...Object.fromEntries(more) } };
  });
  const held = async () => {
    const stored = await phone.stored();
    const row = stored.rows.find((one) => one.kind === 'session' && one.stream === stored.stream('Client K'));
    return Object.fromEntries(Object.keys(newer).map((name) => [name, row?.body[name]]));
  };
  const before = JSON.stringify(await held());
  expect(before).toContain('barSpeed');

  await phone.clock('10:04');
  await floor.log();
  await floor.tap('2 left', floor.pad());
  await floor.tapOn(floor.lines().first().getByRole('button'));
  await floor.tap('clean', floor.sheet());
  await floor.tap('62.5', floor.sheet().getByRole('region', { name: 'what it held' }));
  await floor.tap('Keep these changes', floor.sheet());
  await says(floor.lines().first(), '62.5 kg × 5 clean');
  expect(JSON.stringify(await held())).toBe(before);

  await floor.tapOn(floor.lines().first().getByRole('button'));
  await floor.tap('move to Vale', floor.sheet());
  await expect.poll(() => floor.lines().count()).toBe(1);
  const moved = await phone.stored();
  const vales = moved.rows.find((one) => one.kind === 'session' && one.stream === moved.stream('Vale'));
  const values = JSON.stringify(Object.values(vales?.body ?? {}).map((register) => register[0].value));
  expect(values).toContain(JSON.stringify(newer[`sets/${set}/barSpeed`]));
  expect(values).toContain('"3-1-x"');
  await floor.tap(/^Undo move/);
  await says(floor.lines().first(), '62.5 kg × 5 clean');
  const back = await held();
  for (const [name, value] of Object.entries(newer)) expect(back[name]?.[0].value).toEqual(value);
});

test('the 301st set begins a continuation, says so, and the session is shown, mended and ended as one', async () => {
  await floor.addClient({ alias: 'Client K' });
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  const set = (await floor.lines().first().getAttribute('data-set')) ?? '';
  await changeStored((row) => {
    const own = Object.entries(row.body).filter(([name]) => name.startsWith(`sets/${set}/`));
    const more = Array.from({ length: 299 }, (_, n) =>
      own.map(([name, register]) => [
        name.replace(set, `seed${String(n).padStart(4, '0')}`),
        register.map((value) => (isInstant(value) ? { ...value, at: value.at - 3_600_000 + n * 1000 } : value)),
      ]),
    );
    return { ...row, body: { ...row.body, ...Object.fromEntries(more.flat()) } };
  });
  await expect.poll(() => floor.lines().count()).toBe(300);
  await phone.clock('10:05');
  await says(await floor.log('Log K · set 301'), '301 60 kg × 5');
  await says(
    floor.page.getByRole('status'),
    'This session holds 300 sets: it goes on in a continuation, shown as one.',
  );
  await floor.tap('2 left', floor.pad());
  await says(floor.lines().last(), '301 60 kg × 5 2 left');
  const session = path();

  const stored = await phone.stored();
  const rows = stored.rows.filter((row) => row.kind === 'session');
  expect(rows.map((row) => row.id.replace(/^\w{16}/, '')).sort()).toEqual(['', '-2']);
  expect(stored.sessions('Client K')).toHaveLength(1);
  expect(stored.sets('Client K')).toHaveLength(301);
  expect(stored.sets('Client K').at(-1)).toMatchObject({ effort: { value: 2, as: 'left' } });

  floor = handsOn(await phone.relaunch(session));
  await expect.poll(() => floor.lines().count()).toBe(301);
  await floor.tapOn(floor.lines().last().getByRole('button'));
  await floor.tap('Remove this set', floor.sheet());
  await expect.poll(() => floor.lines().count()).toBe(300);
  await floor.tap('Undo removal · K');
  await expect.poll(() => floor.lines().count()).toBe(301);
  await floor.tap('End');
  await says(floor.sheet(), '301 sets of 1 exercise');
  await floor.tap(/^End Client K/, floor.sheet());
  await says(floor.page.getByRole('main'), 'Done today · 301 sets.');
  expect(await textOf(floor.page.getByRole('main'))).not.toContain('undefined');
});

const isInstant = (value: unknown): value is { at: number } =>
  typeof value === 'object' && value !== null && 'at' in value && 'zone' in value;
