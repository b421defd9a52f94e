import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { openSecondCopy } from '../../src/log/second';
import { launch } from './fakes/device';
import { lookInto, putInto } from './fakes/disk';
import { FileHandle } from './fakes/files';
import { seconds } from './fakes/seconds';
import { launched, log, newClient, newSession, onFloor, setsOf } from './floor';
import { REAL } from './room';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});

/** A set that is saved and copied, another client's session to move it to, and what the database holds before. */
async function aboutToMove() {
  const floor = await onFloor(REAL);
  const { device } = floor;
  const to = await newSession(REAL, floor, await newClient(REAL, floor, 'Client M'));
  const { set, saved } = log(REAL, floor, '100', '5');
  await saved;
  await seconds(1);
  const before = await lookInto(device.disk, 'log', 'sessions');
  return { ...floor, to, set, before };
}

/** Moves a set, kills the app at the n-th file that is then written to or dropped, and loses the move in the database. Returns where the set is after. */
async function movedAndTorn(files: number): Promise<readonly [string[], string[]]> {
  const { device, app, place, to, set, before } = await aboutToMove();
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

/** A device whose database lost a move that its second copy holds, and where the set was and went. */
async function moveLost() {
  const { device, app, place, to, set, before } = await aboutToMove();
  await REAL.moveSet(app.log, place, set, to, device.world);
  await seconds(1);
  app.kill();
  for (const row of before) await putInto(device.disk, 'log', 'sessions', row);
  return { device, places: [place, to] as const };
}

describe('what the second copy brings back', () => {
  /** Starts the app, ends it at its n-th transaction that writes, and returns whether that came, with the sets that the database alone holds then. */
  async function endedAt(nth: number) {
    const { device, places } = await moveLost();
    let left = nth;
    device.disk.fate = ({ life }) => {
      left -= 1;
      if (left === 0) void Promise.resolve().then(() => next.life === life && next.kill(true));
      return undefined;
    };
    const next = launch(device, REAL.startLog);
    await seconds(1);
    const came = next.life.state === 'dead';
    next.kill();
    device.disk.fate = undefined;
    device.files.clear();
    const third = await launched(REAL, device);
    return { came, sets: places.flatMap((place) => setsOf(REAL, third, place)) };
  }

  test('is there whole, or not at all, at whatever transaction the page is gone', async () => {
    let ends = 0;
    for (let came = true; came; ends += 1) {
      const ended = await endedAt(ends + 1);
      expect(ended.sets).toEqual(['100x5']);
      came = ended.came;
    }
    expect(ends).toBeGreaterThan(1);
  });
});

describe('a file of rows written together', () => {
  test('is not dropped for one that had been read before it', async () => {
    const { device, app } = await onFloor(REAL);
    await seconds(1);
    const rows = app.log.all();
    expect(rows.length).toBeGreaterThan(1);
    const second = (await app.log.inside((core) => core.second))!;
    const folder = device.files.get('log-second')!;
    const isThere = (): boolean => [...folder.keys()].some((name) => name.startsWith('together'));
    /** Keeps the rows, and does something while their file stands. */
    const keptWhile = async (fn: () => Promise<unknown>): Promise<void> => {
      const { set: put } = Map.prototype;
      let done: Promise<unknown> | undefined;
      folder.set = (name, text) => {
        put.call(folder, name, text);
        if (text !== '' && isThere()) done ??= fn();
        return folder;
      };
      app.run(() => second.keep(rows));
      await app.run(() => second.settled());
      await done;
      folder.set = put;
      expect(done).toBeDefined();
    };
    await keptWhile(() => app.run(() => second.all()));
    let before = false;
    let after = false;
    await keptWhile(async () => {
      before = isThere();
      await app.run(() => second.tidy());
      after = isThere();
    });
    expect([before, after]).toEqual([true, true]);
  });
});

describe('a copy that is made late', () => {
  test('does not put what was read before over what was saved since', async () => {
    const floor = await onFloor(REAL);
    const { device, place } = floor;
    await seconds(1);
    const first = log(REAL, floor, '100', '5');
    await first.saved;
    // its copy is what the next start has to make
    floor.app.kill();
    let answer = (): void => undefined;
    const late = new Promise<void>((resolve) => {
      answer = resolve;
    });
    const { getFile } = FileHandle.prototype;
    const slow = vi.spyOn(FileHandle.prototype, 'getFile').mockImplementation(async function (this: FileHandle) {
      if (this.name.startsWith(`${place.stream}~${place.stream}`)) await late;
      return getFile.call(this);
    });
    const app = await launched(REAL, device);
    await seconds(4);
    const { set, saved } = log(REAL, { device, app, place }, '105', '3');
    await saved;
    await seconds(1);
    const folder = device.files.get('log-second')!;
    const copied = (): boolean => [...folder.values()].join().includes(`sets/${set}/reps`);
    expect(copied()).toBe(true);
    const states: boolean[] = [];
    const { set: put } = Map.prototype;
    folder.set = (name, text) => {
      put.call(folder, name, text);
      states.push(copied());
      return folder;
    };
    answer();
    slow.mockRestore();
    await seconds(1);
    expect([...folder.values()].join()).toContain(`sets/${first.set}/reps`);
    expect(states).not.toContain(false);
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
