import { describe, expect, test } from 'vitest';
import { bringBackFound, gatherRecords, removeAgain, settleFound } from '../../src/log/recordActs';
import type { Row } from '../../src/merge/row';
import { turns } from './fakes/life';
import { launched, log, newClient, onFloor, setsOf } from './floor';
import { REAL } from './room';
import { ended } from './suite-sets';
import { carried, sessionOf, two } from './twoPhones';

describe('what someone has to look at, gathered', () => {
  test('a settled value keeps what was let go until it is chosen after all, also after a restart', async () => {
    const { floor, other, set } = await two();
    const { app, device, place } = floor;
    await REAL.touchUp(app.log, place, set, { note: 'from here' });
    await REAL.touchUp(other.app.log, other.place, set, { note: 'from there' });
    await carried(other, floor);
    await ended(REAL, floor);
    await turns(20);
    app.log.releaseSession(place.stream, place.session);
    const now = device.world.now();
    const before = await app.run(() => gatherRecords(app.log, now));
    expect(before).toMatchObject({ beside: { count: 1 }, settled: { count: 0 }, mending: { count: 0 } });
    const [found] = before!.beside.list;
    const texts = [found!.shown, ...found!.others].map(({ value }) => value);
    expect([...texts].sort()).toEqual(['from here', 'from there']);
    // the row is not in memory: it is read first
    expect(await app.run(() => settleFound(app.log, found!, texts[0]!))).toMatchObject({ ok: true });
    app.kill();
    const next = await launched(REAL, device);
    await turns(40);
    const after = await next.run(() => gatherRecords(next.log, now));
    expect(after).toMatchObject({ beside: { count: 0 }, settled: { count: 1 } });
    const [settled] = after!.settled.list;
    expect(settled).toMatchObject({ shown: { value: texts[0] }, others: [{ value: texts[1] }] });
    await next.run(() => settleFound(next.log, settled!, texts[1]!));
    const again = await next.run(() => gatherRecords(next.log, now));
    expect(again!.settled.list).toMatchObject([{ shown: { value: texts[1] }, others: [{ value: texts[0] }] }]);
  });

  test('a session that was removed comes back with its continuation, in one act', async () => {
    const floor = await onFloor(REAL);
    const { app, device, place } = floor;
    log(REAL, floor, '100', '5');
    const id = `${place.session}-2`;
    const name = { stream: place.stream, id, kind: 'session' };
    const [own] = setsRows(sessionOf(floor));
    const values = Object.fromEntries(
      own!.map(([path, value]) => [path.replace(/^sets\/[^/]+/, 'sets/zzzzzzzz'), value]),
    );
    await app.log.commit({
      act: { type: 'x' },
      rows: [{ name, changes: { ...values, of: place.session }, fresh: true }],
    });
    expect(setsOf(REAL, app, place)).toHaveLength(2);
    await REAL.removeSession(app.log, place);
    const gone = await app.run(() => gatherRecords(app.log, device.world.now()));
    expect(gone!.removed).toMatchObject({ count: 1, list: [{ thing: '', name: { id: place.session } }] });
    await app.run(() => bringBackFound(app.log, gone!.removed.list[0]!));
    expect(setsOf(REAL, app, place)).toHaveLength(2);
    app.log.undo();
    expect(setsOf(REAL, app, place)).toEqual([]);
  });

  test('removed again by one who has seen the edit, it stays removed on every phone', async () => {
    const { floor, other, set } = await two();
    await REAL.removeSet(floor.app.log, floor.place, set);
    await REAL.touchUp(other.app.log, other.place, set, { form: 'clean' });
    await carried(other, floor);
    const records = await floor.app.run(() => gatherRecords(floor.app.log, floor.device.world.now()));
    expect(records).toMatchObject({ both: { count: 1 }, removed: { count: 0 } });
    await floor.app.run(() => removeAgain(floor.app.log, records!.both.list[0]!));
    await carried(floor, other);
    for (const on of [floor, other]) expect(setsOf(REAL, on.app, on.place)).toEqual([]);
  });

  test('what was added and undone is nothing to mend', async () => {
    const floor = await onFloor(REAL);
    const { app, device } = floor;
    await newClient(REAL, floor, 'Client L');
    expect(app.log.undo()?.act.type).toBe('add-client');
    const records = await app.run(() => gatherRecords(app.log, device.world.now()));
    expect(records).toMatchObject({ mending: { count: 0 }, removed: { count: 0 }, beside: { count: 0 } });
  });

  test('a store that does not answer is told', async () => {
    const { app, device } = await onFloor(REAL);
    device.disk.readsFail = true;
    expect(await app.run(() => gatherRecords(app.log, device.world.now()))).toBeUndefined();
  });
});

/** What each set of a row shows, as changes that would write it. */
const setsRows = (row: Row) => [
  Object.entries(row.body).flatMap(([path, [held]]) => (path.startsWith('sets/') ? [[path, held.value] as const] : [])),
];
