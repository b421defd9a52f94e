import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { seconds } from './fakes/seconds';
import { launched, log, onFloor, setsOf } from './floor';
import { REAL } from './room';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
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
});
