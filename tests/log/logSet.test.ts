import { describe, expect, test } from 'vitest';
import { SETS_A_ROW } from '../../src/domain/session';
import { valueAt } from '../../src/merge/row';
import { NO_SET_UP } from '../domain/made';
import { turns } from './fakes/life';
import { createWorld } from './fakes/world';
import { entry, launched, log, onDisk, onFloor, PULL, ROW, SQUAT, sessionOnDisk, setsOf } from './floor';
import { REAL } from './room';
import {
  allOrNothing,
  type Found,
  type Kill,
  oneStrictTransaction,
  savedIsOnDisk,
  unknownSurvives,
} from './suite-sets';

describe('one tap on Log', { timeout: 30_000 }, () => {
  test('a set told to be saved is there in a new launch, with its undo entry and no draft', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    app.log.setDraft(REAL.padDraft(place), { load: '100' });
    const logged = log(REAL, floor, '100', '5');
    expect(app.log.draft(REAL.padDraft(place))).toBeUndefined();
    expect(setsOf(REAL, app, place), 'shown at once').toEqual(['100x5']);
    expect(await logged.saved).toEqual({ ok: true, value: undefined });
    app.kill();

    const next = await launched(REAL, device);
    expect(setsOf(REAL, next, place)).toEqual(['100x5']);
    expect(next.log.lastAct()?.act).toEqual({ type: 'log-set', stream: place.stream, exercise: SQUAT.id });
    expect(next.log.draft(REAL.padDraft(place))).toBeUndefined();
    expect(next.log.status()).toMatchObject({ phase: 'open', unsaved: 0, saveFault: null, wiped: false });
  });

  test('a kill at any moment leaves all of the act or none of it', async () => {
    const moments: Kill[] = [];
    for (let turn = 0; turn <= 16; turn += 1) {
      for (const steps of [0, 1, 2, 3, 5, 8]) moments.push({ turns: turn, steps, lands: steps % 2 === 1 });
    }
    const found = new Map<Found, number>();
    for (const [index, moment] of moments.entries()) {
      const one = await allOrNothing(REAL, moment, index);
      found.set(one, (found.get(one) ?? 0) + 1);
    }
    const world = createWorld(20_260_303);
    for (let i = 0; i < 120; i += 1) {
      const moment = { turns: world.pick(10), steps: world.pick(12), lands: world.pick(2) === 0 };
      const one = await allOrNothing(REAL, moment, 1000 + i);
      found.set(one, (found.get(one) ?? 0) + 1);
    }
    // kills that all fell before, or all after, would have shown nothing
    for (const kind of ['nothing', 'all', 'all-and-told'] as const) expect(found.get(kind)).toBeGreaterThan(5);
  });

  test('a set is not told to be saved before its transaction is complete', () => savedIsOnDisk(REAL));
  test('one strict transaction with no read, committed explicitly', () => oneStrictTransaction(REAL));
  test('[M8] unknown paths and kinds survive every act byte for byte', () => unknownSurvives(REAL));

  test('what nobody observed gets no register', async () => {
    const floor = await onFloor(REAL);
    const { set, saved } = log(REAL, floor, '100', '5');
    await saved;
    const paths = Object.keys((await sessionOnDisk(floor.device, floor.place)).body).filter((path) =>
      path.startsWith('sets/'),
    );
    const own = ['at', 'exercise', 'kind', 'load', 'reps'].map((path) => `sets/${set}/${path}`);
    expect(paths.toSorted()).toEqual(own);
  });

  test('the instant is now, with its day in the zone of the device', async () => {
    const floor = await onFloor(REAL);
    // half past eleven in the evening at Greenwich is tomorrow in Vienna
    floor.device.world.pass(5.5 * 3_600_000);
    const { set, saved } = log(REAL, floor, '100', '5');
    await saved;
    expect(valueAt(await sessionOnDisk(floor.device, floor.place), `sets/${set}/at`)).toEqual({
      at: Date.parse('2026-03-03T23:30:00Z'),
      day: '2026-03-04',
      zone: 'Europe/Vienna',
    });
  });

  test.each([
    ['no reps', entry('100', ''), SQUAT, { type: 'empty', field: 'reps' }],
    ['a word for a load', entry('heavy', '5'), SQUAT, { type: 'not-a-number', field: 'load', text: 'heavy' }],
    ['a load no one lifts', entry('601', '5'), SQUAT, { type: 'out-of-range', field: 'load' }],
    ['half a repetition', entry('100', '4.5'), SQUAT, { type: 'off-step', field: 'reps' }],
    ['no side where each counts', entry('30', '8'), ROW, { type: 'no-side', field: 'side' }],
    ['a drop set of one part', entry('100', '5', { kind: 'drop' }), SQUAT, { type: 'parts-missing', field: 'parts' }],
    [
      'a bad later part',
      entry('100', '5', { kind: 'drop', parts: [entry('80', 'x')] }),
      SQUAT,
      { field: 'reps', part: 2 },
    ],
  ])('%s stores nothing and leaves the draft', async (_what, typed, exercise, fault) => {
    const { device, app, place } = await onFloor(REAL);
    const draft = { load: typed.load, reps: typed.reps };
    app.log.setDraft(REAL.padDraft(place), draft);
    app.log.flush();
    await app.log.retry();
    const before = await sessionOnDisk(device, place);
    const last = app.log.lastAct();
    device.disk.asked.length = 0;

    expect(REAL.logSet(app.log, place, typed, exercise, device.world)).toMatchObject({ ok: false, error: fault });
    await turns(20);
    expect(device.disk.asked).toEqual([]);
    expect(await sessionOnDisk(device, place)).toEqual(before);
    expect(app.log.draft(REAL.padDraft(place))).toEqual(draft);
    expect(app.log.lastAct()).toBe(last);
  });

  test('parts, body mass and load taken off are kept as they were typed', async () => {
    const { device, app, place } = await onFloor(REAL);
    const drop = entry('100', '5', {
      kind: 'drop',
      parts: [entry('80', '8'), entry('60', '12')],
      setUp: { ...NO_SET_UP, setUp: ' pins at 4 ' },
    });
    const pull = entry('45', '6', { exercise: PULL.id, body: 'assist', unit: 'lb' });
    for (const [typed, exercise] of [
      [drop, SQUAT],
      [pull, PULL],
    ] as const) {
      const logged = REAL.logSet(app.log, place, typed, exercise, device.world);
      if (logged.ok) await logged.value.saved;
      device.world.pass(60_000);
    }
    app.kill();
    const next = await launched(REAL, device);
    const [first, second] = REAL.session(next.log, place.stream, place.session)?.sets ?? [];
    expect(first).toMatchObject({
      kind: 'drop',
      setUp: 'pins at 4',
      load: { value: 100, unit: 'kg' },
      reps: 5,
      unread: [],
    });
    expect(first?.parts.map(({ load, reps }) => [load?.value, reps])).toEqual([
      [80, 8],
      [60, 12],
    ]);
    expect(second).toMatchObject({ assist: { value: 45, unit: 'lb' }, reps: 6, unread: [] });
    expect(second).not.toHaveProperty('load');
  });
});

describe('a session of more than 300 sets', { timeout: 30_000 }, () => {
  async function full() {
    const floor = await onFloor(REAL);
    for (let n = 1; n <= SETS_A_ROW; n += 1) log(REAL, floor, '50', String(n));
    await floor.app.log.retry();
    return floor;
  }

  test('the 301st goes to a continuation, and the session reads as one', async () => {
    const floor = await full();
    const { device, app, place } = floor;
    const next = log(REAL, floor, '50', '301');
    expect(next).toMatchObject({ continued: true, row: `${place.stream}/${place.session}-2` });
    const after = log(REAL, floor, '50', '302');
    expect(after).toMatchObject({ continued: false, row: next.row });
    await after.saved;
    app.kill();

    const rows = await onDisk(device, 'sessions');
    expect(rows.map((row) => [row.id, valueAt(row, 'of')])).toEqual([
      [place.session, undefined],
      [`${place.session}-2`, place.session],
    ]);
    const reader = await launched(REAL, device);
    const reps = REAL.session(reader.log, place.stream, place.session)?.sets.map((set) => set.reps);
    expect(reps).toEqual(Array.from({ length: 302 }, (_, index) => index + 1));
    expect(REAL.sessionsInMemory(reader.log)).toHaveLength(1);
  });

  test('a continuation whose first set was undone still belongs to its session', async () => {
    const floor = await full();
    const { device, app, place } = floor;
    log(REAL, floor, '50', '301');
    await app.log.undo()?.saved;
    await log(REAL, floor, '60', '77').saved;
    app.kill();
    const next = await launched(REAL, device);
    expect(REAL.sessionsInMemory(next.log).map(({ session }) => session.id)).toEqual([place.session]);
    expect(setsOf(REAL, next, place).at(-1)).toBe('60x77');
    expect((await onDisk(device, 'sessions')).map((row) => valueAt(row, 'of'))).toEqual([undefined, place.session]);
  });

  test('a ramp that would not fit goes whole to the continuation', async () => {
    const floor = await full();
    const { device, app, place } = floor;
    const steps = ['20', '40', '60'].map((load) => entry(load, '5', { kind: 'warm-up' }));
    const ramp = REAL.logRamp(app.log, place, steps, entry('80', '5'), SQUAT, device.world);
    if (!ramp.ok) throw new Error(ramp.error.type);
    await ramp.value;
    expect(app.log.draft(REAL.padDraft(place))).toMatchObject({ load: '80', kind: 'working' });
    expect(setsOf(REAL, app, place).slice(SETS_A_ROW)).toEqual(['20x5', '40x5', '60x5']);
    expect(app.log.undo()?.changedSince).toBe(0);
    expect(setsOf(REAL, app, place)).toHaveLength(SETS_A_ROW);
  });
});
