import { describe, expect, test } from 'vitest';
import type { Saving } from '../../src/log/log';
import { createQueue, type SaveFault } from '../../src/log/queue';
import { emptyRow, valueAt } from '../../src/merge/row';
import type { Fate } from './fakes/disk';
import { turns } from './fakes/life';
import { launched, log, newClient, newSession, onFloor, sessionOnDisk, setsOf } from './floor';
import { REAL } from './room';
import { burntStampStaysBurnt, failOnce, lostIsReadAndMerged, relaunched, stampNamesOneValue } from './suite-writes';

const FULL: Fate = { type: 'aborts', error: 'QuotaExceededError' };

describe('the write queue', () => {
  test('taps faster than the store go together, in their order, and each is told', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    device.disk.asked.length = 0;
    const logged = ['5', '4', '3', '2', '1'].map((reps) => log(REAL, floor, '100', reps));
    expect(app.log.status().unsaved).toBe(1);
    const results = await Promise.all(logged.map(({ saved }) => saved));
    expect(results.every(({ ok }) => ok)).toBe(true);
    await turns(20);
    const writes = device.disk.asked.filter(({ mode }) => mode === 'readwrite');
    expect(writes.length).toBeGreaterThan(0);
    expect(writes.length).toBeLessThan(logged.length);
    expect(app.log.status()).toMatchObject({ unsaved: 0, unsavedSince: null });
    const next = await relaunched(REAL, floor);
    expect(setsOf(REAL, next, place)).toEqual(['100x5', '100x4', '100x3', '100x2', '100x1']);
  });

  test('a failed save keeps value and stamp, says so, and the next that completes saves it too', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    const key = REAL.keyOf({ stream: place.stream, id: place.session });
    failOnce(device, FULL);
    const since = device.world.now();
    const first = log(REAL, floor, '100', '5');
    expect(await first.saved).toEqual({ ok: false, error: { type: 'storage-full' } });
    expect(app.log.status()).toMatchObject({ saveFault: { type: 'storage-full' }, unsaved: 1, unsavedSince: since });
    expect(app.log.isSaved(key, `sets/${first.set}`)).toBe(false);
    expect(setsOf(REAL, app, place)).toEqual(['100x5']);
    const inMemory = app.log.get(key)?.body[`sets/${first.set}/reps`];

    expect(await log(REAL, floor, '105', '3').saved).toEqual({ ok: true, value: undefined });
    expect(app.log.status()).toMatchObject({ saveFault: null, unsaved: 0, unsavedSince: null });
    expect(app.log.isSaved(key, `sets/${first.set}`)).toBe(true);
    expect((await sessionOnDisk(device, place)).body[`sets/${first.set}/reps`]).toEqual(inMemory);
    const next = await relaunched(REAL, floor);
    expect(setsOf(REAL, next, place)).toEqual(['100x5', '105x3']);
    expect(next.log.undo()?.act.type).toBe('log-set');
    expect(next.log.undo()?.act.type, 'the act that failed first can be taken back too').toBe('log-set');
    expect(setsOf(REAL, next, place)).toEqual([]);
  });

  test.each([
    [
      { type: 'aborts', error: 'DataError' },
      { type: 'write-failed', name: 'DataError' },
    ],
    [
      { type: 'refused', error: 'NotFoundError' },
      { type: 'write-failed', name: 'NotFoundError' },
    ],
    [{ type: 'refused', error: 'QuotaExceededError' }, { type: 'storage-full' }],
  ] as const)('%j is told as %j and tried again when asked', async (fate, error) => {
    const floor = await onFloor(REAL);
    failOnce(floor.device, fate);
    expect(await log(REAL, floor, '100', '5').saved).toEqual({ ok: false, error });
    expect(await floor.app.log.retry()).toEqual({ ok: true, value: undefined });
    expect(floor.app.log.status().saveFault).toBeNull();
    expect(setsOf(REAL, await relaunched(REAL, floor), floor.place)).toEqual(['100x5']);
  });

  test('what was done while a save failed is answered as well, and saved with it', async () => {
    const floor = await onFloor(REAL);
    failOnce(floor.device, FULL);
    const both = [log(REAL, floor, '100', '5'), log(REAL, floor, '105', '3')];
    const results = await Promise.all(both.map(({ saved }) => saved));
    expect(results.map(({ ok }) => ok)).toEqual([false, false]);
    expect(floor.app.log.status().unsaved).toBe(1);
    await floor.app.log.retry();
    expect(setsOf(REAL, await relaunched(REAL, floor), floor.place)).toEqual(['100x5', '105x3']);
  });

  test('asking to try again is answered: with nothing to do, and in the middle of a write', async () => {
    const floor = await onFloor(REAL);
    expect(await floor.app.log.retry()).toEqual({ ok: true, value: undefined });
    log(REAL, floor, '100', '5');
    expect(await floor.app.log.retry()).toEqual({ ok: true, value: undefined });
  });

  test('a line shows as saved for itself: not for the row it shares', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    const key = REAL.keyOf({ stream: place.stream, id: place.session });
    const first = log(REAL, floor, '100', '5');
    await first.saved;
    failOnce(device, FULL);
    const second = log(REAL, floor, '105', '3');
    await second.saved;
    expect(app.log.isSaved(key, `sets/${first.set}`)).toBe(true);
    expect(app.log.isSaved(key, `sets/${second.set}`)).toBe(false);
    expect(app.log.isSaved(key)).toBe(false);
    failOnce(device, FULL);
    await REAL.touchUp(app.log, place, first.set, { form: 'clean' });
    expect(app.log.isSaved(key, `sets/${first.set}`), 'touched up and not saved again').toBe(false);
  });

  test('a screen that watches a row hears when it is saved', async () => {
    const floor = await onFloor(REAL);
    const { app, place } = floor;
    const key = REAL.keyOf({ stream: place.stream, id: place.session });
    const heard: boolean[] = [];
    app.log.watch([key], () => heard.push(app.log.isSaved(key)));
    await log(REAL, floor, '100', '5').saved;
    await turns(5);
    // a save within a frame is drawn once
    expect(heard).toEqual([true]);
  });

  test('a screen that watches a row is not kept waiting by a save that takes longer than a frame', async () => {
    const floor = await onFloor(REAL);
    const { app, device, place } = floor;
    const key = REAL.keyOf({ stream: place.stream, id: place.session });
    let tell = (): void => undefined;
    const until = new Promise<void>((resolve) => {
      tell = resolve;
    });
    device.disk.fate = () => ({ type: 'told-late', until });
    const heard: boolean[] = [];
    const first = new Promise<void>((resolve) => {
      app.log.watch([key], () => {
        heard.push(app.log.isSaved(key));
        resolve();
      });
    });
    const { saved } = log(REAL, floor, '100', '5');
    await first;
    expect(heard).toEqual([false]);
    tell();
    await saved;
    await turns(5);
    expect(heard.at(-1)).toBe(true);
  });
});

describe('a stamp never names two values', () => {
  test.each([...Array.from({ length: 25 }, (_, seed) => seed), 40_217])('whatever fails, seed %i', (seed) =>
    stampNamesOneValue(REAL, seed),
  );
  test('a stamp given out stays burnt', () => burntStampStaysBurnt(REAL));
});

describe('a lost connection', () => {
  const losses: Fate[] = ['UnknownError', 'InvalidStateError', 'AbortError'].flatMap((error): Fate[] => [
    { type: 'aborts', error },
    { type: 'stored-but-lost', error },
    { type: 'refused', error },
  ]);
  test.each([...losses, { type: 'aborts', error: null } as const])('%j: opened anew once, read, merged, put', (fate) =>
    lostIsReadAndMerged(REAL, fate),
  );

  test('closed by the browser between two taps, the next tap opens it anew', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    floor.app.loseConnections();
    await turns(10);
    expect(await log(REAL, floor, '105', '3').saved).toEqual({ ok: true, value: undefined });
    expect(setsOf(REAL, await relaunched(REAL, floor), floor.place)).toEqual(['100x5', '105x3']);
  });

  test('an act done while it is opened anew is written whole: the second try takes all of it', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    const to = await newSession(REAL, floor, await newClient(REAL, floor, 'Client M'));
    const { set, saved } = log(REAL, floor, '100', '5');
    await saved;
    let tries = 0;
    device.disk.fate = () => {
      tries += 1;
      if (tries === 1) return { type: 'aborts', error: 'UnknownError' };
      // nothing after the second try
      if (tries > 2) app.kill();
      return undefined;
    };
    let moved: Saving | undefined;
    device.disk.whileOpening = async () => {
      device.disk.whileOpening = undefined;
      moved = REAL.moveSet(app.log, place, set, to, device.world);
    };
    expect(await REAL.touchUp(app.log, place, set, { form: 'clean' })).toEqual({ ok: true, value: undefined });
    // who moved it is told by the same try
    expect(await moved).toEqual({ ok: true, value: undefined });
    app.kill();
    expect(tries).toBeGreaterThan(1);
    device.disk.fate = undefined;
    device.files.clear();
    const next = await launched(REAL, device);
    expect([setsOf(REAL, next, place), setsOf(REAL, next, to)]).toEqual([[], ['100x5']]);
  });

  test('is lost to another tab while it is opened anew: nothing is tried again', async () => {
    let tries = 0;
    const told: (SaveFault | null)[] = [];
    const queue = createQueue({
      row: () => emptyRow({ stream: 'c', id: 'c', kind: 'client' }),
      database: () => {
        tries += 1;
        return undefined;
      },
      reopen: async () => {
        queue.letGo();
        return true;
      },
      onSaved: () => undefined,
      onSettled: (fault) => told.push(fault),
      onPushed: () => undefined,
    });
    const pushed = await queue.push({ rows: new Set([REAL.keyOf({ stream: 'c', id: 'c' })]) });
    expect(pushed).toMatchObject({ ok: false });
    expect(tries).toBe(1);
    // it may never have been stored: the tab that writes now gets it
    expect([...queue.waiting().rows]).toEqual(['c/c']);
    expect(told).toEqual([{ type: 'connection-lost' }]);
  });

  test('lost again on the second try, it is told and waits', async () => {
    const floor = await onFloor(REAL);
    const { device, app } = floor;
    device.disk.fate = () => ({ type: 'aborts', error: 'UnknownError' });
    const before = device.disk.opened;
    expect(await log(REAL, floor, '100', '5').saved).toEqual({ ok: false, error: { type: 'connection-lost' } });
    expect(device.disk.opened - before).toBe(1);
    expect(app.log.status()).toMatchObject({ phase: 'open', unsaved: 1, saveFault: { type: 'connection-lost' } });
    device.disk.fate = undefined;
    expect(await app.log.retry()).toEqual({ ok: true, value: undefined });
    expect(app.log.status()).toMatchObject({ unsaved: 0, saveFault: null });
  });

  test('where it cannot be read again nothing is written over, and the queue goes on when it can', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    failOnce(device, { type: 'aborts', error: 'UnknownError' });
    device.disk.readsFail = true;
    const lost = log(REAL, floor, '100', '5');
    expect(await lost.saved).toEqual({ ok: false, error: { type: 'connection-lost' } });
    expect(valueAt(await sessionOnDisk(device, place), `sets/${lost.set}/reps`)).toBeUndefined();
    device.disk.readsFail = false;
    expect(await app.log.retry()).toEqual({ ok: true, value: undefined });
    expect(valueAt(await sessionOnDisk(device, place), `sets/${lost.set}/reps`)).toBe(5);
  });

  test('what cannot be opened anew stays on the screen, and is in a later launch once it can', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    device.disk.opening = { throws: 'UnknownError' };
    app.loseConnections();
    await turns(10);
    expect(await log(REAL, floor, '100', '5').saved).toEqual({ ok: false, error: { type: 'connection-lost' } });
    expect(setsOf(REAL, app, place)).toEqual(['100x5']);
    expect(app.log.status()).toMatchObject({ phase: 'open', openFault: { type: 'open-failed', name: 'UnknownError' } });
    device.disk.opening = 'works';
    await app.log.retry();
    expect(app.log.status()).toMatchObject({ phase: 'open', openFault: null, unsaved: 0 });
    app.kill();
    expect(setsOf(REAL, await launched(REAL, device), place)).toEqual(['100x5']);
  });
});
