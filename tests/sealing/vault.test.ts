import { describe, expect, test } from 'vitest';
import { setsOf } from '../log/floor';
import { REAL } from '../log/room';
import { everything, got, place, sealed, takeIn, takenIn, trained } from './rig';

const CODE = /^[0-9A-Z]{4}(-[0-9A-Z]{4}){6}$/;

describe('a backup sealed here', () => {
  test('opens on an empty device with its seven words, and everything is there', async () => {
    const phone = await place(1);
    const session = await trained(phone, 'Client M');
    const file = await sealed(phone);
    expect(file.words.split(' ')).toHaveLength(7);
    const before = await everything(phone);
    const laptop = await place(2);
    const { opened, look } = await takenIn(laptop, file);
    expect(opened).toMatchObject({ whose: 'keys', what: 'vault' });
    expect(opened.clients).toMatchObject([{ stream: session.stream, name: 'Client M' }]);
    expect(look.report).toMatchObject({ new: before.length, changed: 0, refused: 0 });
    expect(await everything(laptop)).toEqual(before);
    await laptop.log.loadSession(session.stream, session.session);
    expect(setsOf(REAL, laptop.app, session)).toEqual(['100x5']);
  });

  test('has the same words each time, until new ones are asked for', async () => {
    const phone = await place(1);
    await trained(phone, 'Client M');
    const first = await sealed(phone);
    expect((await sealed(phone)).words).toBe(first.words);
    got(await phone.sealing.newWords());
    const third = await sealed(phone);
    expect(third.words).not.toBe(first.words);
    const laptop = await place(2);
    expect(await laptop.sealing.open(third.file, first.words)).toMatchObject({ error: { type: 'wrong-phrase' } });
  });

  test('counts as a backup once it was handed over, and not before', async () => {
    const phone = await place(1);
    await trained(phone, 'Client M');
    const file = await sealed(phone);
    expect(phone.log.status().lastBackup).toBeNull();
    await phone.app.run(() => file.handedOver());
    expect(phone.log.status().lastBackup).toBe(phone.device.world.now());
    expect(await phone.sealing.keys()).toMatchObject({ sealed: [{ what: 'vault' }], words: file.words });
  });
});

describe('two devices of one trainer', () => {
  /** The laptop joins by the recovery code. */
  async function two() {
    const phone = await place(1);
    const session = await trained(phone, 'Client M');
    const code = got(await phone.sealing.newCode());
    const laptop = await place(2);
    const opened = got(await laptop.sealing.open(...(await fileOf(phone))));
    got(await laptop.app.run(() => opened.join(code)));
    await takeIn(laptop, opened);
    return { phone, laptop, session, code };
  }
  const fileOf = async (at: Awaited<ReturnType<typeof place>>) => {
    const { file, words } = await sealed(at);
    return [file, words] as const;
  };

  test('the recovery code, shown once, makes the second one own: its files are checked as own', async () => {
    const { phone, laptop, code } = await two();
    expect(code).toMatch(CODE);
    await trained(laptop, 'Client N', '60');
    const file = await sealed(laptop);
    const { opened, look } = await takenIn(phone, file);
    expect(opened.whose).toBe('own');
    expect(look.signature).toEqual({ by: 'own-vault' });
    expect(await everything(phone)).toEqual(await everything(laptop));
    expect((await phone.sealing.keys()) as object).toMatchObject({ locked: false });
  });

  test('edits of one value made apart are kept beside each other, and told before they come in', async () => {
    const { phone, laptop, session } = await two();
    for (const [at, alias] of [
      [phone, 'Client Em'],
      [laptop, 'Client Emm'],
    ] as const) {
      const fields = { alias, short: '', dayName: '', day: '' };
      at.app.run(() => REAL.saveClient(at.log, fields, at.device.world, session.stream));
      await at.log.retry();
    }
    const { look } = await takenIn(phone, await sealed(laptop));
    // the name, and the short name that is made of it
    expect(look.report).toMatchObject({ changed: 1, keptBeside: 2 });
    await takenIn(laptop, await sealed(phone));
    expect(await everything(phone)).toEqual(await everything(laptop));
  });

  test('a wrong code, one mistyped character and a passphrase that was never made are told apart', async () => {
    const { phone, code } = await two();
    const third = await place(3);
    const opened = got(await third.sealing.open(...(await fileOf(phone))));
    const wrong = got(await (await place(4)).sealing.newCode());
    expect(await third.app.run(() => opened.join(wrong))).toMatchObject({ error: { type: 'wrong-code' } });
    expect(await third.app.run(() => opened.join('a long enough passphrase'))).toMatchObject({
      error: { type: 'no-door', door: 'passphrase' },
    });
    expect(await phone.sealing.confirmCode(`${code.slice(0, -1)}${code.endsWith('0') ? '1' : '0'}`)).toMatchObject({
      error: { type: 'code-mistyped' },
    });
    expect(await phone.sealing.keys()).toMatchObject({ code: { confirmed: null } });
    got(await phone.sealing.confirmCode(code.toLowerCase().replaceAll('-', ' ')));
    expect(await phone.sealing.keys()).toMatchObject({ code: { confirmed: phone.device.world.now() } });
    expect(await phone.sealing.isOwner(code)).toBe('yes');
    expect(await phone.sealing.isOwner(wrong)).toBe('no');
    expect(await third.sealing.isOwner(code)).toBe('none-made');
  });

  test('new keys after a loss lock the other device until it is opened by the new code', async () => {
    const { phone, laptop, code } = await two();
    const next = got(await laptop.sealing.rotate('five words that nobody says'));
    expect(next).not.toBe(code);
    const file = await sealed(laptop);
    const opened = got(await phone.sealing.open(file.file, file.words));
    expect(opened.whose).toBe('keys');
    expect(await phone.app.run(() => opened.join(code))).toMatchObject({ error: { type: 'wrong-code' } });
    got(await phone.app.run(() => opened.join('five words that nobody says')));
    const { look } = await takeIn(phone, opened);
    expect(look.signature).toEqual({ by: 'own-vault' });
    expect(await phone.sealing.keys()).toMatchObject({ locked: false });
    const back = await takenIn(laptop, await sealed(phone));
    expect(back.look.signature).toEqual({ by: 'own-vault' });
    // a passphrase is stretched for a second or more, on purpose
  }, 30_000);
});
