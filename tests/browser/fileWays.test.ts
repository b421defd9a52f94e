import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { eachPhone } from './eachPhone';
import { at, backupFrom, openFile } from './fileHands';
import type { Hands } from './hands';
import type { Phone } from './harness';
import { axeFinds, badTargets, reachesPastTheSide } from './measure';
import { says } from './said';

/* The ways a file comes and goes besides choosing and saving it: dropped on the page, and through the share sheet. */

let phone: Phone;

eachPhone('10:00', async (made, hands) => {
  phone = made;
  await hands.addClient({ alias: 'Client K', short: 'Kay' });
});

const file = (hands: Hands) => hands.page.getByRole('region', { name: 'the file' });

test('a file is dropped on the page of a computer', async () => {
  const out = await backupFrom(phone);
  const hands = await at(phone, '/bring-in');
  const dropped = await hands.page.evaluateHandle(
    ([base64]) => {
      const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
      const data = new DataTransfer();
      data.items.add(new File([bytes], 'backup.age'));
      return data;
    },
    [out.bytes.toString('base64')] as const,
  );
  await hands.page.getByRole('main').dispatchEvent('drop', { dataTransfer: dropped });
  await hands.type('Its seven words', out.words);
  await hands.tap('Open it');
  await says(file(hands), 'One of your own devices made it', 'Nothing to take in');
});

test('two taps to the share sheet: a file of a kind that browsers hand on, which opens like any other', async () => {
  await phone.context.addInitScript(() => {
    Object.assign(navigator, {
      canShare: () => true,
      share: async ({ files: [shared] }: { files: File[] }) => {
        if (!navigator.userActivation.isActive) throw new DOMException('', 'NotAllowedError');
        const bytes = new Uint8Array(await (shared as File).arrayBuffer());
        Object.assign(window, { handed: { name: shared?.name, type: shared?.type, bytes: [...bytes] } });
      },
    });
  });
  const hands = await at(phone, '/backup');
  await hands.tap('Prepare the sealed file');
  const list = hands.page.getByRole('list', { name: 'the seven words' });
  await list.waitFor();
  const words = (await list.getByRole('listitem').allTextContents()).join(' ');
  expect(await reachesPastTheSide(hands.page)).toEqual([]);
  await hands.tap('Share the file');
  await hands.page.getByText('Backup file handed over.').waitFor({ state: 'attached' });
  const handed = await hands.page.evaluate(() => Reflect.get(window, 'handed') as { name: string; bytes: number[] });
  // it names no client, and nothing of one can be read in it
  expect(handed.name).toBe('cuewright-2026-11-24.age.txt');
  expect(Buffer.from(handed.bytes).toString('latin1')).not.toContain('Client');
  const path = join(mkdtempSync(join(tmpdir(), 'cuewright-shared-')), handed.name);
  writeFileSync(path, Buffer.from(handed.bytes));
  const again = await at(phone, '/bring-in');
  await openFile(again, { path, words });
  await says(file(again), 'One of your own devices made it', 'Nothing to take in');
});

test('new words for the backups from now on; a file that was made before keeps its own', async () => {
  const out = await backupFrom(phone);
  const hands = await at(phone, '/backup');
  await hands.tap('Show the seven words');
  const list = hands.page.getByRole('list', { name: 'the seven words' }).getByRole('listitem');
  expect((await list.allTextContents()).join(' ')).toBe(out.words);
  await hands.tap('New words…');
  expect(await reachesPastTheSide(hands.page)).toEqual([]);
  expect(await badTargets(hands.page)).toEqual([]);
  expect(await axeFinds(hands.page)).toEqual([]);
  await hands.tap('Draw new words');
  await expect.poll(async () => (await list.allTextContents()).join(' ')).not.toBe(out.words);
  const next = await backupFrom(phone);
  expect(next.words).not.toBe(out.words);
  const again = await at(phone, '/bring-in');
  await openFile(again, out);
  await says(file(again), 'One of your own devices made it');
});
