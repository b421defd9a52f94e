import { describe, expect, test } from 'vitest';
import { beginImport } from '../../src/log/absorb';
import { keyOf } from '../../src/log/keys';
import type { Row } from '../../src/merge/row';
import { shown } from '../../src/merge/shown';
import type { App } from './fakes/device';
import { createDevice } from './fakes/device';
import { lookInto, putInto } from './fakes/disk';
import { turns } from './fakes/life';
import { type Floor, launched, log, newClient, onDisk, onFloor, setsOf } from './floor';
import { REAL } from './room';
import { ended } from './suite-sets';

/** Writes as another device would have. */
const theirs = (row: Row, changes: Record<string, unknown>, l: number): Row =>
  JSON.parse(
    JSON.stringify({
      ...row,
      seen: { ...row.seen, 'other-1': l },
      body: {
        ...row.body,
        ...Object.fromEntries(
          Object.entries(changes).map(([path, value]) => [path, [{ value, stamp: { l, writer: 'other-1' } }]]),
        ),
      },
    }),
  );

const AHEAD = 3_000_000_000_000;

async function taken(app: App, rows: readonly unknown[], asNew = new Map<string, string>()) {
  const prepared = app.run(() => beginImport(app.log, asNew));
  expect(await app.run(() => prepared.take(rows))).toBe(true);
  return { ...prepared, commit: () => app.run(() => prepared.commit()) };
}

const clientOf = ({ app, place }: Floor): Row => app.log.get(`${place.stream}/${place.stream}`)!;

describe('a dry run', () => {
  test('tells what is new, changed, the same, kept beside and refused, and changes nothing', async () => {
    const floor = await onFloor(REAL);
    const { app, device, place } = floor;
    const client = clientOf(floor);
    const session = app.log.get(`${place.stream}/${place.session}`)!;
    const before = JSON.stringify([await lookInto(device.disk, 'log', 'rows'), app.log.all()]);
    // written without having seen what was written here since
    const note = { note: [{ value: 'there', stamp: { l: 5, writer: 'other-1' } }] };
    const apart = { ...client, seen: { 'other-1': 5 }, body: { ...note } };
    await REAL.agreeOnQuestion(app.log, place.stream, 'How is the knee?');
    const { report } = await taken(app, [
      theirs(client, { note: 'x' }, AHEAD),
      session,
      { ...client, id: 'c9', stream: 'c9' },
      { ...apart, body: { alias: [{ value: 'Other', stamp: { l: 5, writer: 'other-1' } }] } },
      { ...client, kind: 'cue' },
      { id: 'no row' },
    ]);
    expect(report()).toEqual({
      new: 1,
      changed: 2,
      same: 1,
      keptBeside: 1,
      refused: 2,
      told: [
        { key: null, why: { type: 'not-a-row', why: 'shape' } },
        { key: keyOf(client), why: { type: 'kind-differs', held: 'client' } },
      ],
      erased: [],
      erases: [],
      canUndo: true,
    });
    const rows = app.log.all().map((row) => (row.id === place.stream ? client : row));
    const stored = (await lookInto(device.disk, 'log', 'rows')).length;
    expect(JSON.stringify(rows)).toBe(JSON.stringify(JSON.parse(before)[1]));
    expect(stored).toBe(1);
  });
});

describe('an import', () => {
  test('is merged into a session that lies in the store and not in memory, and lets go of it again', async () => {
    const floor = await onFloor(REAL);
    const { app, device, place } = floor;
    const { set } = log(REAL, floor, '100', '5');
    await ended(REAL, floor);
    await turns(20);
    const session = app.log.get(`${place.stream}/${place.session}`)!;
    app.log.releaseSession(place.stream, place.session);
    expect(app.log.get(keyOf(session))).toBeUndefined();
    const { commit, report } = await taken(app, [
      { ...session, seen: { 'other-1': 9 }, body: { note: [{ value: 'theirs', stamp: { l: 9, writer: 'other-1' } }] } },
    ]);
    expect(report()).toMatchObject({ new: 0, changed: 1 });
    expect(await commit()).toEqual({ ok: true, value: undefined });
    expect(app.log.get(keyOf(session))).toBeUndefined();
    const [stored] = await onDisk(device, 'sessions');
    expect(shown(stored!)).toMatchObject({ note: 'theirs', [`sets/${set}/reps`]: 5 });
  });

  test('brings a running session to where the Floor finds it, at the next start too', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    const rows = floor.app.log.all();
    const device = createDevice(7);
    const app = await launched(REAL, device);
    const { commit } = await taken(app, rows);
    await commit();
    expect(setsOf(REAL, app, floor.place)).toEqual(['100x5']);
    app.kill();
    expect(setsOf(REAL, await launched(REAL, device), floor.place)).toEqual(['100x5']);
  });

  test('is one transaction and one undo: values go back, rows that were not here are removed', async () => {
    const floor = await onFloor(REAL);
    const { app, device, place } = floor;
    const client = clientOf(floor);
    const cue = { id: 'cue1', kind: 'cue', stream: 'main', seen: {}, body: {} };
    const { commit } = await taken(app, [
      theirs(client, { alias: 'Renamed', note: 'new' }, AHEAD),
      theirs(cue, { words: 'Chest up' }, AHEAD),
    ]);
    const before = device.disk.asked.length;
    await commit();
    await turns(20);
    const writes = device.disk.asked
      .slice(before)
      .filter(({ mode, stores }) => mode === 'readwrite' && stores.includes('rows'));
    expect(writes).toHaveLength(1);
    expect(REAL.client(app.log, place.stream)?.alias).toBe('Renamed');
    expect(app.log.lastAct()?.act).toEqual({ type: 'import', rows: 2 });
    const undone = app.log.undo();
    expect(undone?.changedSince).toBe(0);
    expect(await undone?.saved).toEqual({ ok: true, value: undefined });
    expect(REAL.client(app.log, place.stream)?.alias).toBe('Client K');
    expect(shown(app.log.get('main/cue1')!)).toEqual({});
  });

  test('undone after something was written on top leaves that, and says so', async () => {
    const floor = await onFloor(REAL);
    const { app, place } = floor;
    const cue = { id: 'cue1', kind: 'cue', stream: 'main', seen: {}, body: {} };
    const { commit } = await taken(app, [
      theirs(clientOf(floor), { alias: 'Renamed' }, AHEAD),
      theirs(cue, { words: 'Chest up' }, AHEAD),
    ]);
    await commit();
    const entry = app.log.lastAct();
    await app.log.commit({
      act: { type: 'later' },
      rows: [
        { name: clientOf(floor), changes: { alias: 'Mine' } },
        { name: { ...cue }, changes: { words: 'Mine' } },
      ],
    });
    app.log.undo();
    // the later act is gone: what it wrote shows the import's values again, under new stamps
    expect(app.log.lastAct()?.n).toBe(entry?.n);
    await app.log.undo()?.saved;
    expect(REAL.client(app.log, place.stream)?.alias).toBe('Client K');
    // the cue was written to by one whom the import had not seen: it stays
    expect(shown(app.log.get('main/cue1')!)).toMatchObject({ words: 'Chest up' });
  });

  test('a client that was not here is taken back as one', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    const device = createDevice(8);
    const app = await launched(REAL, device);
    const { commit } = await taken(app, floor.app.log.all());
    await commit();
    // its session runs, and would stay on Today without its client
    expect(app.log.lastAct()?.rows.map(({ name }) => name.kind)).toEqual(['client', 'session']);
    await app.log.undo()?.saved;
    expect(REAL.clients(app.log)).toEqual([]);
    expect(REAL.sessionsInMemory(app.log)).toEqual([]);
  });

  test('of more than one transaction is there whole, its series made, its sessions not in memory', async () => {
    const floor = await onFloor(REAL);
    const { place } = floor;
    log(REAL, floor, '100', '5');
    await ended(REAL, floor);
    const one = floor.app.log.get(`${place.stream}/${place.session}`)!;
    const many = Array.from({ length: 4100 }, (_, n) => ({ ...one, id: `s${n}` }));
    const device = createDevice(9);
    const app = await launched(REAL, device);
    const { commit, report } = await taken(app, [clientOf(floor), ...many]);
    expect(report()).toMatchObject({ new: 4101, refused: 0 });
    expect(await commit()).toEqual({ ok: true, value: undefined });
    expect(await lookInto(device.disk, 'log', 'sessions')).toHaveLength(4100);
    expect(app.log.ofKind('session')).toEqual([]);
    await app.log.inside((core) => core.folding);
    const series = (await lookInto(device.disk, 'log', 'series')) as { times: unknown[]; exercise: string }[];
    expect(series.find(({ exercise }) => exercise === 'lib-back-squat')?.times).toHaveLength(4100);
    const durable = device.disk.asked.filter(({ puts }) => puts.length > 1000).map(({ durability }) => durability);
    expect(durable).toEqual(['relaxed', 'relaxed']);
  }, 60_000);

  test('a row of another kind than the one here is kept aside, and the one here stays', async () => {
    const floor = await onFloor(REAL);
    const client = clientOf(floor);
    const { commit } = await taken(floor.app, [{ ...client, kind: 'orbit' }]);
    await commit();
    expect(floor.app.log.get(keyOf(client))).toBe(client);
    const aside = (await lookInto(floor.device.disk, 'log', 'meta')).filter(
      (one) => (one as { kind?: string } | null)?.kind === 'orbit',
    );
    expect(aside).toHaveLength(1);
  });

  test('what lies here and cannot be read is not written over', async () => {
    const floor = await onFloor(REAL);
    const { device, place } = floor;
    floor.app.kill();
    const torn = { stream: place.stream, id: 'torn', kind: 'session', seen: [], body: { x: [1] } };
    await putInto(device.disk, 'log', 'sessions', torn);
    const app = await launched(REAL, device);
    const row = { id: 'torn', kind: 'session', stream: place.stream, seen: {}, body: {} };
    const { commit, report } = await taken(app, [row]);
    expect(report().told).toEqual([{ key: `${place.stream}/torn`, why: { type: 'unreadable-here' } }]);
    await commit();
    expect(await lookInto(device.disk, 'log', 'sessions')).toContainEqual(torn);
  });

  test('a tap during it is saved, and is in the row with what came in', async () => {
    const floor = await onFloor(REAL);
    const { app, device, place } = floor;
    const session = app.log.get(`${place.stream}/${place.session}`)!;
    const { commit } = await taken(app, [theirs(session, { note: 'theirs' }, 5)]);
    const saving = commit();
    await turns(1);
    const logged = log(REAL, floor, '100', '5');
    expect([(await saving).ok, (await logged.saved).ok]).toEqual([true, true]);
    const [stored] = await onDisk(device, 'sessions');
    expect(shown(stored!)).toMatchObject({ note: 'theirs', [`sets/${logged.set}/reps`]: 5 });
  });

  test('where another tab writes, nothing is taken', async () => {
    const floor = await onFloor(REAL);
    const client = clientOf(floor);
    const second = await launched(REAL, floor.device);
    const { commit } = await taken(second, [theirs(client, { alias: 'Renamed' }, AHEAD)]);
    expect(await commit()).toEqual({ ok: false, error: { type: 'not-the-writer' } });
    expect(REAL.client(second.log, client.id)?.alias).toBe('Client K');
  });
});

test('a client can be added while nothing is imported', async () => {
  const floor = await onFloor(REAL);
  const { commit, report } = await taken(floor.app, []);
  expect(await commit()).toEqual({ ok: true, value: undefined });
  expect(report()).toMatchObject({ new: 0, changed: 0, same: 0, refused: 0 });
  await newClient(REAL, floor, 'Client L');
  expect(REAL.clients(floor.app.log)).toHaveLength(2);
});
