import { describe, expect, test } from 'vitest';
import { UNDO_KEPT } from '../../src/log/undo';
import { UNDO } from '../../src/log/watch';
import { type App, launch } from './fakes/device';
import { lookInto } from './fakes/disk';
import { turns } from './fakes/life';
import { type launched, log, newClient, newSession, onDisk, onFloor, sessionOnDisk, setsOf } from './floor';
import { REAL } from './room';
import { undoLeavesWhatCameLater, writeElsewhere } from './suite-acts';
import { ended } from './suite-sets';
import { failOnce, relaunched } from './suite-writes';

describe('undo', () => {
  test('a new write, not a rewind: what came later stays and is counted', () => undoLeavesWhatCameLater(REAL));

  test('what was not noted before is not noted again, and acts go back one by one', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    const { set, saved } = log(REAL, floor, '100', '5');
    await saved;
    await REAL.touchUp(app.log, place, set, { form: 'slipping' });
    await REAL.touchUp(app.log, place, set, { form: 'clean' });
    const shown = () => REAL.session(app.log, place.stream, place.session)?.sets[0];
    await app.log.undo()?.saved;
    expect(shown()?.form).toBe('slipping');
    await app.log.undo()?.saved;
    expect(shown()).not.toHaveProperty('form');
    expect(app.log.undo()?.act).toMatchObject({ type: 'log-set' });
    expect(shown()).toBeUndefined();
    await app.log.retry();
    const cleared = (await sessionOnDisk(device, place)).body[`sets/${set}/form`];
    expect(cleared?.map(({ value }) => value)).toEqual([null]);
  });

  test('there is none to undo on a new device', async () => {
    const { app } = await onFloor(REAL);
    for (const type of ['start-session', 'add-client']) expect(app.log.undo()?.act.type).toBe(type);
    expect(app.log.lastAct()).toBeUndefined();
    expect(app.log.undo()).toBeUndefined();
  });

  test('after a restart it goes on where it was, to the act before too', async () => {
    const floor = await onFloor(REAL);
    log(REAL, floor, '100', '5');
    await log(REAL, floor, '105', '3').saved;
    const next = await relaunched(REAL, floor);
    expect(next.log.undo()?.changedSince).toBe(0);
    await next.log.undo()?.saved;
    expect(setsOf(REAL, next, floor.place)).toEqual([]);
    const third = await relaunched(REAL, { ...floor, app: next });
    expect(third.log.lastAct()?.act.type).toBe('start-session');
  });

  test('after a restart the end of a session can be taken back, though only running ones are read at start', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    await ended(REAL, floor);
    await turns(20);
    const next = await relaunched(REAL, floor);
    expect(REAL.sessionsInMemory(next.log), 'a start reads no ended session').toEqual([]);
    await told(next);
    expect(next.log.lastAct()?.act.type).toBe('end-session');
    expect(next.log.undo()).toMatchObject({ act: { type: 'end-session' }, changedSince: 0 });
    await next.log.retry();
    const third = await relaunched(REAL, { ...floor, app: next });
    const [running] = REAL.sessionsInMemory(third.log);
    expect(running?.session.end).toBeUndefined();
    expect(running?.session.sets).toHaveLength(1);
  });

  test('an act whose rows cannot be read yet is not used up', async () => {
    const floor = await onFloor(REAL);
    await ended(REAL, floor);
    await turns(20);
    const next = await relaunched(REAL, floor);
    floor.device.disk.readsFail = true;
    expect(next.log.undo()).toBeUndefined();
    await turns(20);
    floor.device.disk.readsFail = false;
    expect(next.log.undo()).toBeUndefined();
    await turns(20);
    expect(next.log.undo()).toMatchObject({ act: { type: 'end-session' }, changedSince: 0 });
  });

  test('one act over many rows is one undo', async () => {
    const floor = await onFloor(REAL);
    const { device, app } = floor;
    const names = Array.from({ length: 40 }, (_, n) => ({
      stream: 'main',
      id: `imported${n}`,
      kind: n % 2 ? 'cue' : 'exercise',
    }));
    device.disk.asked.length = 0;
    await app.log.commit({
      act: { type: 'import', rows: 40 },
      rows: names.map((name) => ({ name, changes: { words: 'tall', name: 'Lift' }, fresh: true })),
    });
    expect(device.disk.asked.filter(({ mode }) => mode === 'readwrite')).toHaveLength(1);
    const next = await relaunched(REAL, floor);
    expect(next.log.undo()).toMatchObject({ act: { type: 'import', rows: 40 }, changedSince: 0 });
    await next.log.retry();
    const rows = (await onDisk(device, 'rows')).filter(({ id }) => id.startsWith('imported'));
    expect(rows).toHaveLength(40);
    expect(rows.flatMap((row) => Object.values(row.body).map(([shown]) => shown.value))).toEqual(Array(80).fill(null));
    expect(next.log.lastAct()?.act.type).toBe('start-session');
  });

  test(`the last ${UNDO_KEPT} acts are kept, older ones go`, async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    const { set } = log(REAL, floor, '100', '5');
    for (let n = 0; n < UNDO_KEPT + 15; n += 1) void REAL.touchUp(app.log, place, set, { note: `note ${n}` });
    await app.log.retry();
    expect(await lookInto(device.disk, 'log', 'undo')).toHaveLength(UNDO_KEPT);
    const next = await relaunched(REAL, floor);
    let undone = 0;
    while (next.log.undo()) undone += 1;
    expect(undone).toBe(UNDO_KEPT);
    expect(REAL.session(next.log, place.stream, place.session)?.sets[0]?.note).toBe('note 14');
    await next.log.retry();
    expect(await lookInto(device.disk, 'log', 'undo')).toEqual([]);
  });

  test('undo of a removal brings everything back', async () => {
    const floor = await onFloor(REAL);
    const { app, place } = floor;
    const { set } = log(REAL, floor, '100', '5');
    log(REAL, floor, '105', '3');
    await REAL.removeSet(app.log, place, set);
    expect(setsOf(REAL, app, place)).toEqual(['105x3']);
    app.log.undo();
    expect(setsOf(REAL, app, place)).toEqual(['100x5', '105x3']);
    await REAL.removeSession(app.log, place);
    expect(REAL.session(app.log, place.stream, place.session)).toBeUndefined();
    await app.log.undo()?.saved;
    expect(setsOf(REAL, await relaunched(REAL, floor), place)).toEqual(['100x5', '105x3']);
  });
});

describe('undo in a row', () => {
  test.each(Array.from({ length: 20 }, (_, seed) => seed))(
    'each undo brings back what the act before it had left, seed %i',
    async (seed) => {
      const floor = { ...(await onFloor(REAL, seed)) };
      const { device, place } = floor;
      const { pick } = device.world;
      const noted = (): string => {
        const values = REAL.session(floor.app.log, place.stream, place.session);
        return JSON.stringify([values?.sets, values?.end, values?.note, values?.effort]);
      };
      const states = [noted()];
      const sets: string[] = [];
      for (let act = 0; act < 14; act += 1) {
        const set = sets[pick(Math.max(1, sets.length))];
        const there = REAL.session(floor.app.log, place.stream, place.session)?.sets.some(({ id }) => id === set);
        const what = there ? pick(7) : 0;
        if (what <= 1 || !set) sets.push(log(REAL, floor, String(60 + act), '5').set);
        else if (what <= 4)
          await REAL.touchUp(floor.app.log, place, set, {
            effort: { value: pick(6), as: 'left' },
            form: pick(2) ? 'clean' : null,
          });
        else if (what === 5) await REAL.removeSet(floor.app.log, place, set);
        else await ended(REAL, floor);
        states.push(noted());
      }
      await turns(20);
      for (let left = states.length - 2; left >= 0; left -= 1) {
        if (pick(4) === 0) {
          await floor.app.log.retry();
          floor.app = await relaunched(REAL, floor);
          if (!floor.app.log.lastAct()) await told(floor.app);
        }
        expect(floor.app.log.undo()?.changedSince).toBe(0);
        expect(noted()).toBe(states[left]);
      }
    },
  );

  test('what another device wrote between two acts is not rewound by the older one', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    const { set } = log(REAL, floor, '100', '5');
    const form = () => REAL.session(app.log, place.stream, place.session)?.sets[0]?.form;
    await REAL.touchUp(app.log, place, set, { form: 'clean' });
    await writeElsewhere(device, place.session, { [`sets/${set}/form`]: 'slipping' });
    await app.log.refresh();
    await REAL.touchUp(app.log, place, set, { form: 'clean' });
    expect(app.log.undo()?.changedSince).toBe(0);
    expect(form()).toBe('slipping');
    expect(app.log.undo()?.changedSince).toBe(1);
    expect(form()).toBe('slipping');
  });
});

describe('undo entries that wait while the log is read again', () => {
  test('an act that could not be saved can still be taken back after the app was in the background', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    failOnce(device, { type: 'aborts', error: 'QuotaExceededError' });
    await log(REAL, floor, '100', '5').saved;
    await app.log.refresh();
    expect(app.log.lastAct()?.act.type).toBe('log-set');
    // and the act after it does not take its place
    await log(REAL, floor, '105', '3').saved;
    const next = await relaunched(REAL, floor);
    next.log.undo();
    expect(setsOf(REAL, next, place)).toEqual(['100x5']);
    next.log.undo();
    expect(setsOf(REAL, next, place)).toEqual([]);
  });

  test('what an undo could not take off the store does not come back', async () => {
    const floor = await onFloor(REAL);
    const { device, app, place } = floor;
    await log(REAL, floor, '100', '5').saved;
    failOnce(device, { type: 'aborts', error: 'QuotaExceededError' });
    await app.log.undo()?.saved;
    await app.log.refresh();
    expect(app.log.lastAct()?.act.type).toBe('start-session');
    expect(setsOf(REAL, app, place)).toEqual([]);
  });

  test('an act before the log is open takes no stored act its place, and is undone first', async () => {
    const floor = await onFloor(REAL);
    await log(REAL, floor, '100', '5').saved;
    floor.app.kill();
    const next = await openingWith(floor.device, (app) =>
      REAL.saveClient(app.log, { alias: 'Client N', short: '', dayName: '', day: '' }, floor.device.world),
    );
    await next.log.retry();
    const types: string[] = [];
    for (let undone = next.log.undo(); undone; undone = next.log.undo()) types.push(undone.act.type);
    expect(types).toEqual(['add-client', 'log-set', 'start-session', 'add-client']);
  });

  test('a session started before the log is open leaves the running ones on the list', async () => {
    const floor = await onFloor(REAL);
    const { device, place } = floor;
    await log(REAL, floor, '100', '5').saved;
    const other = await newClient(REAL, floor, 'Client M');
    floor.app.kill();
    const next = await openingWith(device, (app) => void newSession(REAL, { device, app }, other));
    await next.log.retry();
    await turns(20);
    const third = await relaunched(REAL, { ...floor, app: next });
    expect(
      REAL.sessionsInMemory(third.log)
        .map(({ stream }) => stream)
        .toSorted(),
    ).toEqual([place.stream, other].toSorted());
  });
});

/** Launches the app and does something at once, before it is open. */
async function openingWith(device: Parameters<typeof launched>[1], act: (app: App) => unknown): Promise<App> {
  const app = launch(device, REAL.startLog);
  act(app);
  expect(app.log.status().phase).toBe('opening');
  await app.log.ready;
  return app;
}

/** Asks for the last act and waits until the log says that it is known. */
async function told(app: App): Promise<void> {
  await new Promise<void>((resolve) => {
    app.log.watch([UNDO], resolve);
    if (app.log.lastAct()) resolve();
  });
}
