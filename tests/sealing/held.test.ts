import { describe, expect, test } from 'vitest';
import { readKeys } from '../../src/keysHere';
import { beginImport } from '../../src/log/absorb';
import { eraseClient } from '../../src/log/eraseActs';
import { exportLog } from '../../src/log/export';
import { editExercise, exerciseTexts } from '../../src/log/libraryActs';
import { choose } from '../../src/log/settingsActs';
import { keepStub, stubs } from '../../src/log/stubActs';
import { canonical, canonicalRow } from '../../src/merge/canonical';
import { erasedMark } from '../../src/merge/erased';
import type { Json, Row } from '../../src/merge/row';
import { ageSealed } from '../../src/sync/age';
import { utf8 } from '../../src/sync/bytes';
import { setRecoveryCode } from '../../src/sync/doors';
import { gzipStream } from '../../src/sync/gzip';
import { newVault } from '../../src/sync/keys';
import { openBundle } from '../../src/sync/openBundle';
import type { SealOrder } from '../../src/ui/sealing';
import { newClient, newSession, SQUAT } from '../log/floor';
import { REAL } from '../log/room';
import { everything, got, type Place, place, sealed, takeIn, takenIn, trained } from './rig';

/* What no file may do, whoever made it: rule over the log, its keys or other clients without their owner's own newest key. */

const order = (stream: string): SealOrder => ({
  what: 'handover',
  stream,
  sender: 'B. Trainer',
  consent: 'agreed',
  with: new Set(),
});
const LEAVE = { asNew: [], theirLibrary: false };
const keysOf = async (at: Place): Promise<string> => JSON.stringify(got(await at.app.run(() => readKeys(at.log))));
const rename = (at: Place, name: string) =>
  at.app.run(() => editExercise(at.log, SQUAT, { ...exerciseTexts(SQUAT), name }));

/** A file of any header and rows at all, as somebody may make one who knows the format. */
async function madeUp(
  header: Json,
  rows: readonly Row[],
  phrase: string,
  random: (n: number) => Uint8Array,
): Promise<Blob> {
  async function* text() {
    yield utf8(`${canonical(header)}\n${rows.map((row) => `${canonicalRow(row)}\n`).join('')}`);
    yield utf8(`${canonical({ end: { rows: rows.length } })}\n`);
  }
  const parts: Uint8Array<ArrayBuffer>[] = [];
  for await (const part of ageSealed(gzipStream(text()), phrase, random, 10)) parts.push(part);
  return new Blob(parts);
}

describe('an unsigned file in the name of one’s own vault', () => {
  test('is a stranger’s: keys, code and library stay as they are, looked at or taken in', async () => {
    const mine = await place(1);
    const { stream } = await trained(mine, 'Client M');
    rename(mine, 'Squat, my way');
    await mine.log.retry();
    const code = got(await mine.sealing.newCode());
    const out = await sealed(mine, order(stream));
    const { vault } = got(await openBundle(out.file, out.words)).header;
    const evil = await place(2);
    evil.device.world.pass(1000);
    rename(evil, 'Squat, theirs');
    await evil.log.retry();
    const random = evil.device.world.random;
    const theirs = await newVault(random);
    const named = { list: { ...theirs.list, vault }, ring: { ...theirs.ring, vault } };
    const { vault: withCode, code: theirCode } = got(await setRecoveryCode(named, random));
    const list = {
      ...withCode.list,
      vaultKeys: withCode.list.vaultKeys.map((key) => ({ ...key, epoch: 999 })),
      erased: [stream],
    };
    const header = {
      format: 'cuewright-bundle/1',
      app: '9',
      at: 1,
      id: 'x1',
      vault,
      device: { id: 'd', name: '' },
      sender: '',
      what: 'vault',
      streams: [{ stream, name: 'M', withheld: [] }],
      signer: { by: 'nobody' },
      keys: list,
    } as unknown as Json;
    const rows = (await everything(evil)).filter(({ kind }) => kind === 'exercise');
    const file = await madeUp(header, [...rows, erasedMark(stream)], out.words, random);
    const before = await keysOf(mine);
    const opened = got(await mine.sealing.open(file, out.words));
    expect(opened.whose).toBe('stranger');
    expect(await mine.app.run(() => opened.join(theirCode))).toMatchObject({ ok: false });
    const { look } = await takeIn(mine, opened);
    expect(look).toMatchObject({ bringsKeys: false, libraryKept: 1, refused: 1, report: { erases: [] } });
    expect(await keysOf(mine)).toBe(before);
    expect(REAL.exercise(mine.log, SQUAT.id)?.name).toBe('Squat, my way');
    expect(REAL.client(mine.log, stream)?.alias).toBe('Client M');
    expect(await mine.sealing.isOwner(theirCode)).toBe('no');
    expect(await mine.sealing.isOwner(code)).toBe('yes');
    expect((await mine.sealing.seal({ what: 'vault' })).ok).toBe(true);
  });
});

describe('a file of one’s own', () => {
  async function two() {
    const phone = await place(1);
    const { stream } = await trained(phone, 'Client M');
    const code = got(await phone.sealing.newCode());
    const laptop = await place(2);
    const out = await sealed(phone);
    const opened = got(await laptop.sealing.open(out.file, out.words));
    got(await laptop.app.run(() => opened.join(code)));
    await takeIn(laptop, opened);
    return { phone, laptop, stream, code };
  }

  test('changes no key by a look: a client erased there is still sealed here until it is taken in', async () => {
    const { phone, laptop, stream } = await two();
    await laptop.app.run(() => eraseClient(laptop.log, stream));
    const out = await sealed(laptop);
    const before = await keysOf(phone);
    const opened = got(await phone.sealing.open(out.file, out.words));
    expect(opened.whose).toBe('own');
    got(await phone.app.run(() => opened.look(LEAVE)));
    expect(await keysOf(phone)).toBe(before);
    expect((await phone.sealing.seal({ what: 'vault' })).ok).toBe(true);
    const { look } = await takeIn(phone, opened);
    expect(look.report.erases).toEqual([stream]);
    expect(REAL.clients(phone.log)).toEqual([]);
    expect((await phone.sealing.seal({ what: 'vault' })).ok).toBe(true);
  });

  test('signed by keys that were left behind brings records and rules over nothing', async () => {
    const { phone, laptop, stream, code } = await two();
    // the phone is lost; whoever has it erases, sets things and makes a code
    got(await laptop.sealing.rotate('five words that nobody says'));
    await phone.app.run(() => choose(phone.log, 'load', 'lb'));
    await phone.app.run(() => eraseClient(phone.log, stream));
    const theirCode = got(await phone.sealing.newCode());
    const out = await sealed(phone);
    const before = await keysOf(laptop);
    const opened = got(await laptop.sealing.open(out.file, out.words));
    expect(opened.whose).toBe('stranger');
    for (const one of [code, theirCode])
      expect(await laptop.app.run(() => opened.join(one))).toMatchObject({ ok: false });
    const { look } = await takeIn(laptop, opened);
    expect(look.report.erases).toEqual([]);
    expect(look.refused).toBeGreaterThan(0);
    expect(REAL.client(laptop.log, stream)?.alias).toBe('Client M');
    expect(REAL.settings(laptop.log).load).toBe('kg');
    expect(await keysOf(laptop)).toBe(before);
  }, 30_000);

  test('keys come with it when it is taken in, also where nothing else does; not when it is left', async () => {
    const phone = await place(1);
    await trained(phone, 'Client M');
    const code = got(await phone.sealing.newCode());
    const laptop = await place(2);
    const own = got(await laptop.sealing.newCode());
    const out = await sealed(phone);
    await takenIn(laptop, out);
    const again = got(await laptop.sealing.open(out.file, out.words));
    got(await laptop.app.run(() => again.join(code)));
    const look = got(await laptop.app.run(() => again.look(LEAVE)));
    expect(look).toMatchObject({ bringsKeys: true, report: { new: 0, changed: 0 } });
    expect(await laptop.sealing.isOwner(own)).toBe('yes');
    got(await laptop.app.run(() => look.commit()));
    expect(await laptop.sealing.isOwner(code)).toBe('yes');
    expect(await laptop.sealing.isOwner(own)).toBe('no');
  });
});

test('a code that was told as not kept never takes the place of the one on paper', async () => {
  const phone = await place(1);
  const { stream } = await trained(phone, 'Client M');
  const code = got(await phone.sealing.newCode());
  phone.device.disk.fate = () => ({ type: 'aborts', error: 'QuotaExceededError' });
  expect(await phone.sealing.newCode()).toMatchObject({ ok: false, error: { type: 'storage-full' } });
  phone.device.disk.fate = undefined;
  await newSession(REAL, phone, stream);
  await phone.log.retry();
  expect(await phone.sealing.isOwner(code)).toBe('yes');
  phone.device.disk.fate = () => ({ type: 'stored-but-lost', error: 'UnknownError' });
  const stored = got(await phone.sealing.newCode());
  phone.device.disk.fate = undefined;
  expect(await phone.sealing.isOwner(stored)).toBe('yes');
});

test('a plain file rules over nothing where records are, and over all where none are', async () => {
  const phone = await place(1);
  const { stream } = await trained(phone, 'Client M');
  const other = await place(2);
  await trained(other, 'Client N');
  await other.app.run(() => choose(other.log, 'load', 'lb'));
  other.app.run(() => keepStub(other.log, 'Client O', 'somebody', other.device.world));
  await other.log.retry();
  const { blob } = await other.app.run(() => exportLog('log', [...other.log.all(), erasedMark(stream)], 1));
  const { look } = await takenIn(phone, { file: blob, words: '' });
  expect(look.report.erases).toEqual([]);
  expect(look.refused).toBe(3);
  expect(REAL.clients(phone.log).map(({ alias }) => alias)).toEqual(['Client M', 'Client N']);
  expect([REAL.settings(phone.log).load, stubs(phone.log)]).toEqual(['kg', []]);
  const empty = await place(3);
  await takenIn(empty, { file: blob, words: '' });
  expect([REAL.settings(empty.log).load, stubs(empty.log).length]).toEqual(['lb', 1]);
});

test('a client handed over does not say whose record a set was moved to', async () => {
  const giver = await place(1);
  const session = await trained(giver, 'Client M');
  const to = await newSession(REAL, giver, await newClient(REAL, giver, 'Client N'));
  const set = REAL.session(giver.log, session.stream, session.session)?.sets[0]?.id ?? '';
  await REAL.moveSet(giver.log, session, set, to, giver.device.world);
  const taker = await place(2);
  await takenIn(taker, await sealed(giver, order(session.stream)));
  expect(JSON.stringify(await everything(taker))).not.toContain(to.stream);
  expect(REAL.clients(taker.log).map(({ alias }) => alias)).toEqual(['Client M']);
});

test('an import that fails half way can be taken back whole: what went in, and what waited', async () => {
  const phone = await place(1);
  const client = (n: number): Row => ({
    id: `c${n}`,
    kind: 'client',
    stream: `c${n}`,
    seen: { 'w-r': 1 },
    body: { alias: [{ value: `Client ${n}`, stamp: { l: 1, writer: 'w-r' } }] },
  });
  const rows = Array.from({ length: 4500 }, (_, n) => client(n));
  const prepared = phone.app.run(() => beginImport(phone.log));
  await phone.app.run(() => prepared.take(rows));
  let batches = 0;
  phone.device.disk.fate = () => {
    batches += 1;
    return batches > 1 ? { type: 'aborts', error: 'QuotaExceededError' } : undefined;
  };
  expect(await phone.app.run(() => prepared.commit())).toMatchObject({ ok: false, error: { type: 'storage-full' } });
  await phone.log.inside((core) => core.queue.idle());
  phone.device.disk.fate = undefined;
  got(await phone.log.retry());
  const inLog = phone.log.ofKind('client').length;
  expect(inLog).toBeGreaterThan(0);
  expect(inLog).toBeLessThan(4500);
  expect(phone.log.lastAct()?.act.type).toBe('import');
  got((await phone.log.undo()?.saved) ?? { ok: false, error: { type: 'nothing-to-undo' } });
  expect(REAL.clients(phone.log)).toEqual([]);
});
