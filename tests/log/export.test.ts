import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { packRow } from '../../src/log/encode';
import { type Export, exportLog } from '../../src/log/export';
import { canonicalRow } from '../../src/merge/canonical';
import { admitRow } from '../../src/merge/door';
import { EXPORT_FORMAT } from '../../src/merge/exportLines';
import type { Row } from '../../src/merge/row';
import { createDevice, type Device, launch } from './fakes/device';
import { putInto } from './fakes/disk';
import { turns } from './fakes/life';
import { launched, log, onDisk, onFloor } from './floor';
import { REAL } from './room';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
});

/** Exports and reads the lines back as another app would: by JSON and the door alone. */
async function exported(
  inMemory: readonly Row[] = [],
  at = 5,
): Promise<{ made: Export; head: Record<string, unknown>; rows: Row[]; unreadable: unknown[] }> {
  const making = exportLog('log', inMemory, at);
  for (let second = 0; second < 6; second += 1) {
    await turns(40);
    await vi.advanceTimersByTimeAsync(1000);
  }
  const made = await making;
  const [head, ...lines] = (await made.blob.text())
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>);
  const rows: Row[] = [];
  const unreadable: unknown[] = [];
  for (const line of lines) {
    if ('unreadable' in line) unreadable.push(line['unreadable']);
    else {
      const row = admitRow(line);
      if (!row.ok) throw new Error(`the door refuses ${JSON.stringify(line)}`);
      rows.push(row.value);
    }
  }
  return { made, head: head ?? {}, rows, unreadable };
}

const texts = (rows: readonly Row[]): string[] => rows.map(canonicalRow).toSorted();

async function wholeDisk(device: Device): Promise<Row[]> {
  return [
    ...(await onDisk(device, 'rows')),
    ...(await onDisk(device, 'sessions')),
    ...(await onDisk(device, 'results')),
  ];
}

describe('export', () => {
  test('every row of every store, exactly, after a line that says what it is', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    log(REAL, floor, '100', '5');
    await app.log.commit({
      act: { type: 'note' },
      rows: [
        {
          name: { stream: place.stream, id: 'r1', kind: 'result' },
          changes: { 'new/path': { deep: [1, null] } },
          fresh: true,
        },
      ],
    });
    const { head, rows, made } = await exported([], 1234);
    expect(head).toEqual({ format: EXPORT_FORMAT, log: 'log', at: 1234, rows: 3, databaseRead: true });
    expect(made).toMatchObject({ rows: 3, unreadable: 0, databaseRead: true });
    expect(texts(rows)).toEqual(texts(await wholeDisk(device)));
    expect(rows).toHaveLength(3);
  });

  test('thousands of rows, in more reads than one', async () => {
    const { device } = await onFloor(REAL);
    const name = (n: number): string => `r${String(n).padStart(4, '0')}`;
    for (let n = 0; n < 1203; n += 1) {
      const row: Row = {
        id: name(n),
        kind: 'result',
        stream: 'c1',
        seen: { w: 1 },
        body: { value: [{ value: n, stamp: { l: 1, writer: 'w' } }] },
      };
      await putInto(device.disk, 'log', 'results', packRow(row));
    }
    const { rows } = await exported();
    const results = rows.filter(({ kind }) => kind === 'result').map(({ id }) => id);
    expect(results).toEqual(Array.from({ length: 1203 }, (_, n) => name(n)));
  });

  test('what only memory holds goes along: beside the stored state, or in the place of none', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    await log(REAL, floor, '100', '5').saved;
    const stored = await wholeDisk(device);
    device.disk.fate = () => ({ type: 'aborts', error: 'QuotaExceededError' });
    await log(REAL, floor, '105', '3').saved;
    const unsaved = app.log.get(REAL.keyOf({ stream: place.stream, id: place.session }))!;
    const { rows } = await exported([...app.log.ofKind('client'), unsaved]);
    expect(texts(rows)).toEqual(texts([...stored, unsaved]));
  });

  test('what only the second copy holds goes along too', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    await vi.advanceTimersByTimeAsync(1000);
    await turns(20);
    const rows = await wholeDisk(floor.device);
    // the browser lost the database, and kept the files
    const files = floor.device.files;
    floor.app.kill();
    const device = createDevice(2);
    for (const [name, folder] of files) device.files.set(name, folder);
    const made = await exported();
    expect(texts(made.rows)).toEqual(texts(rows));
    expect(made.made.databaseRead).toBe(false);
  });

  test('where the log cannot be opened it still carries what memory holds, and does not wait for ever', async () => {
    const floor = await onFloor(REAL);
    const { device, app } = floor;
    device.lacks.add('files');
    device.disk.opening = 'hangs';
    const { made, rows } = await exported(app.log.all());
    expect(made.databaseRead).toBe(false);
    expect(texts(rows)).toEqual(texts(app.log.all()));
    expect(rows.length).toBeGreaterThan(1);
    device.disk.opening = { throws: 'SecurityError' };
    expect((await exported(app.log.all())).rows).toHaveLength(rows.length);
  });

  test('a log of a newer app, that this one does not open, is exported', async () => {
    const floor = await onFloor(REAL);
    const rows = await wholeDisk(floor.device);
    floor.app.kill();
    await upgraded(floor.device, 7);
    const app = await launched(REAL, floor.device);
    expect(app.log.status()).toMatchObject({ phase: 'cannot-open', openFault: { type: 'newer' } });
    const { made, rows: found } = await exported();
    expect(made.databaseRead).toBe(true);
    expect(texts(found)).toEqual(texts(rows));
  });

  test('what is no row is carried as it lies there', async () => {
    const { device } = await onFloor(REAL);
    const torn = { stream: 'c1', id: 'torn', kind: 'client', seen: [], body: { alias: [1, 0] } };
    await putInto(device.disk, 'log', 'rows', torn);
    const { made, unreadable, rows } = await exported();
    expect(made).toMatchObject({ unreadable: 1, rows: 2 });
    expect(unreadable).toEqual([torn]);
    expect(rows).toHaveLength(2);
  });

  test('a row that adds a value but no seen is not left out', async () => {
    const { device } = await onFloor(REAL);
    const row = (id: string, body: Row['body']): Row => ({ id, kind: 'cue', stream: 'main', seen: { a: 9 }, body });
    const value = [{ value: 'tall', stamp: { l: 4, writer: 'b' } }] as const;
    await putInto(device.disk, 'log', 'rows', packRow(row('x', {})));
    const { rows } = await exported([row('x', { words: value })]);
    expect(rows.filter(({ id }) => id === 'x')).toEqual([row('x', {}), row('x', { words: value })]);
  });

  test('an export makes no database where there is none, and holds none open', async () => {
    const device = createDevice(1);
    launch(device, () => ({ ready: Promise.resolve() }) as never);
    await exported();
    expect(await device.disk.real.databases()).toEqual([]);
    const floor = await onFloor(REAL);
    let open: () => void = () => undefined;
    floor.device.disk.whileOpening = () =>
      new Promise((resolve) => {
        open = resolve;
      });
    const { made } = await exported();
    expect(made.databaseRead).toBe(false);
    floor.device.disk.whileOpening = undefined;
    open();
    await turns(20);
    floor.app.kill();
    // nothing is left that blocks another version
    await upgraded(floor.device, 2);
  });
});

/** Opens the log's database under a higher version, as a newer app would. */
function upgraded(device: Device, version: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const opening = device.disk.real.open('log', version);
    opening.onblocked = () => reject(new Error('blocked'));
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      opening.result.close();
      resolve();
    };
  });
}
