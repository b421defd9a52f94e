import { backupFrom, openFile } from './fileHands';
import { handsOn } from './hands';
import type { Phone } from './harness';
import { HEBREW, LONG, type Sight } from './tour';

/** Walks through the pages of files and keys, and stops at each for `look`: with the longest names, and with every form open. */
export async function tourFiles(phone: Phone, look: (sight: Sight) => Promise<void>): Promise<void> {
  const see = (name: string): Promise<void> => look({ name, where: 'floor' });
  const first = handsOn(phone.page);
  await first.tap('I have a backup file');
  await see('bringing a file in');
  await first.tap('‹ Back');
  for (const alias of [LONG, HEBREW]) await first.addClient({ alias });

  const out = await backupFrom(phone);
  await see('a sealed backup');
  let floor = handsOn(phone.page);
  await floor.tap('A sealed file of some clients…');
  await see('some clients');

  floor = handsOn(await phone.relaunch('/bring-in'));
  await floor.page.getByLabel('Choose the file').setInputFiles(out.path);
  await floor.type('Its seven words', 'seven');
  await floor.tap('Open it');
  await floor.page.getByText('The words are seven').waitFor();
  await see('words that are refused');
  await openFile(floor, out);
  await floor.page.getByText('Nothing to take in').waitFor();
  await see('a file that brings nothing');

  floor = handsOn(await phone.relaunch('/keys'));
  await floor.tap('Make the recovery code');
  await floor.page.locator('.seal-code').waitFor();
  await floor.tap('Set a passphrase…');
  await floor.tap('New keys…');
  await floor.page.getByRole('button', { name: 'Set the passphrase' }).tap();
  await see('keys, every form open');

  const stream = (await phone.stored()).stream(LONG);
  floor = handsOn(await phone.relaunch(`/hand-over/${stream}`));
  await floor.tap('Prepare the sealed file');
  await see('handing over, refused');
  await floor.type('What was agreed with the client, and when', 'x'.repeat(400));
  await floor.type('To whom', HEBREW);
  await floor.tap('private notes');
  await floor.tap('Prepare the sealed file');
  await floor.page.getByRole('list', { name: 'the seven words' }).waitFor();
  await see('handed over');
}
