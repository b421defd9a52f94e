import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { App, Device } from './fakes/device';
import { launch } from './fakes/device';
import { FileHandle } from './fakes/files';
import { forEver, turns } from './fakes/life';
import { seconds } from './fakes/seconds';
import { launched, log, onFloor, opened, setsOf } from './floor';
import { REAL } from './room';
import { take } from './suite-tabs';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

/** A browser that appends to one log file over its starts tells of what it threw away. */
const appending = (): void => {
  class Told extends Event {
    get dataLoss(): string {
      return 'none';
    }
  }
  vi.stubGlobal('IDBVersionChangeEvent', Told);
};

describe('a start over an end that may be torn', () => {
  test('shows an act at once, and writes it only once the browser has a new log file', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    await seconds(1);
    floor.app.kill();
    appending();
    const { device, place } = floor;
    const from = device.disk.asked.length;
    const app = await launched(REAL, device);
    const { saved } = log(REAL, { device, app, place }, '105', '3');
    expect(setsOf(REAL, app, place)).toEqual(['100x5', '105x3']);
    expect((await saved).ok).toBe(true);
    const written = device.disk.asked.slice(from).filter(({ mode }) => mode === 'readwrite');
    const first = written.findIndex(({ stores }) => stores.includes('sessions'));
    // what makes the file new is some 5 MB, in steps, in a store of no rows
    expect(first).toBeGreaterThan(10);
    expect(new Set(written.slice(0, first).flatMap(({ stores }) => stores))).toEqual(new Set(['meta']));
  });

  test('keeps what the last end left with one copy alone before it writes anything', async () => {
    const floor = await onFloor(REAL);
    const { device, place } = floor;
    await log(REAL, floor, '100', '5').saved;
    await seconds(1);
    const { set, saved } = log(REAL, floor, '105', '3');
    await saved;
    // before its copy
    floor.app.kill();
    const folder = device.files.get('log-second')!;
    expect([...folder.values()].join()).not.toContain(`sets/${set}/reps`);
    appending();
    let isKept: boolean | undefined;
    device.disk.fate = () => {
      isKept ??= [...folder.values()].join().includes(`sets/${set}/reps`);
      return undefined;
    };
    const app = await launched(REAL, device);
    await log(REAL, { device, app, place }, '110', '1').saved;
    expect(isKept).toBe(true);
  });

  test('saves all the same where the browser will not write that much', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    await seconds(1);
    floor.app.kill();
    appending();
    const { device, place } = floor;
    device.disk.fate = ({ stores }) =>
      stores.length === 1 && stores[0] === 'meta' ? { type: 'aborts', error: 'QuotaExceededError' } : undefined;
    const app = await launched(REAL, device);
    expect((await log(REAL, { device, app, place }, '105', '3').saved).ok).toBe(true);
  });

  test('saves all the same where the files of the second copy never answer', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    await seconds(1);
    floor.app.kill();
    const { device, place } = floor;
    vi.spyOn(FileHandle.prototype, 'getFile').mockImplementation(() => forEver());
    const app = await launched(REAL, device);
    const { saved } = log(REAL, { device, app, place }, '105', '3');
    await seconds(4);
    expect(app.log.status().unsaved).toBe(0);
    expect((await saved).ok).toBe(true);
  });
});

/** A tab that has the seat and cannot write yet, with a set logged in it; `clear` lets the browser write what makes its file new. */
async function clearing() {
  const floor = await onFloor(REAL);
  const { device, place } = floor;
  await log(REAL, floor, '100', '5').saved;
  await seconds(1);
  floor.app.kill();
  await turns(10);
  appending();
  let clear = (): void => undefined;
  const until = new Promise<void>((resolve) => {
    clear = resolve;
  });
  const app = launch(device, REAL.startLog);
  device.disk.fate = ({ life, stores }) =>
    life === app.life && stores.join() === 'meta' ? { type: 'told-late', until } : undefined;
  await opened(app);
  const logged = log(REAL, { device, app, place }, '105', '3');
  app.log.setDraft(REAL.padDraft(place), { load: '110' });
  await turns(20);
  expect(rowsWritten(device, app)).toBe(0);
  return { device, place, app, logged, clear };
}

const rowsWritten = (device: Device, app: App): number =>
  device.disk.asked.filter(
    ({ life, mode, stores }) => life === app.life && mode === 'readwrite' && stores.includes('sessions'),
  ).length;

describe('a tab that is not on solid ground yet', () => {
  test('goes out of sight: what waits is written at once, for it may not come back', async () => {
    const { device, place, app, logged } = await clearing();
    app.log.flush();
    await turns(200);
    expect(rowsWritten(device, app)).toBeGreaterThan(0);
    expect((await logged.saved).ok).toBe(true);
    app.kill();
    device.disk.fate = undefined;
    const next = await launched(REAL, device);
    expect(setsOf(REAL, next, place)).toEqual(['100x5', '105x3']);
  });

  test('loses the seat without being asked, and writes nothing after it', async () => {
    const { device, place, app, clear } = await clearing();
    // as of a tab that is frozen: the lock is gone before the question is heard
    device.tabs.delay = 10_000;
    const other = await launched(REAL, device);
    await take(other);
    expect([app.log.status().seat, other.log.status().seat]).toEqual(['follower', 'writer']);
    clear();
    await seconds(4);
    log(REAL, { device, app, place }, '115', '1');
    await seconds(2);
    expect(rowsWritten(device, app)).toBe(0);
  });

  test('is asked for the seat: what waits is written first, the half-typed number with it', async () => {
    const { device, place, app, logged, clear } = await clearing();
    const other = await launched(REAL, device);
    const taken = other.log.takeSeat();
    await turns(20);
    clear();
    await turns(200);
    await taken;
    expect([app.log.status().seat, other.log.status().seat]).toEqual(['follower', 'writer']);
    expect((await logged.saved).ok).toBe(true);
    expect(setsOf(REAL, other, place)).toEqual(['100x5', '105x3']);
    expect(other.log.draft(REAL.padDraft(place))).toEqual({ load: '110' });
  });

  test('is asked, does not get there within a second, and is the writer again: it writes', async () => {
    const { device, place, app, clear } = await clearing();
    const other = await launched(REAL, device);
    await take(other);
    expect(other.log.status().seat).toBe('writer');
    await take(app);
    expect(app.log.status().seat).toBe('writer');
    const { saved } = log(REAL, { device, app, place }, '110', '1');
    clear();
    await seconds(4);
    expect((await saved).ok).toBe(true);
    expect([app.log.status().seat, other.log.status().seat]).toEqual(['writer', 'follower']);
    expect((await log(REAL, { device, app, place }, '115', '1').saved).ok).toBe(true);
    expect(setsOf(REAL, app, place)).toEqual(['100x5', '105x3', '110x1', '115x1']);
  });
});
