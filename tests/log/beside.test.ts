import { describe, expect, test } from 'vitest';
import { beginImport } from '../../src/log/absorb';
import { besideIn, settle } from '../../src/log/beside';
import { deviceNames, deviceOf, nameDevice, thisDevice } from '../../src/log/deviceNames';
import { needsMending } from '../../src/log/mending';
import { bringBack, recentlyRemoved, removedAndWritten } from '../../src/log/removed';
import { scanRows } from '../../src/log/scan';
import type { Row } from '../../src/merge/row';
import { turns } from './fakes/life';
import { launched, log, newClient, onFloor, setsOf } from './floor';
import { REAL } from './room';
import { ended } from './suite-sets';
import { carried, sessionOf, two } from './twoPhones';

const DAY = 86_400_000;

describe('[M6] values written without seeing each other', () => {
  test('are listed with who wrote them, and one is chosen; the other phone then shows it alone', async () => {
    const { floor, other, set } = await two();
    await REAL.touchUp(floor.app.log, floor.place, set, { effort: { value: 1, as: 'left' } });
    other.device.world.pass(5 * 60_000);
    await REAL.touchUp(other.app.log, other.place, set, { effort: { value: 3, as: 'left' } });
    await carried(other, floor);
    const [one, ...more] = besideIn(sessionOf(floor));
    expect(more).toEqual([]);
    expect(one).toMatchObject({
      path: `sets/${set}/effort`,
      shown: { value: { value: 3 } },
      others: [{ value: { value: 1 } }],
    });
    expect([one!.shown, ...one!.others].map(({ stamp }) => deviceOf(stamp.writer))).toEqual([
      thisDevice(other.app.log),
      thisDevice(floor.app.log),
    ]);
    await settle(floor.app.log, one!, one!.others[0]!.value);
    expect(besideIn(sessionOf(floor))).toEqual([]);
    await carried(floor, other);
    expect(besideIn(sessionOf(other))).toEqual([]);
    expect(REAL.session(other.app.log, other.place.stream, other.place.session)?.sets[0]?.effort).toEqual({
      value: 1,
      as: 'left',
    });
  });

  test('equal ones are no question', async () => {
    const { floor, other, set } = await two();
    for (const on of [floor, other])
      await REAL.touchUp(on.app.log, on.place, set, { effort: { value: 2, as: 'left' } });
    await carried(other, floor);
    expect(sessionOf(floor).body[`sets/${set}/effort`]).toHaveLength(2);
    expect(besideIn(sessionOf(floor))).toEqual([]);
  });
});

describe('[M5] recently removed', () => {
  test('a set and a client are listed for thirty days, and come back', async () => {
    const floor = await onFloor(REAL);
    const { app, device, place } = floor;
    const { set, saved } = log(REAL, floor, '100', '5');
    await saved;
    await REAL.removeSet(app.log, place, set);
    const now = device.world.now();
    const [removed] = recentlyRemoved(sessionOf(floor), now);
    expect(removed).toMatchObject({ thing: `sets/${set}`, name: { id: place.session } });
    expect(removed!.by.l).toBe(now);
    expect(recentlyRemoved(sessionOf(floor), now + 29 * DAY)).toHaveLength(1);
    expect(recentlyRemoved(sessionOf(floor), now + 31 * DAY)).toEqual([]);
    // a clock that was ahead when it was removed hides nothing
    expect(recentlyRemoved(sessionOf(floor), now - 900 * DAY)).toHaveLength(1);
    await bringBack(app.log, removed!);
    expect(setsOf(REAL, app, place)).toEqual(['100x5']);
    expect(recentlyRemoved(sessionOf(floor), now)).toEqual([]);
    await REAL.removeClient(app.log, place.stream);
    const client = app.log.get(`${place.stream}/${place.stream}`)!;
    expect(recentlyRemoved(client, now).map(({ thing }) => thing)).toEqual(['']);
  });

  test('what was removed with its session is listed as the session alone', async () => {
    const floor = await onFloor(REAL);
    const { app, device, place } = floor;
    const { set } = log(REAL, floor, '100', '5');
    await REAL.removeSet(app.log, place, set);
    await REAL.removeSession(app.log, place);
    expect(recentlyRemoved(sessionOf(floor), device.world.now()).map(({ thing }) => thing)).toEqual(['']);
  });

  test('a session that is not in memory is read before it is brought back', async () => {
    const floor = await onFloor(REAL);
    const { app, device, place } = floor;
    log(REAL, floor, '100', '5');
    await ended(REAL, floor);
    await REAL.removeSession(app.log, place);
    const [removed] = recentlyRemoved(sessionOf(floor), device.world.now());
    app.kill();
    const next = await launched(REAL, device);
    await turns(40);
    next.log.releaseSession(place.stream, place.session);
    expect(next.log.get(`${place.stream}/${place.session}`)).toBeUndefined();
    expect(await next.run(() => bringBack(next.log, removed!))).toMatchObject({ ok: true });
    expect(setsOf(REAL, next, place)).toEqual(['100x5']);
  });

  test('removed by one and written to by another: it is there, with both told', async () => {
    const { floor, other, set } = await two();
    await REAL.removeSet(floor.app.log, floor.place, set);
    other.device.world.pass(60_000);
    await REAL.touchUp(other.app.log, other.place, set, { form: 'clean' });
    await carried(other, floor);
    expect(setsOf(REAL, floor.app, floor.place)).toEqual(['100x5']);
    expect(recentlyRemoved(sessionOf(floor), floor.device.world.now())).toEqual([]);
    const [both] = removedAndWritten(sessionOf(floor));
    expect(both?.thing).toBe(`sets/${set}`);
    expect(deviceOf(both!.by.writer)).toBe(thisDevice(floor.app.log));
    expect(deviceOf(both!.written.writer)).toBe(thisDevice(other.app.log));
  });
});

describe('[M9] what needs mending', () => {
  test('is named with its path until an ordinary edit mends it', async () => {
    const floor = await onFloor(REAL);
    const { app, place } = floor;
    const { set, saved } = log(REAL, floor, '100', '5');
    await saved;
    expect(needsMending(app.log, sessionOf(floor))).toBeUndefined();
    await REAL.touchUp(app.log, place, set, { reps: 'five' });
    expect(needsMending(app.log, sessionOf(floor))?.faults).toMatchObject([
      { type: 'from-a-newer-app', path: `sets/${set}/reps` },
    ]);
    await REAL.touchUp(app.log, place, set, { reps: 5 });
    expect(needsMending(app.log, sessionOf(floor))).toBeUndefined();
  });

  test('a client without a name needs it, a removed one does not', async () => {
    const floor = await onFloor(REAL);
    const { app, place } = floor;
    const row = () => app.log.get(`${place.stream}/${place.stream}`)!;
    await app.log.commit({ act: { type: 'x' }, rows: [{ name: row(), changes: { alias: 7 } }] });
    expect(needsMending(app.log, row())).toMatchObject({ name: { kind: 'client' }, faults: [] });
    await REAL.removeClient(app.log, place.stream);
    expect(needsMending(app.log, row())).toBeUndefined();
  });
});

describe('names of devices', () => {
  test('lie where every device finds them', async () => {
    const { floor, other } = await two();
    const named = nameDevice(floor.app.log, thisDevice(floor.app.log), ' Gym phone ');
    expect(named.ok && (await named.value).ok).toBe(true);
    await carried(floor, other);
    expect([...deviceNames(other.app.log)]).toEqual([[thisDevice(floor.app.log), 'Gym phone']]);
    expect(thisDevice(other.app.log)).not.toBe(thisDevice(floor.app.log));
  });

  test('may be taken away, and may not be longer than a line', async () => {
    const { app } = await onFloor(REAL);
    for (const name of ['Gym phone', '  ']) nameDevice(app.log, 'abc', name);
    expect(deviceNames(app.log).size).toBe(0);
    expect(nameDevice(app.log, 'abc', 'x'.repeat(41))).toEqual({
      ok: false,
      error: { type: 'too-long', field: 'device', most: 40, has: 41 },
    });
  });
});

describe('going through all rows', () => {
  test('each once, in the newest state, of one stream or of all', async () => {
    const floor = await onFloor(REAL);
    const { app, place } = floor;
    log(REAL, floor, '100', '5');
    await ended(REAL, floor);
    await turns(20);
    app.log.releaseSession(place.stream, place.session);
    const other = await newClient(REAL, floor, 'Client L');
    const seen: Row[] = [];
    expect(await app.run(() => scanRows(app.log, (rows) => void seen.push(...rows)))).toBe(true);
    expect(seen.map(({ stream, id }) => `${stream}/${id}`).sort()).toEqual(
      [`${place.stream}/${place.stream}`, `${place.stream}/${place.session}`, `${other}/${other}`].sort(),
    );
    const own: Row[] = [];
    await app.run(() => scanRows(app.log, (rows) => void own.push(...rows), other));
    expect(own.map(({ id }) => id)).toEqual([other]);
  });

  test('more than one reading holds, and a store that does not answer is told', async () => {
    const floor = await onFloor(REAL);
    const { app, place, device } = floor;
    const prepared = app.run(() => beginImport(app.log));
    const one = sessionOf(floor);
    const end = { end: [{ value: { at: 2e12, day: '2033-05-18', zone: 'UTC' }, stamp: { l: 9, writer: 'o-1' } }] };
    const many = Array.from({ length: 1203 }, (_, n) => ({ ...one, id: `s${n}`, body: { ...one.body, ...end } }));
    await app.run(() => prepared.take(many));
    await app.run(() => prepared.commit());
    const seen = new Set<string>();
    await app.run(() => scanRows(app.log, (rows) => rows.forEach(({ id }) => void seen.add(id)), place.stream));
    expect(seen.size).toBe(1205);
    device.disk.readsFail = true;
    expect(await app.run(() => scanRows(app.log, () => undefined))).toBe(false);
  }, 30_000);
});
