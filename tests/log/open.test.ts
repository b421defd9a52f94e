import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createDevice, type Device, launch } from './fakes/device';
import { turns } from './fakes/life';
import { launched, log, onFloor, setsOf } from './floor';
import { REAL } from './room';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
});

/** Opens the log's database past the app under a version, and returns it. */
function opened(device: Device, version: number): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const opening = device.disk.real.open('log', version);
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => resolve(opening.result);
  });
}

describe('a log that does not open', () => {
  test.each([
    ['SecurityError', { type: 'no-storage' }],
    ['InvalidStateError', { type: 'no-storage' }],
    ['UnknownError', { type: 'open-failed', name: 'UnknownError' }],
  ])('refused with %s it is ready, and says why', async (throws, openFault) => {
    const device = createDevice(1);
    device.disk.opening = { throws };
    const app = await launched(REAL, device);
    expect(app.log.status()).toMatchObject({ phase: 'cannot-open', openFault });
  });

  test('an open that hangs is tried twice, three seconds each, and then told', async () => {
    const device = createDevice(1);
    device.disk.opening = 'hangs';
    const app = launch(device, REAL.startLog);
    await vi.advanceTimersByTimeAsync(5900);
    expect(app.log.status().phase).toBe('opening');
    await vi.advanceTimersByTimeAsync(200);
    await app.log.ready;
    expect(app.log.status()).toMatchObject({ phase: 'cannot-open', openFault: { type: 'open-timeout' } });
    expect(device.disk.opened).toBe(2);
  });

  test('an open that hangs once works the second time', async () => {
    const floor = await onFloor(REAL);
    floor.app.kill();
    floor.device.disk.opening = 'hangs';
    const app = launch(floor.device, REAL.startLog);
    await vi.advanceTimersByTimeAsync(2000);
    floor.device.disk.opening = 'works';
    await vi.advanceTimersByTimeAsync(1100);
    await app.log.ready;
    expect(app.log.status()).toMatchObject({ phase: 'open', openFault: null });
    expect(setsOf(REAL, app, floor.place)).toEqual([]);
  });

  test('an open that succeeds too late is closed again', async () => {
    const floor = await onFloor(REAL);
    const { device } = floor;
    floor.app.kill();
    const late: (() => void)[] = [];
    device.disk.whileOpening = () => new Promise((resolve) => late.push(resolve));
    const app = launch(device, REAL.startLog);
    await vi.advanceTimersByTimeAsync(6100);
    await app.log.ready;
    expect(app.log.status().openFault).toEqual({ type: 'open-timeout' });
    for (const open of late) open();
    await turns(20);
    // an open connection would hold up the next version
    (await opened(device, 2)).close();
  });

  test('held up by an older tab that does not let go, it says blocked', async () => {
    const device = createDevice(1);
    const older = await new Promise<IDBDatabase>((resolve) => {
      // version 1 is the first that there is: an older one is made by hand, below it
      const opening = device.disk.real.open('log', 1);
      opening.onsuccess = () => resolve(opening.result);
    });
    Object.assign((older as unknown as { _rawDatabase: { version: number } })._rawDatabase, { version: 0.5 });
    const app = launch(device, REAL.startLog);
    for (let second = 0; second < 7; second += 1) {
      await turns(20);
      await vi.advanceTimersByTimeAsync(1000);
    }
    await app.log.ready;
    expect(app.log.status()).toMatchObject({ phase: 'cannot-open', openFault: { type: 'blocked' } });
    older.close();
    await turns(20);
  });

  test('written by a newer app it is left alone, and says so', async () => {
    const device = createDevice(1);
    (await opened(device, 2)).close();
    const app = await launched(REAL, device);
    expect(app.log.status()).toMatchObject({ phase: 'cannot-open', openFault: { type: 'newer' } });
  });

  test('opened and not readable, nothing is ever written, and it says so', async () => {
    const floor = await onFloor(REAL);
    floor.app.kill();
    floor.device.disk.readsFail = true;
    floor.device.disk.asked.length = 0;
    const app = launch(floor.device, REAL.startLog);
    void REAL.saveClient(app.log, { alias: 'Client M', short: '', dayName: '', day: '' }, floor.device.world);
    await app.log.ready;
    expect(app.log.status()).toMatchObject({ phase: 'cannot-open', openFault: { type: 'open-failed' }, unsaved: 1 });
    await vi.advanceTimersByTimeAsync(2000);
    await turns(20);
    expect(floor.device.disk.asked.filter(({ mode }) => mode === 'readwrite')).toEqual([]);
  });

  test('what was done while it opened is on the screen at once, and saved when it is open', async () => {
    const device = createDevice(1);
    const app = launch(device, REAL.startLog);
    const added = REAL.saveClient(app.log, { alias: 'Client M', short: '', dayName: '', day: '' }, device.world);
    expect(app.log.ofKind('client')).toHaveLength(1);
    expect(app.log.status()).toMatchObject({ phase: 'opening', unsaved: 1 });
    expect(added.ok && (await added.value.saved)).toEqual({ ok: true, value: undefined });
    app.kill();
    expect((await launched(REAL, device)).log.ofKind('client')).toHaveLength(1);
  });
});

describe('a newer app in another tab', () => {
  test('gets the database at once; this tab says that it has let go, and writes no more', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    const newer = await opened(device, 2);
    expect(app.log.status().phase).toBe('yielded');
    device.disk.asked.length = 0;
    expect(await log(REAL, floor, '100', '5').saved).toEqual({ ok: false, error: { type: 'connection-lost' } });
    expect(setsOf(REAL, app, place)).toEqual(['100x5']);
    expect(device.disk.asked).toEqual([]);
    expect(app.log.status()).toMatchObject({ phase: 'yielded', unsaved: 1 });
    newer.close();
  });

  test('a write that had begun is finished first', async () => {
    const floor = await onFloor(REAL);
    const saving = log(REAL, floor, '100', '5').saved;
    const newer = await opened(floor.device, 2);
    expect(await saving).toEqual({ ok: true, value: undefined });
    newer.close();
  });
});

describe('coming back after a long time', () => {
  test('a lost connection is opened anew by the read', async () => {
    const floor = await onFloor(REAL);
    const { app } = floor;
    await log(REAL, floor, '100', '5').saved;
    app.loseConnections();
    await turns(10);
    const before = floor.device.disk.opened;
    await app.log.refresh();
    expect(floor.device.disk.opened - before).toBe(1);
    expect(app.log.status()).toMatchObject({ phase: 'open', openFault: null });
    expect(await log(REAL, floor, '105', '3').saved).toEqual({ ok: true, value: undefined });
  });

  test('many reads that find the connection lost open it anew once', async () => {
    const floor = await onFloor(REAL);
    const { app, place } = floor;
    app.loseConnections();
    await turns(10);
    const before = floor.device.disk.opened;
    await Promise.all([
      app.log.refresh(),
      app.log.loadResults(place.stream),
      app.log.loadSession(place.stream, place.session),
    ]);
    expect(floor.device.disk.opened - before).toBe(1);
  });

  test('what another tab without a lock wrote meanwhile is read and merged', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    device.lacks.add('locks');
    const other = await launched(REAL, device);
    await log(REAL, { ...floor, app: other }, '105', '3').saved;
    await app.log.refresh();
    expect(setsOf(REAL, app, place)).toEqual(['105x3']);
  });
});
