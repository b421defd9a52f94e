import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { packRow, unpackRow } from '../../src/log/encode';
import { storeOf } from '../../src/log/keys';
import { startLog } from '../../src/log/start';
import type { Row } from '../../src/merge/row';
import { everything, got, type Place, place, takeIn } from '../sealing/rig';
import { type App, createDevice, type Device, launch } from './fakes/device';
import { turns } from './fakes/life';
import { CODE, seesOne, WORDS } from './golden1';
import { refusesErasedOne, undoesOne, writesToOne } from './golden1Acts';
import { PLANTS } from './golden1Plants';
import { atRest, deviceWith, type Kept, keptOn } from './goldenDevice';

/*
 * Every stored shape that was released opens. Each golden file has its own expectations, written by hand: the code of today is never asked what
 * it would say.
 */

type Golden = {
  readonly sees: (app: App, device: Device) => Promise<void>;
  /** Edits rows that hold what this app does not know. */
  readonly writesTo: (app: App, device: Device) => Promise<void>;
  readonly undoes: (app: App) => Promise<void>;
  /** Offers rows of the erased client again. */
  readonly refuses: (app: App) => Promise<void>;
  /** Of the erased client nothing may lie anywhere. */
  readonly canaries: readonly string[];
  readonly plants: Readonly<Record<string, readonly [from: string, to: string]>>;
  readonly words: string;
  readonly code: string;
  /** SHA-256 of each file, by its ending. */
  readonly hashes: Readonly<Record<string, string>>;
};
const EXPECTED: Readonly<Record<string, Golden>> = {
  '1': {
    sees: seesOne,
    writesTo: writesToOne,
    undoes: undoesOne,
    refuses: refusesErasedOne,
    canaries: ['Client X', '61.7'],
    plants: PLANTS,
    words: WORDS,
    code: CODE,
    hashes: {
      json: '358e38f62f70b9c81452fd551b78e5816500f73990658fcc609a1cb19b4e09c2',
      jsonl: '2b1d787bfae45e3755cddcf545a210d269a97e5dfd892efd1df1036293441dee',
      age: 'bcc2d4b2e1561aba7ea7f327ac46a3e375d06aab8a8bd5da93c71ce6b213d91a',
    },
  },
};

const folder = join(import.meta.dirname, '../../fixtures/logs');
const names = readdirSync(folder).flatMap((file) => /^(.+)\.json$/.exec(file)?.[1] ?? []);
const ROWS = ['rows', 'sessions', 'results'];

const keptIn = (name: string): Kept => JSON.parse(readFileSync(join(folder, `${name}.json`), 'utf8')) as Kept;
const fileOf = (file: string): Blob => new Blob([readFileSync(join(folder, file))]);
const storedIn = (kept: Kept): readonly unknown[] => ROWS.flatMap((store) => kept.stores[store]?.records ?? []);

/** Returns the rows of a golden file in one order, as today's code reads them. */
function rowsIn(kept: Kept): readonly Row[] {
  const rows = storedIn(kept).map((one) => got(unpackRow(one)));
  return rows.sort((a, b) => (`${a.stream}/${a.id}` < `${b.stream}/${b.id}` ? -1 : 1));
}

async function started(device: Device, { database }: Kept): Promise<App> {
  const app = launch(device, startLog, database);
  await atRest(app.log);
  return app;
}

async function ended(app: App): Promise<void> {
  await atRest(app.log);
  app.kill();
  await turns(30);
}

test('every golden file has its expectations, and there is at least one', () => {
  expect(names.length).toBeGreaterThan(0);
  expect(names.sort()).toEqual(Object.keys(EXPECTED).sort());
});

describe.each(names)('golden files %s', (name) => {
  const kept = keptIn(name);
  const golden = EXPECTED[name] as Golden;

  test('are as they were made', () => {
    for (const [kind, hash] of Object.entries(golden.hashes)) {
      const made = createHash('sha256').update(readFileSync(join(folder, `${name}.${kind}`)));
      expect(made.digest('hex'), kind).toBe(hash);
    }
  });

  test('a device that keeps them opens and shows all of it, and so it does after a restart', async () => {
    const device = await deviceWith(kept, 9);
    const app = await started(device, kept);
    await golden.sees(app, device);
    await ended(app);
    const again = await started(device, kept);
    await golden.sees(again, device);
    await ended(again);
  });

  test('a start changes no row, and nothing that is kept aside', async () => {
    const device = await deviceWith(kept, 9);
    await ended(await started(device, kept));
    const after = await keptOn(device, kept.database);
    for (const store of [...ROWS, 'meta', 'drafts', 'undo']) {
      expect(after.stores[store]?.records, store).toEqual(kept.stores[store]?.records);
    }
  });

  test('what this app does not know stays, through an edit of the very row', async () => {
    const device = await deviceWith(kept, 9);
    const app = await started(device, kept);
    await golden.writesTo(app, device);
  });

  test('the acts before it was put away are taken back one by one', async () => {
    const app = await started(await deviceWith(kept, 9), kept);
    await golden.undoes(app);
  });

  test('the erased client is nowhere, and is not taken in again', async () => {
    const device = await deviceWith(kept, 9);
    const app = await started(device, kept);
    await golden.refuses(app);
    await ended(app);
    const texts = [JSON.stringify(await keptOn(device, kept.database)), await fileOf(`${name}.jsonl`).text()];
    for (const text of texts) for (const canary of golden.canaries) expect(text).not.toContain(canary);
  });

  test('packed again, each record is the very same JSON, and belongs into the same store', () => {
    for (const store of ROWS) {
      for (const stored of kept.stores[store]?.records ?? []) {
        const row = got(unpackRow(stored));
        expect(JSON.stringify(packRow(row))).toBe(JSON.stringify(stored));
        expect(storeOf(row.kind), row.kind).toBe(store);
      }
    }
  });

  test('series that were noted as stale are made anew', async () => {
    const storeIn = (store: string): Kept['stores'][string] => kept.stores[store] ?? { keyPath: null, records: [] };
    const [sessions, series, meta] = [storeIn('sessions'), storeIn('series'), storeIn('meta')];
    const streams = new Set((sessions.records as { stream: string }[]).map(({ stream }) => stream));
    const others = (meta.records as [string, unknown][]).filter(([key]) => key !== 'stale-series');
    const stale = { ...meta, records: [...others, ['stale-series', [...streams]]] };
    const stores = { ...kept.stores, series: { ...series, records: [] }, meta: stale };
    const device = await deviceWith({ ...kept, stores }, 9);
    await golden.sees(await started(device, kept), device);
  });

  test('what the second copy holds comes back where the database was lost', async () => {
    const stores = Object.entries(kept.stores).map(([store, one]) => [store, { ...one, records: [] }]);
    const device = await deviceWith({ ...kept, stores: Object.fromEntries(stores) as Kept['stores'] }, 9);
    const app = await started(device, kept);
    const files = Object.values(kept.files).flatMap(Object.values);
    expect(files.length).toBeGreaterThan(0);
    expect(app.log.status()).toMatchObject({ wiped: true, broughtBack: files.length });
    await ended(app);
    const back = storedIn(await keptOn(device, kept.database));
    expect(back.map((one) => JSON.stringify(one)).sort()).toEqual(files.sort());
  });

  test('the plain export brings the same rows into an empty device', async () => {
    const at = await place(5);
    await takenFrom(at, `${name}.jsonl`, '');
    expect(await everything(at)).toEqual(rowsIn(kept));
  });

  test('the sealed backup does so with its words, and with the recovery code the keys come along', async () => {
    const at = await place(5);
    await takenFrom(at, `${name}.age`, golden.words);
    expect(await everything(at)).toEqual(rowsIn(kept));

    const joined = await place(6);
    const opened = got(await joined.sealing.open(fileOf(`${name}.age`), golden.words));
    got(await joined.app.run(() => opened.join(golden.code)));
    const { look } = await takeIn(joined, opened);
    expect(look.signature).toEqual({ by: 'own-vault' });
    expect(await everything(joined)).toEqual(rowsIn(kept));
    expect(await joined.sealing.isOwner(golden.code)).toBe('yes');
  });
});

describe.each(names)('golden files %s with a fault are seen:', (name) => {
  const golden = EXPECTED[name] as Golden;

  test.each(Object.entries(golden.plants))('%s', async (_, [from, to]) => {
    const text = readFileSync(join(folder, `${name}.json`), 'utf8');
    expect(text).toContain(from);
    // the second copy would mend what is planted in the store
    const planted: Kept = { ...(JSON.parse(text.replaceAll(from, to)) as Kept), files: {} };
    const device = await deviceWith(planted, 9);
    const app = await started(device, planted);
    await expect(golden.sees(app, device)).rejects.toThrow();
    app.kill();
  });
});

test('the newest golden file is of the shape that a new device has today', async () => {
  const newest = keptIn(String(Math.max(...names.map(Number))));
  const device = createDevice(3);
  await ended(await started(device, newest));
  const made = await keptOn(device, newest.database);
  const shapeOf = ({ version, stores }: Kept) => [
    version,
    Object.entries(stores).map(([store, { keyPath }]) => [store, keyPath]),
  ];
  expect(shapeOf(made)).toEqual(shapeOf(newest));
});

async function takenFrom(at: Place, file: string, words: string): Promise<void> {
  const { look } = await takeIn(at, got(await at.sealing.open(fileOf(file), words)));
  expect(look.report).toMatchObject({ changed: 0, same: 0, refused: 0 });
}
