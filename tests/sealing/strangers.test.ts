import { describe, expect, test } from 'vitest';
import type { PrivateTopic } from '../../src/domain/private';
import { eraseClient } from '../../src/log/eraseActs';
import { exportLog } from '../../src/log/export';
import { editExercise, exerciseTexts } from '../../src/log/libraryActs';
import type { SealOrder } from '../../src/ui/sealing';
import { SQUAT, setsOf } from '../log/floor';
import { REAL } from '../log/room';
import { everything, got, type Place, place, sealed, takeIn, takenIn, trained } from './rig';

function order(stream: string, ...ticked: PrivateTopic[]): SealOrder {
  const consent = 'Agreed on 1 March, in person.';
  return { what: 'handover', stream, sender: 'A. Trainer', consent, with: new Set(ticked) };
}

/** A client with things that are private: a note, pain at a set, a question asked at each arrival. */
async function known(at: Place) {
  const session = await trained(at, 'Client M');
  const set = REAL.session(at.log, session.stream, session.session)?.sets[0]?.id ?? '';
  at.app.run(() => REAL.noteSet(at.log, session, set, 'KESTREL was tired'));
  await at.app.run(() => REAL.touchUp(at.log, session, set, { pain: { value: 4, where: 'KESTREL knee' } }));
  await at.log.retry();
  return { session, set };
}

describe('a client handed over', () => {
  test('arrives with the sessions and the library, signed by the device, and without what was not ticked', async () => {
    const giver = await place(1);
    const { session } = await known(giver);
    await trained(giver, 'Client Other');
    const file = await sealed(giver, order(session.stream));
    expect(file.leftOut).toBeGreaterThan(0);
    const taker = await place(2);
    await trained(taker, 'Client Mine');
    const { opened, look } = await takenIn(taker, file);
    expect(opened).toMatchObject({
      whose: 'stranger',
      what: 'handover',
      from: 'A. Trainer',
      consent: 'Agreed on 1 March, in person.',
      clients: [{ stream: session.stream, name: 'Client M', withheld: ['notes', 'pain'] }],
    });
    expect(look.signature).toMatchObject({ by: 'device', checked: true });
    await taker.log.loadSession(session.stream, session.session);
    expect(setsOf(REAL, taker.app, session)).toEqual(['100x5']);
    const text = JSON.stringify(await everything(taker));
    expect(text).not.toContain('KESTREL');
    expect(text).not.toContain('Client Other');
  });

  test('takes along what is ticked, and has words of its own each time', async () => {
    const giver = await place(1);
    const { session } = await known(giver);
    const first = await sealed(giver, order(session.stream));
    const second = await sealed(giver, order(session.stream, 'notes', 'pain', 'arrival'));
    expect(second.words).not.toBe(first.words);
    expect(second.leftOut).toBe(0);
    const taker = await place(2);
    await takenIn(taker, second);
    const text = JSON.stringify(await everything(taker));
    expect(text).toContain('KESTREL was tired');
    expect(text).toContain('KESTREL knee');
  });

  test('comes back with what the other trainer logged, and the private things are still here', async () => {
    const giver = await place(1);
    const { session, set } = await known(giver);
    const taker = await place(2);
    await takenIn(taker, await sealed(giver, order(session.stream)));
    const again = REAL.startSession(taker.log, session.stream, taker.device.world);
    await again.saved;
    const { look } = await takenIn(giver, await sealed(taker, order(session.stream)));
    expect(look.report).toMatchObject({ new: 1, erased: [] });
    const read = REAL.session(giver.log, session.stream, session.session)?.sets.find(({ id }) => id === set);
    expect(JSON.stringify(read)).toContain('KESTREL was tired');
  });

  test('erased here, it can only come back as another client, where that is asked for', async () => {
    const giver = await place(1);
    const { session } = await known(giver);
    const taker = await place(2);
    await takenIn(taker, await sealed(giver, order(session.stream)));
    await giver.app.run(() => eraseClient(giver.log, session.stream));
    const back = await sealed(taker, order(session.stream));
    const opened = got(await giver.sealing.open(back.file, back.words));
    const first = got(await giver.app.run(() => opened.look({ asNew: [], theirLibrary: false })));
    expect(first.report.erased).toEqual([session.stream]);
    expect(REAL.clients(giver.log)).toEqual([]);
    await takeIn(giver, opened, { asNew: [session.stream], theirLibrary: false });
    const [client] = REAL.clients(giver.log);
    expect(client?.alias).toBe('Client M');
    expect(client?.id).not.toBe(session.stream);
    // and no key of the erased stream is left
    const { readKeys } = await import('../../src/keysHere');
    await giver.sealing.forgetErased();
    const kept = got(await giver.app.run(() => readKeys(giver.log)));
    expect(kept?.list.erased).toContain(session.stream);
    expect(kept?.list.streamKeys.some(({ stream }) => stream === session.stream)).toBe(false);
  });
});

describe('a stranger’s library', () => {
  const rename = (at: Place, name: string) =>
    at.app.run(() => editExercise(at.log, SQUAT, { ...exerciseTexts(SQUAT), name }));
  const nameAt = (at: Place) => REAL.exercise(at.log, SQUAT.id)?.name;

  test('leaves an entry that is here as it is, unless theirs are asked for too', async () => {
    const giver = await place(1);
    const { session } = await known(giver);
    const taker = await place(2);
    rename(taker, 'Squat, my way');
    giver.device.world.pass(1000);
    rename(giver, 'Squat, their way');
    await Promise.all([giver.log.retry(), taker.log.retry()]);
    const file = await sealed(giver, order(session.stream));
    const { look } = await takenIn(taker, file);
    expect(look.libraryKept).toBe(1);
    expect(nameAt(taker)).toBe('Squat, my way');
    const both = await takenIn(taker, file, { asNew: [], theirLibrary: true });
    expect(both.look).toMatchObject({ libraryKept: 0, report: { changed: 1 } });
    expect(both.look.report.keptBeside).toBeGreaterThan(0);
    expect(nameAt(taker)).toBe('Squat, their way');
    expect(JSON.stringify(taker.log.ofKind('exercise'))).toContain('Squat, my way');
  });
});

describe('a plain export', () => {
  test('comes in whole on an empty device, and refuses to come in where it was cut', async () => {
    const phone = await place(1);
    await trained(phone, 'Client M');
    const { blob } = await phone.app.run(() => exportLog('log', phone.log.all(), 1));
    const laptop = await place(2);
    expect(await laptop.sealing.kindOf(blob)).toBe('plain');
    const cut = got(await laptop.sealing.open(blob.slice(0, blob.size - 9), ''));
    expect(await laptop.app.run(() => cut.look({ asNew: [], theirLibrary: false }))).toMatchObject({
      error: { type: 'truncated' },
    });
    expect(await everything(laptop)).toEqual([]);
    await takenIn(laptop, { file: blob, words: '' });
    expect(await everything(laptop)).toEqual(await everything(phone));
  });
});

describe('the same file a hundred times', () => {
  test('changes nothing after the first time: no row, no act to undo, no key', async () => {
    const giver = await place(1);
    const { session } = await known(giver);
    const file = await sealed(giver, order(session.stream));
    const taker = await place(2);
    await takenIn(taker, file);
    const before = [await everything(taker), taker.log.lastAct()?.n];
    const opened = got(await taker.sealing.open(file.file, file.words));
    for (let n = 0; n < 100; n += 1) {
      const { look } = await takeIn(taker, opened);
      expect(look.report).toMatchObject({ new: 0, changed: 0, refused: 0 });
    }
    expect([await everything(taker), taker.log.lastAct()?.n]).toEqual(before);
    expect(await taker.sealing.keys()).toMatchObject({ made: false });
  });
});
