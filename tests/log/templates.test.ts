import { describe, expect, test } from 'vitest';
import { plannedSessionId } from '../../src/domain/ids';
import { turns } from './fakes/life';
import { entry, log, onDisk, onFloor, ROW, SQUAT, setsOf } from './floor';
import { good, missingIn, newBlock, sessionAt, stations } from './gym';
import { REAL } from './room';
import { atOf } from './suite-floor';
import { DAY, lastTimes, nextDay, trained } from './suite-series';
import { ended } from './suite-sets';
import { relaunched } from './suite-writes';

describe('a template', () => {
  test.each([
    ['  ', { type: 'empty', field: 'name' }],
    ['x'.repeat(41), { type: 'too-long', field: 'name', most: 40, has: 41 }],
  ])('named %j is refused by its field', async (name, error) => {
    const floor = await onFloor(REAL);
    const at = atOf(floor);
    expect(REAL.keepTemplate(at.log, at.place, name, [], at.world)).toEqual({ ok: false, error });
    await turns(20);
    expect(REAL.templates(at.log, at.place.stream)).toEqual([]);
    expect((await onDisk(floor.device, 'rows')).filter(({ kind }) => kind === 'template')).toEqual([]);
  });

  test('keeps what was done as what to begin with, the sets of each side, and nothing that was seen', async () => {
    const floor = await onFloor(REAL);
    const at = atOf(floor);
    for (const load of ['100', '105']) log(REAL, floor, load, '5');
    for (const side of ['left', 'right', 'left', 'right'] as const) {
      const typed = entry('22', '8', { exercise: ROW.id, side });
      const { set } = good(REAL.logSet(at.log, at.place, typed, ROW, at.world));
      await REAL.touchUp(at.log, at.place, set, { form: 'clean', pain: { value: 2 } });
      at.world.pass(60_000);
    }
    await REAL.tellArrival(at.log, at.place, 'sleep', 2);
    const { id, saved } = good(REAL.keepTemplate(at.log, at.place, ' Tuesday ', ['thu', 'tue'], at.world));
    await saved;
    expect(REAL.templates(at.log, at.place.stream)).toEqual([{ id, name: 'Tuesday', days: ['tue', 'thu'] }]);
    const started = await REAL.startFromTemplate(at.log, at.place.stream, id, at.world);
    const read = sessionAt(REAL, { ...at, place: started });
    expect(read.items.map(({ id: exercise, plan }) => ({ exercise, plan }))).toEqual([
      { exercise: SQUAT.id, plan: { load: '105', unit: 'kg', reps: '5', sets: 2 } },
      { exercise: ROW.id, plan: { load: '22', unit: 'kg', reps: '8', sets: 2 } },
    ]);
    expect([read.sets, read.arrival.items]).toEqual([[], {}]);
  });

  test('of a session with a removed block keeps its sets’ exercises behind the blocks that are left', async () => {
    const at = atOf(await onFloor(REAL));
    const gone = await newBlock(REAL, at, {}, stations('lib-push-up'));
    await newBlock(REAL, at, {}, stations('lib-calf-raise'));
    await good(REAL.logCells(at.log, at.place, missingIn(REAL, at, gone.id), at.world));
    await REAL.removeThing(at.log, at.place, { type: 'block', id: gone.id });
    const { id, saved } = good(REAL.keepTemplate(at.log, at.place, 'Rest', [], at.world));
    await saved;
    const started = await REAL.startFromTemplate(at.log, at.place.stream, id, at.world);
    const { items, blocks } = sessionAt(REAL, { ...at, place: started });
    expect(items).toMatchObject([{ id: 'lib-push-up', plan: { reps: '8', sets: 3 } }]);
    expect((items[0]?.order ?? '') > (blocks[0]?.order ?? '')).toBe(true);
  });

  test('of more sets than a plan holds, the plan is still read', async () => {
    const floor = await onFloor(REAL);
    const at = atOf(floor);
    for (let n = 0; n < 61; n += 1) log(REAL, floor, '20', '10');
    const { id, saved } = good(REAL.keepTemplate(at.log, at.place, 'Many', [], at.world));
    await saved;
    const started = await REAL.startFromTemplate(at.log, at.place.stream, id, at.world);
    const { items, unread } = sessionAt(REAL, { ...at, place: started });
    expect(unread).toEqual([]);
    expect(items).toMatchObject([{ plan: { load: '20', reps: '10', sets: 50 } }]);
  });

  test('started while the store cannot be read writes over no session of the same day', async () => {
    const floor = await onFloor(REAL);
    const at = atOf(floor);
    const { stream } = at.place;
    await REAL.listExercise(at.log, at.place, SQUAT.id, at.world);
    const { id, saved } = good(REAL.keepTemplate(at.log, at.place, 'Legs', [], at.world));
    await saved;
    const first = await REAL.startFromTemplate(at.log, stream, id, at.world);
    expect(first.session).toBe(plannedSessionId(stream, id, '2026-03-03', 1));
    log(REAL, { ...floor, place: first }, '100', '5');
    await ended(REAL, { ...floor, place: first });
    await turns(30);
    const next = await relaunched(REAL, floor);
    floor.device.disk.readsFail = true;
    const second = await REAL.startFromTemplate(next.log, stream, id, at.world).catch(() => undefined);
    await turns(30);
    floor.device.disk.readsFail = false;
    await next.log.retry();
    const third = await relaunched(REAL, { ...floor, app: next });
    await third.log.loadSession(stream, first.session);
    expect(setsOf(REAL, third, first), 'what was trained in the morning').toEqual(['100x5']);
    if (second) expect(second.session).not.toBe(first.session);
  });
});

describe('the last session again', () => {
  test('is its list and what was done; there is none before the first', async () => {
    const first = await onFloor(REAL);
    const { stream } = first.place;
    await lastTimes(first.app, stream, '');
    expect(await REAL.repeatLast(first.app.log, first.place, first.device.world)).toBe(false);
    const block = await newBlock(REAL, atOf(first), { rounds: '2' }, stations('lib-push-up'));
    await trained(REAL, first, [['100', '5']]);
    const second = await nextDay(REAL, first);
    await lastTimes(second.app, stream, '');
    expect(await REAL.repeatLast(second.app.log, second.place, second.device.world)).toBe(true);
    const read = sessionAt(REAL, atOf(second));
    expect(read.items).toMatchObject([{ id: SQUAT.id, plan: { load: '100', unit: 'kg', reps: '5', sets: 1 } }]);
    expect(read.blocks).toEqual([expect.objectContaining({ id: block.id, rounds: 2 })]);
    expect(read.sets).toEqual([]);
    await second.app.log.undo()?.saved;
    expect(sessionAt(REAL, atOf(second)).items).toEqual([]);
  });

  test('is the one before a session that did not happen', async () => {
    const first = await onFloor(REAL);
    const { device, app, place } = first;
    await trained(REAL, first, [['100', '5']]);
    await good(REAL.noteMissedSession(app.log, place.stream, 'no-show', '', device.world));
    await turns(30);
    device.world.pass(DAY);
    const third = await nextDay(REAL, first);
    await lastTimes(app, place.stream, '');
    expect(await REAL.repeatLast(app.log, third.place, device.world)).toBe(true);
    expect(sessionAt(REAL, atOf(third)).items.map(({ id }) => id)).toEqual([SQUAT.id]);
  });
});

describe('a session like another one', () => {
  test('starts in one act with what was done as what to begin with; undo takes the whole start back', async () => {
    const first = await onFloor(REAL);
    const { app, device, place } = first;
    await trained(REAL, first, [['100', '5']]);
    await turns(20);
    device.world.pass(DAY);
    const started = await REAL.startLike(app.log, place.stream, place.session, device.world);
    await started.saved;
    const read = sessionAt(REAL, { ...atOf(first), place: started });
    expect(read.items).toMatchObject([{ id: SQUAT.id, plan: { load: '100', unit: 'kg', reps: '5', sets: 1 } }]);
    expect(read.sets).toEqual([]);
    await app.log.undo()?.saved;
    expect(REAL.session(app.log, place.stream, started.session)).toBeUndefined();
  });

  test('starts empty where the other one is not there any more', async () => {
    const { app, device, place } = await onFloor(REAL);
    const started = await REAL.startLike(app.log, place.stream, 'gonegonegonegone', device.world);
    await started.saved;
    expect(REAL.session(app.log, place.stream, started.session)?.items).toEqual([]);
  });

  test('what was done in the last sessions is known without reading them', async () => {
    const first = await onFloor(REAL);
    await trained(REAL, first, [['100', '5']]);
    await lastTimes(first.app, first.place.stream, '');
    const [last] = first.app.log.lastTimes(first.place.stream, '', '') ?? [];
    expect(last).toMatchObject({ session: first.place.session, exercises: [SQUAT.id], sets: [] });
  });
});
