import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import type { Row } from '../../src/merge/row';
import { makeBundle } from '../../src/sync/makeBundle';
import { crafted, head, lines } from '../sync/bundleRig';
import { PHRASE, seeded } from '../sync/rig';
import { eachPhone } from './eachPhone';
import { at, openFile } from './fileHands';
import type { Hands } from './hands';
import type { Phone } from './harness';
import { axeFinds, reachesPastTheSide } from './measure';
import { says } from './said';

/* Files that somebody made on purpose, or that are far too large: a sentence or a bar with a way out, and the log as it was. */

let phone: Phone;
const folder = mkdtempSync(join(tmpdir(), 'cuewright-hostile-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

eachPhone('10:00', async (made, hands) => {
  phone = made;
  await hands.addClient({ alias: 'Client K' });
});

async function kept(name: string, file: Blob): Promise<string> {
  const path = join(folder, name);
  writeFileSync(path, Buffer.from(await file.arrayBuffer()));
  return path;
}

const file = (hands: Hands) => hands.page.getByRole('region', { name: 'the file' });
const row = (id: string, kind: string, body: Record<string, unknown>): Row =>
  ({
    id,
    kind,
    stream: 'c1',
    seen: { 'w1-r1': 9 },
    body: Object.fromEntries(
      Object.entries(body).map(([path, value]) => [path, [{ value, stamp: { l: 9, writer: 'w1-r1' } }]]),
    ),
  }) as unknown as Row;

/** A file of rows, as a stranger may make one. */
async function fileOf(rows: Iterable<Row>, name: string): Promise<string> {
  const order = {
    phrase: PHRASE,
    signer: { by: 'nobody', vault: 'v9' },
    app: '9',
    device: { id: 'd9', name: '' },
    sender: `<img src=x onerror="alert(1)">${'W'.repeat(150)}`,
    what: 'clients',
    streams: [{ stream: 'c1', name: `<b>bold</b>${'M'.repeat(180)}`, withheld: ['<i>'] }],
    consent: '‮javascript:alert(1)'.repeat(20),
  } as const;
  const made = await makeBundle(rows, order, { now: () => 1_770_000_000_000, random: seeded(7) });
  if (!made.ok) throw new Error(made.error.type);
  return kept(name, made.value.file);
}

function* many(count: number): Generator<Row> {
  for (let n = 0; n < count; n += 1) yield row(`s${String(n).padStart(8, '0')}`, 'session', { note: `note ${n}` });
}

test('names and notes of any kind are text, and reach past no side', async () => {
  const alias = '</title><script>alert(1)</script>';
  const path = await fileOf(
    [row('c1', 'client', { alias, short: '<b>' }), row('c2', 'exercise', { name: 'constructor' })],
    'names',
  );
  const hands = await at(phone, '/bring-in');
  await openFile(hands, { path, words: PHRASE });
  await says(
    file(hands),
    'Some clients',
    '<img src=x onerror=',
    '<b>bold</b>',
    'Left out as private: <i>',
    'Nobody signed it',
  );
  for (const width of [320, 390, 1280]) {
    await hands.page.setViewportSize({ width, height: 844 });
    expect(await reachesPastTheSide(hands.page)).toEqual([]);
  }
  expect(await axeFinds(hands.page)).toEqual([]);
  await hands.tap('Take it in');
  await says(hands.page.getByRole('region', { name: 'done' }), 'Taken in');
  const today = await at(phone, '/');
  await says(today.page.getByRole('main'), '<script>alert(1)</script>');
  expect(await reachesPastTheSide(today.page)).toEqual([]);
});

test('what unpacks to far more than it is, and what was changed inside, is refused', async () => {
  const before = (await phone.stored()).lines;
  const hands = await at(phone, '/bring-in');
  const zeros = await kept('bomb', await crafted(new Uint8Array(64 * 1024 * 1024)));
  const strange = await kept('strange', await crafted(lines(head, { id: 'a' }, 'x')));
  const newer = await kept('newer', await crafted(lines({ ...head, format: 'cuewright-bundle/2' })));
  const other = await kept('other', await crafted('a letter\n'));
  const short = await kept('short', await crafted(lines(head, { end: { rows: 3 } })));
  for (const [path, sentence] of [
    [zeros, 'more'],
    [strange, 'damaged'],
    [newer, 'made by a newer version of the app'],
    [other, 'This is no file of this app.'],
    [short, 'damaged'],
  ] as const) {
    const again = hands.page.getByRole('button', { name: 'Another file', exact: true });
    if (await again.isVisible()) await hands.tapOn(again);
    const from = performance.now();
    await openFile(hands, { path, words: PHRASE });
    await says(hands.page.getByRole('alert'), sentence);
    console.log(`${sentence}: ${Math.round(performance.now() - from)} ms`);
  }
  expect((await phone.stored()).lines).toEqual(before);
});

test('a large file shows how far it is, is called off, and leaves nothing; then it is taken in', {
  timeout: 180_000,
}, async () => {
  const before = (await phone.stored()).lines;
  const path = await fileOf(many(60_000), 'large');
  const hands = await at(phone, '/bring-in');
  await openFile(hands, { path, words: PHRASE });
  await hands.page.getByRole('progressbar', { name: 'Looking through it…' }).waitFor();
  expect(await axeFinds(hands.page)).toEqual([]);
  await hands.tap('Call it off');
  await says(file(hands), 'Called off. Nothing was changed.');
  expect((await phone.stored()).lines).toEqual(before);
  await hands.tap('Another file');
  await openFile(hands, { path, words: PHRASE });
  await file(hands).getByText('60,000 new').waitFor({ timeout: 60_000 });
  await says(file(hands), 'So many records have no undo.');
  await hands.tap('Take it in');
  await hands.page.getByText('Taken in: 60,000 new records').first().waitFor({ timeout: 120_000 });
  expect((await phone.stored()).lines).toHaveLength(before.length + 60_000);
});
