import { describe, expect, test } from 'vitest';
import { beginImport } from '../../src/log/absorb';
import { eraseClient } from '../../src/log/eraseActs';
import { exportLog } from '../../src/log/export';
import { readExport, textOf } from '../../src/log/exportRead';
import { keyOf } from '../../src/log/keys';
import { scanRows } from '../../src/log/scan';
import { erasedMark } from '../../src/merge/erased';
import type { Row } from '../../src/merge/row';
import { createDevice, type Device } from './fakes/device';
import { lookInto, putInto } from './fakes/disk';
import { turns } from './fakes/life';
import { type Floor, launched, log, newClient, newSession, onFloor, setsOf } from './floor';
import { REAL } from './room';
import { ended } from './suite-sets';

const STORES = ['rows', 'sessions', 'results', 'undo', 'drafts', 'series', 'meta'] as const;

/** Everything that a device keeps, as one text. */
async function kept({ disk, files, local }: Device): Promise<string> {
  const stores = await Promise.all(STORES.map((store) => lookInto(disk, 'log', store)));
  return JSON.stringify([stores, [...files].map(([, folder]) => [...folder]), [...local]]);
}

/** A client of whom something lies in every place there is, each with the word KESTREL in it. */
async function everywhere(): Promise<Floor & { readonly other: string }> {
  const floor = await onFloor(REAL);
  const { app, device, place } = floor;
  await REAL.noteSet(app.log, place, log(REAL, floor, '100', '5').set, 'KESTREL a');
  await ended(REAL, floor);
  await turns(20);
  const mass = REAL.noteBodyMass(app.log, place.stream, { mass: '80', unit: 'kg', day: '2026-03-03' }, device.world);
  expect(mass.ok).toBe(true);
  await REAL.agreeOnQuestion(app.log, place.stream, 'KESTREL b');
  app.log.setDraft(`pad/${place.stream}/${place.session}`, { load: 'KESTREL c' });
  app.log.flush();
  device.local.set('log.today', `["${place.stream}","KESTREL d"]`);
  await new Promise((resolve) => setTimeout(resolve, 60));
  await app.log.inside((core) => core.second.then((second) => second?.settled()));
  const other = await newClient(REAL, floor, 'Client L');
  const text = await kept(device);
  for (const letter of ['a', 'b', 'c', 'd']) expect(text).toContain(`KESTREL ${letter}`);
  return { ...floor, other };
}

const notBy = (rows: readonly Row[], stream: string): readonly Row[] => rows.filter((row) => row.stream !== stream);

describe('[M10] erasing a client', () => {
  test('takes them out of every place, in one transaction, and leaves everyone else', async () => {
    const { app, device, place, other } = await everywhere();
    const others = notBy(app.log.all(), place.stream);
    const before = device.disk.asked.length;
    expect(await app.run(() => eraseClient(app.log, place.stream))).toEqual({ ok: true, value: undefined });
    const writes = device.disk.asked.slice(before).filter(({ mode }) => mode === 'readwrite');
    expect(writes.map(({ durability }) => durability)).toEqual(['strict']);
    expect(await kept(device)).not.toContain('KESTREL');
    expect(notBy(app.log.all(), 'main')).toEqual(others);
    expect(REAL.clients(app.log).map(({ id }) => id)).toEqual([other]);
    // their own row names them no more than by a random name
    expect(app.log.get(`main/${place.stream}`)).toEqual(erasedMark(place.stream));
  });

  test('has no undo, and no later act, draft or read brings anything back', async () => {
    const { app, device, place } = await everywhere();
    await app.run(() => eraseClient(app.log, place.stream));
    expect(app.log.lastAct()?.act.type).toBe('add-client');
    const started = REAL.startSession(app.log, place.stream, device.world);
    expect(await started.saved).toEqual({ ok: false, error: { type: 'erased' } });
    app.log.setDraft(`pad/${place.stream}/x`, 'KESTREL');
    app.log.flush();
    await app.log.loadSession(place.stream, place.session);
    await app.log.loadResults(place.stream);
    await turns(20);
    expect(app.log.all().filter((row) => row.stream === place.stream)).toEqual([]);
    expect(await kept(device)).not.toContain('KESTREL');
  });

  test('[M12] a set does not move to them: it stays where it is', async () => {
    const floor = await everywhere();
    const { app, device, place, other } = floor;
    const here = { ...floor, place: await newSession(REAL, floor, other) };
    const there = { ...floor, place: await newSession(REAL, floor, place.stream) };
    const { set, saved } = log(REAL, here, '60', '5');
    await saved;
    await app.run(() => eraseClient(app.log, place.stream));
    expect(() => REAL.moveSet(app.log, here.place, set, there.place, device.world)).toThrow('not in memory');
    expect(setsOf(REAL, app, here.place)).toEqual(['60x5']);
  });

  test('killed at any moment it is done whole or not at all, and the next start finishes it', async () => {
    let done = 0;
    for (let turn = 0; turn < 16; turn += 1) {
      const { app, device, place } = await everywhere();
      void app.run(() => eraseClient(app.log, place.stream));
      await turns(turn);
      app.kill(turn % 2 === 0);
      await turns(30);
      const next = await launched(REAL, device);
      await turns(10);
      await next.log.inside((core) => core.second.then((second) => second?.settled()));
      const isDone = next.log.get(`main/${place.stream}`) !== undefined;
      expect((await kept(device)).includes('KESTREL')).toBe(!isDone);
      expect(REAL.clients(next.log)).toHaveLength(isDone ? 1 : 2);
      if (isDone) done += 1;
    }
    expect(done).toBeGreaterThan(3);
    expect(done).toBeLessThan(16);
  }, 60_000);

  test('learned from a bundle it is the same, and the report says so beforehand', async () => {
    const { app, device, place } = await everywhere();
    const prepared = app.run(() => beginImport(app.log));
    await app.run(() => prepared.take([erasedMark(place.stream)]));
    expect(prepared.report()).toMatchObject({ new: 1, erases: [place.stream] });
    expect(await app.run(() => prepared.commit())).toEqual({ ok: true, value: undefined });
    await app.log.inside((core) => core.second.then((second) => second?.settled()));
    expect(await kept(device)).not.toContain('KESTREL');
    expect(app.log.lastAct()?.act.type).toBe('add-client');
  });

  test('the whole log cannot be erased by a row that names `main`', async () => {
    const { app } = await everywhere();
    const before = app.log.all().length;
    const prepared = app.run(() => beginImport(app.log));
    await app.run(() => prepared.take([erasedMark('main')]));
    await app.run(() => prepared.commit());
    expect(app.log.all()).toHaveLength(before + 1);
    await expect(eraseClient(app.log, 'main')).rejects.toThrow('cannot be erased');
  });

  test('an older bundle brings nothing back but as a new client, where that is asked for', async () => {
    const floor = await everywhere();
    const { app, device, place } = floor;
    const rows: Row[] = [];
    await app.run(() => scanRows(app.log, (some) => void rows.push(...some), place.stream));
    await app.run(() => eraseClient(app.log, place.stream));
    const again = app.run(() => beginImport(app.log));
    await app.run(() => again.take(rows));
    expect(again.report()).toMatchObject({ new: 0, refused: rows.length, erased: [place.stream] });
    await app.run(() => again.commit());
    expect(await kept(device)).not.toContain('KESTREL');
    const asNew = app.run(() => beginImport(app.log, new Map([[place.stream, 'c7']])));
    await app.run(() => asNew.take(rows));
    expect(asNew.report()).toMatchObject({ new: rows.length, refused: 0 });
    await app.run(() => asNew.commit());
    expect(REAL.client(app.log, 'c7')?.question).toBe('KESTREL b');
    await app.log.loadSession('c7', place.session);
    expect(setsOf(REAL, app, { stream: 'c7', session: place.session })).toEqual(['100x5']);
    expect(app.log.get(keyOf({ stream: place.stream, id: place.stream }))).toBeUndefined();
  });

  test('an export holds the row that erases, and nothing of theirs', async () => {
    const { app, device, place } = await everywhere();
    await app.run(() => eraseClient(app.log, place.stream));
    // a second copy that a kill left lying
    device.files
      .get('log-second')
      ?.set(
        `${place.stream}~x.json`,
        JSON.stringify({ id: 'x', kind: 'cue', stream: place.stream, seen: [], body: {} }),
      );
    const { blob } = await app.run(() => exportLog('log', app.log.all(), 1));
    const rows: unknown[] = [];
    expect((await readExport(textOf(blob), (some) => void rows.push(...some))).ok).toBe(true);
    expect(rows.filter((row) => (row as Row).stream === place.stream)).toEqual([]);
    expect(rows).toContainEqual(erasedMark(place.stream));
  });

  test('another tab hears of it, and what a frozen one put there late is gone after the next start', async () => {
    const { app, device, place } = await everywhere();
    const [late] = await lookInto(device.disk, 'log', 'sessions');
    const second = await launched(REAL, device);
    expect(second.log.all().some((row) => row.stream === place.stream)).toBe(true);
    await app.run(() => eraseClient(app.log, place.stream));
    await turns(40);
    expect(second.log.all().filter((row) => row.stream === place.stream)).toEqual([]);
    second.kill();
    app.kill();
    await putInto(device.disk, 'log', 'sessions', late);
    await putInto(device.disk, 'log', 'drafts', 'KESTREL', `pad/${place.stream}/late`);
    const next = await launched(REAL, device);
    await turns(60);
    expect(next.log.all().filter((row) => row.stream === place.stream)).toEqual([]);
    expect(await kept(device)).not.toContain('KESTREL');
  });

  test('a second copy brings the erasing back with the rest after the database was lost', async () => {
    const { app, device, place } = await everywhere();
    await app.run(() => eraseClient(app.log, place.stream));
    await new Promise((resolve) => setTimeout(resolve, 60));
    await app.log.inside((core) => core.second.then((second) => second?.settled()));
    app.kill();
    const lost = createDevice(5);
    for (const [name, folder] of device.files) lost.files.set(name, folder);
    const next = await launched(REAL, lost);
    await turns(40);
    expect(next.log.get(`main/${place.stream}`)).toEqual(erasedMark(place.stream));
  });
});
