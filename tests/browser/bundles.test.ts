import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { canonicalRow } from '../../src/merge/canonical';
import { eachPhone } from './eachPhone';
import { at, backupFrom, type FileOut, openFile, recoveryCode, savedFrom } from './fileHands';
import { type Hands, handsOn } from './hands';
import { openPhone, type Phone } from './harness';
import { axeFinds, badTargets, reachesPastTheSide } from './measure';
import { says, textOf } from './said';

/* Sealed files between devices, with the network cut: nothing but a file and its words goes from one to the other. */

let phone: Phone;
let floor: Hands;

const browser = eachPhone('10:00', async (made, hands) => {
  phone = made;
  floor = hands;
  await floor.addClient({ alias: 'Client K', short: 'Kay' });
  await floor.start('Kay', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
});

/** A second device, in a browser profile of its own. */
async function another(time: string): Promise<Phone> {
  return openPhone(browser(), { at: time });
}

const rowsOf = async (one: Phone): Promise<readonly string[]> => {
  const { rows } = await one.stored();
  return rows.map(canonicalRow).sort();
};

async function look(hands: Hands): Promise<void> {
  for (const width of [390, 320]) {
    await hands.page.setViewportSize({ width, height: 844 });
    expect(await reachesPastTheSide(hands.page)).toEqual([]);
    expect(await badTargets(hands.page)).toEqual([]);
  }
  for (const colorScheme of ['light', 'dark'] as const) {
    await hands.page.emulateMedia({ colorScheme });
    expect(await axeFinds(hands.page)).toEqual([]);
  }
  await hands.page.setViewportSize({ width: 390, height: 844 });
}

const file = (hands: Hands) => hands.page.getByRole('region', { name: 'the file' });
const done = (hands: Hands) => hands.page.getByRole('region', { name: 'done' });

/** Takes a file in on a device; `code` makes it one of the sender's. */
async function takeIn(one: Phone, out: FileOut, code?: string): Promise<Hands> {
  const hands = await at(one, '/bring-in');
  await openFile(hands, out);
  if (code !== undefined) {
    await hands.type('Recovery code or passphrase', code);
    await hands.tap('It is mine');
  }
  await hands.tap('Take it in');
  await says(done(hands), 'Taken in');
  return hands;
}

async function rename(one: Phone, alias: string): Promise<void> {
  const hands = await at(one, `/client/${(await one.stored()).stream('Client K')}`);
  await hands.type(/^Name; an alias/, alias);
  await hands.tap('Keep these changes');
  await hands.page.getByText(alias).first().waitFor();
}

test('everything comes back on an empty phone: the file, its seven words, the recovery code', async () => {
  const code = await recoveryCode(phone);
  const out = await backupFrom(phone);
  await look(handsOn(phone.page));
  const before = await rowsOf(phone);
  const fresh = await another('11:00');
  let hands = await at(fresh, '/');
  await hands.tap('I have a backup file');
  await look(hands);
  // the key of the words is not computed where taps are answered
  const workers: string[] = [];
  hands.page.on('worker', (worker) => workers.push(worker.url()));
  await openFile(hands, { ...out, words: `  ${out.words.toUpperCase().replaceAll(' ', ', ')} ` });
  await says(file(hands), 'A backup of everything', 'Client K', 'Is it yours?');
  expect(workers).toMatchObject([expect.stringContaining('/assets/deriveWorker-')]);
  await look(hands);
  const secret = hands.page.getByLabel('Recovery code or passphrase', { exact: true });
  // a keyboard that begins with a capital would turn a passphrase into another
  expect(await secret.getAttribute('autocapitalize')).toBe('none');
  await hands.type('Recovery code or passphrase', code.slice(0, -1));
  await hands.tap('It is mine');
  await says(file(hands), 'The code has 28 characters; here are 27.');
  await hands.type('Recovery code or passphrase', code);
  await hands.tap('It is mine');
  await says(file(hands), 'One of your own devices made it', `${before.length} new`, '0 changed', '0 refused');
  await look(hands);
  await hands.tap('Take it in');
  await says(done(hands), 'Taken in');
  expect(await rowsOf(fresh)).toEqual(before);

  hands = await at(fresh, '/');
  await hands.tap(/^Resume/);
  await says(hands.page.getByRole('region', { name: 'record' }), '60 kg × 5');
  // the new phone is one of the trainer's own: the old one knows its files
  await hands.say({ load: '62.5' });
  await hands.log();
  const back = await at(phone, '/bring-in');
  await openFile(back, await backupFrom(fresh));
  await says(file(back), 'One of your own devices made it', '1 changed');
  await fresh.close();
});

test('two devices edit apart, exchange files both ways, settle once, and hold the same', async () => {
  const code = await recoveryCode(phone);
  const laptop = await another('10:30');
  await takeIn(laptop, await backupFrom(phone), code);
  await laptop.clock('10:31');
  await rename(phone, 'Client Kestrel');
  await rename(laptop, 'Client Kite');
  let hands = await at(phone, '/bring-in');
  await openFile(hands, await backupFrom(laptop));
  await says(file(hands), 'kept beside');
  await hands.tap('Take it in');
  await says(done(hands), 'Taken in');
  hands = await at(phone, '/records');
  const both = hands.page.getByRole('region', { name: 'Written on two devices' });
  await says(both, 'Client Kite', 'Client Kestrel');
  await hands.tap(/^Client Kestrel/, both);
  await both.waitFor({ state: 'detached' });
  await takeIn(laptop, await backupFrom(phone));
  expect(await rowsOf(laptop)).toEqual(await rowsOf(phone));
  hands = await at(laptop, '/');
  await says(hands.page.getByRole('main'), 'Kay');
  expect((await laptop.stored()).stream('Client Kestrel')).toBeTruthy();

  // the same file a second time brings nothing, and says so
  hands = await at(laptop, '/bring-in');
  await openFile(hands, await backupFrom(phone));
  await says(file(hands), 'Nothing to take in');
  await laptop.close();
});

test('what was taken in is taken back by one undo', async () => {
  const out = await backupFrom(phone);
  const fresh = await another('11:00');
  const hands = await at(fresh, '/bring-in');
  await openFile(hands, out);
  await hands.tap('Go on without');
  await hands.tap('Take it in');
  await says(done(hands), 'Taken in');
  await hands.tap(/^Undo taking in/, done(hands));
  await hands.page.goto(`${fresh.url}/`);
  await says(hands.page.getByRole('main'), 'Start the first session');
  await fresh.close();
});

test('a client handed over: no more than was ticked, erased here but for a line, and back as a new client', async () => {
  const CANARY = 'KESTREL';
  await floor.tapOn(floor.lines().first());
  await floor.type('Note', `${CANARY} slept badly`);
  await floor.tap('Keep note');
  await expect.poll(async () => (await phone.stored()).lines.join('\n')).toContain(`${CANARY} slept badly`);
  const stream = (await phone.stored()).stream('Client K');
  let hands = await at(phone, `/client/${stream}`);
  await hands.tap('Hand over to another trainer…');
  await says(hands.page.getByRole('main'), 'A session of this client is running. End it first');
  hands = await at(phone, '/');
  await hands.tap('Resume Kay');
  await hands.tap('End');
  await hands.tap(/^End Client K/, hands.sheet());
  await says(hands.page.getByRole('main'), 'Done today');
  hands = await at(phone, `/hand-over/${stream}`);
  await look(hands);
  await hands.tap('Prepare the sealed file');
  await says(hands.page.getByRole('main'), 'Say what was agreed with the client.');
  await hands.type('What was agreed with the client, and when', 'Agreed in person on 24 November.');
  await hands.type('To whom', 'B. Trainer');
  await hands.type('From whom', 'A. Trainer');
  await hands.tap('Prepare the sealed file');
  await says(hands.page.getByRole('main'), 'left out');
  await look(hands);
  const out = await savedFrom(hands.page);

  const taker = await another('12:00');
  const theirs = await at(taker, '/bring-in');
  await openFile(theirs, out);
  await says(
    file(theirs),
    'A client handed over',
    'A. Trainer',
    'Left out as private: notes',
    'Agreed in person on 24 November.',
  );
  await look(theirs);
  await theirs.tap('Take it in');
  await says(done(theirs), 'Taken in');
  const stored = await taker.stored();
  expect(stored.sets('Client K')).toMatchObject([{ load: { value: 60, unit: 'kg' } }]);
  expect(stored.lines.join('\n')).not.toContain(CANARY);

  hands = handsOn(phone.page);
  await hands.tap('Erase here, and keep a stub…');
  await says(
    hands.page.getByRole('region', { name: 'erase' }),
    'One line stays',
    'a sealed file of 24 Nov: handed over',
  );
  await hands.type('The client’s name', 'Client K');
  await hands.tap('Erase for good');
  await says(hands.page.getByRole('main'), 'Start the first session');
  hands = await at(phone, '/records');
  await says(hands.page.getByRole('region', { name: 'handed over' }), 'Client K', 'to B. Trainer');
  await look(hands);

  const hand = await at(taker, `/hand-over/${stream}`);
  await hand.type('What was agreed with the client, and when', 'Back to A. Trainer.');
  await hand.tap('Prepare the sealed file');
  const back = await savedFrom(hand.page);
  hands = await at(phone, '/bring-in');
  await openFile(hands, back);
  await says(file(hands), 'Erased here before', 'Client K', 'They stay out');
  await look(hands);
  await hands.tap('Take them in as a new client');
  await hands.tap('Take it in');
  await says(done(hands), 'Taken in');
  const again = await phone.stored();
  expect(again.stream('Client K')).not.toBe(stream);
  expect(again.sets('Client K')).toMatchObject([{ load: { value: 60, unit: 'kg' } }]);
  await taker.close();
});

test('files that are refused: each by a sentence, and nothing changes', async () => {
  const out = await backupFrom(phone);
  const before = await rowsOf(phone);
  const folder = join(out.path, '..');
  const put = (name: string, bytes: Buffer | string): string => {
    const path = join(folder, `${name}-${Date.now()}`);
    writeFileSync(path, bytes);
    return path;
  };
  const changed = Buffer.from(out.bytes);
  changed[changed.length - 20]! ^= 1;
  const hands = await at(phone, '/bring-in');
  const main = hands.page.getByRole('main');
  const input = hands.page.getByLabel(/^(Choose the file|Another file)$/);
  const told = async (path: string, words: string | undefined, sentence: string): Promise<void> => {
    const again = hands.page.getByRole('button', { name: 'Another file', exact: true });
    if (await again.isVisible()) await hands.tapOn(again);
    await input.setInputFiles(path);
    if (words !== undefined) await hands.type('Its seven words', words);
    const from = performance.now();
    if (words !== undefined) await hands.tap('Open it');
    await expect.poll(() => textOf(main), { timeout: 8000, interval: 50 }).toContain(sentence);
    const ms = performance.now() - from;
    console.log(`${sentence.slice(0, 40)}: ${Math.round(ms)} ms`);
  };
  await told(put('empty', ''), undefined, 'This file is empty.');
  await told(put('picture', '\x89PNG and so on'), undefined, 'This is no file of this app.');
  await told(put('json', '{"format":"other/1"}\n'), undefined, 'This is no file of this app.');
  await told(put('newer', '{"format":"cuewright-rows/9","rows":0}\n'), undefined, 'made by a newer version of the app');
  const { words } = out;
  const [first = '', ...rest] = words.split(' ');
  await told(out.path, rest.join(' '), 'The words are seven; here are 6.');
  await told(out.path, [`${first}x`, ...rest].join(' '), `Is it “${first}”?`);
  await told(out.path, [...rest, first].join(' '), 'These are not the words of this file.');
  await told(put('cut', out.bytes.subarray(0, 60)), undefined, 'Its seven words');
  await told(put('cut', out.bytes.subarray(0, 60)), words, 'ends too early');
  await told(put('changed', changed), words, 'is damaged');
  expect(await rowsOf(phone)).toEqual(before);
});
