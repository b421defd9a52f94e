import { expect, test } from 'vitest';
import { turns } from './fakes/life';
import { launched, log, onFloor, setsOf } from './floor';
import { REAL } from './room';
import { ended } from './suite-sets';

/** A session that is over and was loaded to be looked at, after a restart. */
async function lookedAt() {
  const floor = await onFloor(REAL);
  await log(REAL, floor, '100', '5').saved;
  await ended(REAL, floor);
  await turns(30);
  floor.app.kill();
  const app = await launched(REAL, floor.device);
  await app.log.loadSession(floor.place.stream, floor.place.session);
  const key = REAL.keyOf({ stream: floor.place.stream, id: floor.place.session });
  const release = (): void => app.log.releaseSession(floor.place.stream, floor.place.session);
  return { ...floor, app, key, release };
}

test('a session that is over, folded and saved is let go of, and can be read again', async () => {
  const { app, place, key, release } = await lookedAt();
  release();
  expect(app.log.get(key)).toBeUndefined();
  await app.log.loadSession(place.stream, place.session);
  expect(setsOf(REAL, app, place)).toEqual(['100x5']);
});

test('a running one stays, and one that is not saved', async () => {
  const { device, app, place, key, release } = await lookedAt();
  device.disk.fate = () => ({ type: 'aborts', error: 'QuotaExceededError' });
  const set = REAL.session(app.log, place.stream, place.session)?.sets[0]?.id ?? '';
  await REAL.touchUp(app.log, place, set, { form: 'clean' });
  release();
  expect(app.log.get(key)).toBeDefined();
  device.disk.fate = undefined;
  await REAL.resumeSession(app.log, place);
  await turns(20);
  release();
  expect(app.log.get(key)).toBeDefined();
});

test('one that another tab handed over and that is not in the store yet stays', async () => {
  const { device, app, place, key, release } = await lookedAt();
  const row = app.log.get(key)!;
  const l = Math.max(...Object.values(row.seen)) + 1;
  const handed = {
    ...row,
    seen: { ...row.seen, 'other-1': l },
    body: { ...row.body, note: [{ value: 'from there', stamp: { l, writer: 'other-1' } }] },
  };
  device.disk.fate = () => ({ type: 'aborts', error: 'QuotaExceededError' });
  new device.tabs.Channel('log').postMessage({ type: 'hand-over', rows: [handed] });
  await turns(20);
  release();
  device.disk.fate = undefined;
  expect(await app.log.retry()).toEqual({ ok: true, value: undefined });
  app.kill();
  const next = await launched(REAL, device);
  await next.log.loadSession(place.stream, place.session);
  expect(REAL.session(next.log, place.stream, place.session)?.note).toBe('from there');
});

test('its acts can still be undone: it is read again first', async () => {
  const { app, release } = await lookedAt();
  expect(app.log.lastAct()?.act.type).toBe('end-session');
  for (let round = 0; round < 2; round += 1) {
    release();
    expect(app.log.undo()).toBeUndefined();
    await turns(20);
    expect(app.log.lastAct()?.act.type).toBe('end-session');
  }
  expect(app.log.undo()).toMatchObject({ act: { type: 'end-session' }, changedSince: 0 });
});
