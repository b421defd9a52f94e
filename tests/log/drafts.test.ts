import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { launch } from './fakes/device';
import { lookInto } from './fakes/disk';
import { turns } from './fakes/life';
import { launched, log, onFloor } from './floor';
import { REAL } from './room';
import { failOnce, relaunched } from './suite-writes';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
});

async function onPad() {
  const floor = await onFloor(REAL);
  const key = REAL.padDraft(floor.place);
  const stored = (): Promise<unknown[]> => lookInto(floor.device.disk, 'log', 'drafts');
  const type = (text: string): void => floor.app.log.setDraft(key, { load: text });
  return { ...floor, floor, key, stored, type };
}

describe('drafts', () => {
  test('written when the typing pauses, once, as last typed', async () => {
    const { device, stored, type } = await onPad();
    device.disk.asked.length = 0;
    for (const text of ['1', '10', '102', '102.', '102.5']) {
      type(text);
      await vi.advanceTimersByTimeAsync(200);
    }
    await turns(10);
    expect(await stored()).toEqual([]);
    await vi.advanceTimersByTimeAsync(60);
    await turns(10);
    expect(await stored()).toEqual([{ load: '102.5' }]);
    const writes = device.disk.asked.filter(({ mode }) => mode === 'readwrite');
    expect(writes.map(({ stores, durability }) => ({ stores, durability }))).toEqual([
      { stores: ['drafts'], durability: 'relaxed' },
    ]);
  });

  test('a killed app comes back with the text', async () => {
    const { floor, key, type } = await onPad();
    type('102.5');
    await vi.advanceTimersByTimeAsync(250);
    await turns(10);
    const next = await relaunched(REAL, floor);
    expect(next.log.draft(key)).toEqual({ load: '102.5' });
  });

  test('going to the background writes at once what waits', async () => {
    const { app, floor, key, type } = await onPad();
    type('102.5');
    app.log.flush();
    await turns(10);
    const next = await relaunched(REAL, floor);
    expect(next.log.draft(key)).toEqual({ load: '102.5' });
  });

  test('an act settles its draft: what waited is not written after it', async () => {
    const { floor, app, stored, type } = await onPad();
    type('102.5');
    await log(REAL, floor, '102.5', '5').saved;
    await vi.advanceTimersByTimeAsync(1000);
    app.log.flush();
    await turns(10);
    expect(await stored()).toEqual([]);
  });

  test('typed after the tap, it is the next set and stays', async () => {
    const { floor, app, key, type } = await onPad();
    const { saved } = log(REAL, floor, '102.5', '5');
    type('105');
    app.log.flush();
    await saved;
    await app.log.retry();
    expect((await relaunched(REAL, floor)).log.draft(key)).toEqual({ load: '105' });
  });

  test('a draft of one pad is not that of another', async () => {
    const { floor, app, key, type } = await onPad();
    type('102.5');
    app.log.setDraft('pad/c2/s2', { load: '60' });
    app.log.flush();
    await app.log.retry();
    const next = await relaunched(REAL, floor);
    expect([next.log.draft(key), next.log.draft('pad/c2/s2')]).toEqual([{ load: '102.5' }, { load: '60' }]);
  });

  test('drafts are no rows: nothing is unsaved for them, and no stamp is made', async () => {
    const { app, device, type } = await onPad();
    failOnce(device, { type: 'aborts', error: 'QuotaExceededError' });
    type('102.5');
    app.log.flush();
    await turns(10);
    expect(app.log.status().unsaved).toBe(0);
    expect(app.log.ofKind('draft')).toEqual([]);
  });
});

describe('what is read again is older than what was typed', () => {
  test('typed while the log opens, and still there when it is open', async () => {
    const { device, app, key, type } = await onPad();
    type('100');
    app.log.flush();
    await turns(10);
    app.kill();
    let open: () => void = () => undefined;
    device.disk.whileOpening = () =>
      new Promise((resolve) => {
        open = resolve;
      });
    const next = launch(device, REAL.startLog);
    await turns(10);
    next.log.setDraft(key, { load: '102.5' });
    await vi.advanceTimersByTimeAsync(300);
    open();
    await next.log.ready;
    expect(next.log.draft(key)).toEqual({ load: '102.5' });
    await next.log.retry();
    next.kill();
    device.disk.whileOpening = undefined;
    expect((await launched(REAL, device)).log.draft(key)).toEqual({ load: '102.5' });
  });

  test('a set that could not be saved does not come back to the pad when the app comes back', async () => {
    const { floor, device, app, key, type } = await onPad();
    type('102.5');
    app.log.flush();
    await turns(10);
    failOnce(device, { type: 'aborts', error: 'QuotaExceededError' });
    await log(REAL, floor, '102.5', '5').saved;
    await app.log.refresh();
    expect(app.log.draft(key)).toBeUndefined();
  });
});
