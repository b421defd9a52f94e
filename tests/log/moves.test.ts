import { describe, expect, test } from 'vitest';
import { valueAt } from '../../src/merge/row';
import { turns } from './fakes/life';
import { entry, log, newClient, newSession, onFloor, SQUAT, sessionOnDisk, setsOf } from './floor';
import { REAL } from './room';
import { moveIsOneAct } from './suite-acts';
import { relaunched } from './suite-writes';

async function twoClients() {
  const floor = await onFloor(REAL);
  const to = await newSession(REAL, floor, await newClient(REAL, floor, 'Client M'));
  return { ...floor, floor, to };
}

describe('[M12] moving a set to another client', () => {
  test('killed at any moment, it is in one session or the other', async () => {
    const found: string[] = [];
    for (let turn = 0; turn <= 12; turn += 1) {
      for (const steps of [0, 2, 5])
        found.push(await moveIsOneAct(REAL, { turns: turn, steps, lands: steps === 2 }, turn));
    }
    expect(new Set(found)).toEqual(new Set(['here', 'there']));
  });

  test('all that is noted goes along, the time too, and the old row says where', async () => {
    const { device, app, place, floor, to } = await twoClients();
    const drop = entry('100', '5', { kind: 'drop', parts: [entry('80', '8')] });
    const logged = REAL.logSet(app.log, place, drop, SQUAT, device.world);
    if (!logged.ok) throw new Error(logged.error.type);
    const { set } = logged.value;
    REAL.noteSet(app.log, place, set, 'deep');
    void REAL.touchUp(app.log, place, set, {
      effort: { value: 1, as: 'left' },
      'cues/c1': { cue: 'x1', answer: 'better' },
    });
    const before = REAL.session(app.log, place.stream, place.session)?.sets[0];
    device.world.pass(600_000);
    await REAL.moveSet(app.log, place, set, to, device.world);

    const next = await relaunched(REAL, floor);
    const [moved] = REAL.session(next.log, to.stream, to.session)?.sets ?? [];
    expect({ ...moved, id: set }).toEqual(before);
    expect(moved?.at?.at).toBe(before?.at?.at);
    expect(setsOf(REAL, next, place)).toEqual([]);
    const old = await sessionOnDisk(device, place);
    expect(valueAt(old, `sets/${set}/movedTo`)).toEqual({ stream: to.stream, session: to.session, set: moved?.id });
    const left = Object.keys(old.body).filter((path) => path.startsWith(`sets/${set}/`) && !path.endsWith('/movedTo'));
    expect(left.map((path) => valueAt(old, path))).toEqual(left.map(() => null));
    expect(left.length).toBeGreaterThan(8);
  });

  test('undo puts it back in both, after a restart too', async () => {
    const { device, app, place, floor, to } = await twoClients();
    log(REAL, floor, '105', '3');
    const { set } = log(REAL, floor, '100', '5');
    await REAL.moveSet(app.log, place, set, to, device.world);
    expect([setsOf(REAL, app, place), setsOf(REAL, app, to)]).toEqual([['105x3'], ['100x5']]);
    const next = await relaunched(REAL, floor);
    expect(next.log.undo()).toMatchObject({ act: { type: 'move-set' }, changedSince: 0 });
    await next.log.retry();
    const third = await relaunched(REAL, { ...floor, app: next });
    expect([setsOf(REAL, third, place), setsOf(REAL, third, to)]).toEqual([['105x3', '100x5'], []]);
  });

  test('what is touched up after the move stays where it went when the move is undone', async () => {
    const { device, app, place, floor, to } = await twoClients();
    const { set } = log(REAL, floor, '100', '5');
    await REAL.moveSet(app.log, place, set, to, device.world);
    const moved = REAL.session(app.log, to.stream, to.session)?.sets[0]?.id ?? '';
    await REAL.touchUp(app.log, to, moved, { form: 'clean' });
    await app.log.undo()?.saved;
    await app.log.undo()?.saved;
    await turns(5);
    expect([setsOf(REAL, app, place), setsOf(REAL, app, to)]).toEqual([['100x5'], []]);
  });
});
