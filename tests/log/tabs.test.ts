import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type App, type Device, launch } from './fakes/device';
import { turns } from './fakes/life';
import { launched, log, onFloor, opened, setsOf } from './floor';
import { REAL } from './room';
import { ended } from './suite-sets';
import { afterwards, handedOver, nothingOldOver, take, thawedIsPutRight, twoTabs } from './suite-tabs';
import { failOnce } from './suite-writes';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
});

const writesOf = (device: Device, app: App): number =>
  device.disk.asked.filter(({ life, mode }) => life === app.life && mode === 'readwrite').length;

describe('two tabs', () => {
  test('the second follows: it shows what the first saves and writes nothing', async () => {
    const { device, app, place, other } = await twoTabs(REAL);
    expect([app.log.status().seat, other.log.status().seat]).toEqual(['writer', 'follower']);
    expect(setsOf(REAL, other, place)).toEqual(['100x5']);
    await log(REAL, { device, app, place }, '105', '3').saved;
    await turns(30);
    expect(setsOf(REAL, other, place)).toEqual(['100x5', '105x3']);
    other.log.setDraft('pad/a/b', { load: '1' });
    other.log.flush();
    await vi.advanceTimersByTimeAsync(2000);
    await turns(20);
    expect(writesOf(device, other)).toBe(0);
    expect(other.log.status()).toMatchObject({ unsaved: 0, saveFault: null });
  });

  test('what is done in a follower is told not to be saved, and is saved once it has the seat', async () => {
    const { device, app, place, other } = await twoTabs(REAL);
    const logged = log(REAL, { device, app: other, place }, '105', '3');
    expect(await logged.saved).toEqual({ ok: false, error: { type: 'not-the-writer' } });
    expect(other.log.status().unsaved).toBe(1);
    expect(writesOf(device, other)).toBe(0);
    await take(other);
    expect(other.log.status()).toMatchObject({ seat: 'writer', unsaved: 0 });
    expect(await afterwards(REAL, device, place, [app, other])).toEqual(['100x5', '105x3']);
  });

  test('asked, the first finishes what it writes, lets go and follows', async () => {
    const { device, app, place, other } = await twoTabs(REAL);
    const last = log(REAL, { device, app, place }, '105', '3');
    app.log.setDraft(REAL.padDraft(place), { load: '110' });
    const taken = other.log.takeSeat();
    await turns(60);
    await taken;
    expect(await last.saved).toEqual({ ok: true, value: undefined });
    expect([app.log.status().seat, other.log.status().seat]).toEqual(['follower', 'writer']);
    expect(other.log.draft(REAL.padDraft(place))).toEqual({ load: '110' });
    expect(setsOf(REAL, other, place)).toEqual(['100x5', '105x3']);
    await log(REAL, { device, app: other, place }, '110', '1').saved;
    await turns(30);
    expect(setsOf(REAL, app, place)).toEqual(['100x5', '105x3', '110x1']);
    expect(app.log.draft(REAL.padDraft(place)), 'logged in the other tab').toBeUndefined();
    await take(app);
    await log(REAL, { device, app, place }, '115', '1').saved;
    expect(await afterwards(REAL, device, place, [app, other])).toEqual(['100x5', '105x3', '110x1', '115x1']);
  });

  test('the seat of a closed tab is free', async () => {
    const { device, app, place, other } = await twoTabs(REAL);
    app.kill();
    await turns(10);
    const taken = other.log.takeSeat();
    await turns(40);
    await taken;
    expect(other.log.status().seat).toBe('writer');
    await log(REAL, { device, app: other, place }, '105', '3').saved;
    expect(await afterwards(REAL, device, place, [other])).toEqual(['100x5', '105x3']);
  });

  test('last time is that of the tab that writes now', async () => {
    const { device, app, place, other } = await twoTabs(REAL);
    other.log.lastTimes(place.stream, 'lib-back-squat', '');
    await turns(20);
    await ended(REAL, { device, app, place });
    await turns(40);
    await REAL.removeSession(app.log, place);
    await turns(40);
    await take(other);
    other.log.lastTimes(place.stream, 'lib-back-squat', '');
    await turns(20);
    expect(other.log.lastTimes(place.stream, 'lib-back-squat', '')).toEqual([]);
  });

  test('without locks there is no telling, and each tab writes', async () => {
    const floor = await onFloor(REAL);
    floor.device.lacks.add('locks');
    floor.app.kill();
    const app = await launched(REAL, floor.device);
    expect(app.log.status().seat).toBe('writer');
    await log(REAL, { ...floor, app }, '100', '5').saved;
    expect(await afterwards(REAL, floor.device, floor.place, [app])).toEqual(['100x5']);
  });
});

describe('no set is lost between tabs', () => {
  // 0: a message comes before the lock does; 9: long after
  test.each([0, 1, 4, 9])('what could not be saved is handed over, messages taking %i turns', (delay) =>
    handedOver(REAL, delay),
  );

  test('a frozen tab keeps the seat for a second, then it is taken', async () => {
    const { device, app, place, other } = await twoTabs(REAL);
    app.freeze();
    const taken = other.log.takeSeat();
    await turns(30);
    await vi.advanceTimersByTimeAsync(900);
    await turns(30);
    expect(other.log.status().seat).toBe('follower');
    await vi.advanceTimersByTimeAsync(100);
    await turns(30);
    await taken;
    expect(other.log.status().seat).toBe('writer');
    await log(REAL, { device, app: other, place }, '105', '3').saved;
    app.thaw();
    await turns(40);
    expect(app.log.status().seat).toBe('follower');
    expect(await afterwards(REAL, device, place, [app, other])).toEqual(['100x5', '105x3']);
  });

  test('what a frozen tab had not saved is handed over when it thaws, and merged', async () => {
    const { device, app, place, other } = await twoTabs(REAL);
    failOnce(device, { type: 'aborts', error: 'QuotaExceededError' });
    await log(REAL, { device, app, place }, '105', '3').saved;
    app.freeze();
    await take(other);
    await log(REAL, { device, app: other, place }, '110', '1').saved;
    app.thaw();
    await turns(60);
    expect(setsOf(REAL, other, place)).toEqual(['100x5', '105x3', '110x1']);
    expect(setsOf(REAL, app, place)).toEqual(['100x5', '105x3', '110x1']);
    expect([app.log.status().unsaved, other.log.status().unsaved]).toEqual([0, 0]);
    expect(await afterwards(REAL, device, place, [app, other])).toEqual(['100x5', '105x3', '110x1']);
  });

  test.each([0, 1, 2, 3, 4, 5, 6, 7])(
    'frozen between two writes, after %i turns, it thaws, writes its old row and is put right',
    async (turn) => {
      for (const lossDelay of [0, 15]) await thawedIsPutRight(REAL, turn, lossDelay);
    },
  );

  test('a tab that lost the seat later writes nothing old over what came since', () => nothingOldOver(REAL));

  test('what is done in a second tab before it knows that it follows is saved by the first', async () => {
    const { device, app, place } = await twoTabs(REAL);
    const third = launch(device, REAL.startLog);
    const added = REAL.saveClient(third.log, { alias: 'Client N', short: '', dayName: '', day: '' }, device.world);
    await opened(third);
    await turns(40);
    expect(added.ok && (await added.value.saved)).toEqual({ ok: false, error: { type: 'not-the-writer' } });
    expect(app.log.ofKind('client')).toHaveLength(2);
    expect(third.log.status()).toMatchObject({ seat: 'follower', unsaved: 0 });
    third.kill();
    await afterwards(REAL, device, place, [app]);
  });

  test('a row that is none is not taken from another tab', async () => {
    const { device, app, place } = await twoTabs(REAL);
    const channel = new device.tabs.Channel('log');
    const row = { id: 'x', kind: 'client', stream: 'x', seen: { w: 2 ** 60 }, body: {} };
    channel.postMessage({ type: 'hand-over', rows: [row, null, { ...row, seen: {}, body: { '../up': [] } }] });
    await turns(20);
    expect(app.log.ofKind('client')).toHaveLength(1);
    expect(setsOf(REAL, app, place)).toEqual(['100x5']);
  });
});
