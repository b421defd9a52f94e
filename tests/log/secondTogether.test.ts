import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { openSecondCopy } from '../../src/log/second';
import { lookInto, putInto } from './fakes/disk';
import { seconds } from './fakes/seconds';
import { launched, log, newClient, newSession, onFloor, setsOf } from './floor';
import { REAL } from './room';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
});

/** Moves a set, kills the app at the n-th file that is then written to or dropped, and loses the move in the database. Returns where the set is after. */
async function movedAndTorn(files: number): Promise<readonly [string[], string[]]> {
  const floor = await onFloor(REAL);
  const { device, app, place } = floor;
  const to = await newSession(REAL, floor, await newClient(REAL, floor, 'Client M'));
  const { set, saved } = log(REAL, floor, '100', '5');
  await saved;
  await seconds(1);
  const before = await lookInto(device.disk, 'log', 'sessions');
  const folder = device.files.get('log-second')!;
  let left = files;
  const count = (): void => {
    left -= 1;
    if (left === 0) app.kill();
  };
  const { set: put, delete: drop } = Map.prototype;
  folder.set = (name, text) => {
    put.call(folder, name, text);
    count();
    return folder;
  };
  folder.delete = (name) => {
    const found = drop.call(folder, name);
    count();
    return found;
  };
  await REAL.moveSet(app.log, place, set, to, device.world);
  await seconds(1);
  app.kill();
  for (const row of before) await putInto(device.disk, 'log', 'sessions', row);
  const next = await launched(REAL, device);
  await seconds(1);
  const again = [setsOf(REAL, next, place), setsOf(REAL, next, to)] as const;
  next.kill();
  const third = await launched(REAL, device);
  await seconds(1);
  expect([setsOf(REAL, third, place), setsOf(REAL, third, to)]).toEqual(again);
  expect([...device.files.get('log-second')!.keys()].filter((name) => name.startsWith('together'))).toEqual([]);
  return again;
}

describe('the second copy of what was saved together', () => {
  test('a kill at any file, and a database that loses the move: the set is in one session, never in both or none', async () => {
    const found = [];
    for (let files = 1; files <= 8; files += 1) found.push(await movedAndTorn(files));
    for (const [here, there] of found) expect([...here, ...there]).toEqual(['100x5']);
    // both ends were met: before anything was written, and after all of it
    expect(new Set(found.map(([here]) => here.length))).toEqual(new Set([0, 1]));
  });
});

describe('a listing that stumbles over a file that is swapped in', () => {
  afterEach(() => vi.unstubAllGlobals());

  /** A folder whose first listings throw, as a browser's do where a file is gone between its name and its handle. */
  function stumbling(times: number): void {
    const folder = {
      async *keys() {
        yield 'c1~a.json';
        times -= 1;
        if (times >= 0) throw new DOMException('', 'NotFoundError');
        yield 'c1~b.json';
      },
      getFileHandle: async () => Promise.reject(new DOMException('', 'NotFoundError')),
    };
    vi.stubGlobal('navigator', { storage: { getDirectory: async () => ({ getDirectoryHandle: async () => folder }) } });
    vi.stubGlobal(
      'FileSystemFileHandle',
      class {
        createWritable() {}
      },
    );
  }

  test('is made again, whole; one that never comes is told', async () => {
    stumbling(3);
    expect(await (await openSecondCopy('x'))?.count()).toBe(2);
    stumbling(1000);
    await expect((await openSecondCopy('x'))?.count()).rejects.toThrow();
  });
});
