import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { STATUS } from '../../src/log/watch';
import { createDevice, type Device, launch } from './fakes/device';
import { lookInto, putInto } from './fakes/disk';
import { turns } from './fakes/life';
import { seconds } from './fakes/seconds';
import { launched, log, newClient, onFloor, setsOf } from './floor';
import { REAL } from './room';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
});

/** The same phone after its browser lost the database: with no error, and everything else as it was. */
function withoutDatabase(device: Device): Device {
  const next = createDevice(99);
  for (const [name, text] of device.local) next.local.set(name, text);
  for (const [name, folder] of device.files) next.files.set(name, folder);
  return next;
}

describe('first start, as left, or wiped', () => {
  test('a first start is no loss, nor is the next before anything was saved', async () => {
    const device = createDevice(1);
    for (let start = 0; start < 2; start += 1) {
      const app = await launched(REAL, device);
      expect(app.log.status()).toMatchObject({ phase: 'open', wiped: false });
      app.kill();
    }
  });

  test('as it was left', async () => {
    const floor = await onFloor(REAL);
    floor.app.kill();
    expect((await launched(REAL, floor.device)).log.status().wiped).toBe(false);
  });

  test('a log that held rows and is empty was wiped, and says so until it holds some again', async () => {
    const floor = await onFloor(REAL);
    floor.app.kill();
    floor.device.lacks.add('files');
    const device = withoutDatabase(floor.device);
    device.lacks.add('files');
    const app = await launched(REAL, device);
    expect(app.log.status()).toMatchObject({ phase: 'open', wiped: true, broughtBack: 0 });
    await newClient(REAL, { device, app }, 'Client M');
    app.kill();
    expect((await launched(REAL, device)).log.status().wiped).toBe(false);
  });

  test('a log that holds a session and nothing else was not wiped', async () => {
    const device = createDevice(1);
    const app = await launched(REAL, device);
    await REAL.startSession(app.log, 'c1', device.world).saved;
    app.kill();
    expect((await launched(REAL, device)).log.status().wiped).toBe(false);
  });

  test('where localStorage is refused everything works, and an empty log is a first start', async () => {
    const device = createDevice(1);
    device.lacks.add('localStorage').add('files');
    const app = await launched(REAL, device);
    await newClient(REAL, { device, app }, 'Client M');
    await app.log.backedUp(5, new Map());
    app.kill();
    const next = await launched(REAL, device);
    expect(next.log.ofKind('client')).toHaveLength(1);
    expect(next.log.status()).toMatchObject({ wiped: false, lastBackup: null });
    next.kill();
    const lost = withoutDatabase(device);
    lost.lacks.add('localStorage').add('files');
    expect((await launched(REAL, lost)).log.status().wiped).toBe(false);
  });

  test('every launch writes as another writer, of the same device', async () => {
    const device = createDevice(1);
    const writers = new Set<string>();
    for (let start = 0; start < 3; start += 1) {
      const app = await launched(REAL, device);
      await newClient(REAL, { device, app }, `Client ${start}`);
      for (const row of app.log.ofKind('client')) for (const writer of Object.keys(row.seen)) writers.add(writer);
      app.kill();
    }
    expect(writers.size).toBe(3);
    expect(new Set([...writers].map((writer) => writer.split('-')[0])).size).toBe(1);
  });

  test('whether the browser keeps the log is asked, told and not asked twice', async () => {
    const { app, device } = await onFloor(REAL);
    expect(app.log.status().persisted).toBe('may-be-cleared');
    device.persists = false;
    await app.log.askToPersist();
    expect(app.log.status().persisted).toBe('may-be-cleared');
    device.persists = true;
    await app.log.askToPersist();
    expect(app.log.status().persisted).toBe('kept');
    device.persists = false;
    await app.log.askToPersist();
    expect(app.log.status().persisted).toBe('kept');
  });
});

describe('the second copy', () => {
  test('within a second after it is saved, and not before', async () => {
    const floor = await onFloor(REAL);
    const { device } = floor;
    await seconds(1);
    const folder = device.files.get('log-second')!;
    const before = [...folder.values()].join();
    device.disk.fate = () => ({ type: 'aborts', error: 'QuotaExceededError' });
    const { set } = log(REAL, floor, '100', '5');
    await seconds(2);
    expect([...folder.values()].join()).toBe(before);
    device.disk.fate = undefined;
    await floor.app.log.retry();
    await seconds(0.9);
    expect([...folder.values()].join()).toContain(`sets/${set}/reps`);
  });

  test('brings back what a lost database held, and the running session with it', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    await seconds(1);
    floor.app.kill();
    const device = withoutDatabase(floor.device);
    const app = await launched(REAL, device);
    expect(app.log.status().wiped).toBe(true);
    await seconds(1);
    expect(app.log.status()).toMatchObject({ broughtBack: 2, unsaved: 0 });
    expect(setsOf(REAL, app, floor.place)).toEqual(['100x5']);
    app.kill();
    const next = await launched(REAL, device);
    await seconds(1);
    expect(setsOf(REAL, next, floor.place)).toEqual(['100x5']);
    expect(next.log.ofKind('client')).toHaveLength(1);
    expect(next.log.status()).toMatchObject({ wiped: false, broughtBack: 0 });
  });

  test('a row that is older in the store is merged with it, whichever knew more', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    await log(REAL, floor, '100', '5').saved;
    const old = (await lookInto(device.disk, 'log', 'sessions'))[0];
    await log(REAL, floor, '105', '3').saved;
    await seconds(1);
    app.kill();
    await putInto(device.disk, 'log', 'sessions', old);
    const next = await launched(REAL, device);
    expect(setsOf(REAL, next, place)).toEqual(['100x5']);
    await seconds(1);
    expect(setsOf(REAL, next, place)).toEqual(['100x5', '105x3']);
    expect(next.log.status().broughtBack).toBe(1);
    // and the other way: a file that is behind takes nothing away
    const { place: same } = floor;
    await log(REAL, { device, app: next, place: same }, '110', '1').saved;
    next.kill();
    const third = await launched(REAL, device);
    await seconds(1);
    expect(setsOf(REAL, third, place)).toEqual(['100x5', '105x3', '110x1']);
    expect(third.log.status().broughtBack).toBe(0);
  });

  test('a torn file tells nothing and harms nothing', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    await seconds(1);
    floor.app.kill();
    const folder = floor.device.files.get('log-second')!;
    const [first, second] = [...folder.keys()];
    folder.set(first!, folder.get(first!)!.slice(0, 40));
    folder.set(second!, '');
    folder.set('x~y.json', '{"id":"y"}');
    folder.set('other.txt', 'not ours');
    const next = await launched(REAL, floor.device);
    await seconds(1);
    expect(setsOf(REAL, next, floor.place)).toEqual(['100x5']);
    expect(next.log.status()).toMatchObject({ phase: 'open', broughtBack: 0, unreadable: 0 });
  });

  test('what is saved while the app starts is kept twice too', async () => {
    const device = createDevice(1);
    const app = launch(device, REAL.startLog);
    const added = REAL.saveClient(app.log, { alias: 'Client M', short: '', dayName: '', day: '' }, device.world);
    await seconds(1);
    expect(added.ok && (await added.value.saved).ok).toBe(true);
    expect([...(device.files.get('log-second') ?? new Map()).keys()]).toHaveLength(1);
  });

  test('what a backup holds needs no second copy; what came since keeps it', async () => {
    const floor = await onFloor(REAL);
    const { device, app } = floor;
    await log(REAL, floor, '100', '5').saved;
    await seconds(1);
    const held = new Map(app.log.all().map((row) => [REAL.keyOf(row), row]));
    await log(REAL, floor, '105', '3').saved;
    await seconds(1);
    await app.log.backedUp(device.world.now(), held);
    expect([...device.files.get('log-second')!.keys()]).toEqual([`${floor.place.stream}~${floor.place.session}.json`]);
    expect(app.log.status().lastBackup).toBe(device.world.now());
    app.kill();
    const next = await launched(REAL, withoutDatabase(device));
    await seconds(1);
    expect(setsOf(REAL, next, floor.place)).toEqual(['100x5', '105x3']);
  });

  test('without a private file system everything else works', async () => {
    const device = createDevice(1);
    device.lacks.add('files');
    const app = await launched(REAL, device);
    await newClient(REAL, { device, app }, 'Client M');
    await seconds(1);
    expect(app.log.status()).toMatchObject({ phase: 'open', unsaved: 0, saveFault: null });
  });

  test('a row that the store holds and this version cannot read is not written over from it', async () => {
    const floor = await onFloor(REAL);
    await seconds(1);
    floor.app.kill();
    const [client] = (await lookInto(floor.device.disk, 'log', 'rows')) as Record<string, unknown>[];
    const newer = { ...client, shape: 2 };
    await putInto(floor.device.disk, 'log', 'rows', newer);
    const next = await launched(REAL, floor.device);
    await seconds(1);
    expect(await lookInto(floor.device.disk, 'log', 'rows')).toEqual([newer]);
    expect(next.log.status()).toMatchObject({ unreadable: 1, broughtBack: 0 });
  });
});

describe('rows that cannot be read', () => {
  test('are counted once, wherever they lie, and stay as they are', async () => {
    const floor = await onFloor(REAL);
    const { device, place } = floor;
    await log(REAL, floor, '100', '5').saved;
    floor.app.kill();
    const torn = (id: string, kind: string) => ({ stream: place.stream, id, kind, seen: [], body: { x: [1] } });
    await putInto(device.disk, 'log', 'rows', torn('t1', 'cue'));
    await putInto(device.disk, 'log', 'rows', torn('t2', 'cue'));
    await putInto(device.disk, 'log', 'sessions', torn(`${place.session}-2`, 'session'));
    const app = await launched(REAL, device);
    expect(app.log.status()).toMatchObject({ phase: 'open', unreadable: 3 });
    await app.log.refresh();
    expect(app.log.status().unreadable).toBe(3);
    expect(setsOf(REAL, app, place)).toEqual(['100x5']);
    await log(REAL, { ...floor, app }, '105', '3').saved;
    expect(await lookInto(device.disk, 'log', 'rows')).toContainEqual(torn('t1', 'cue'));
    expect(await lookInto(device.disk, 'log', 'sessions')).toContainEqual(torn(`${place.session}-2`, 'session'));
  });

  test('a screen that watches the status hears of it', async () => {
    const device = createDevice(1);
    const app = launch(device, REAL.startLog);
    const phases: string[] = [];
    app.log.watch([STATUS], () => phases.push(`${app.log.status().phase} ${app.log.status().seat}`));
    await app.log.ready;
    await turns(5);
    expect(phases[0]).toBe('opening null');
    expect(phases.at(-1)).toBe('open writer');
  });
});
