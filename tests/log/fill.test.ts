import { expect, test } from 'vitest';
import { demoRows } from '../../fixtures/demo/studio';
import { unpackRow } from '../../src/log/encode';
import { fillLog } from '../../src/log/fill';
import { foldSession, type SeriesRow } from '../../src/log/series';
import { canonicalRow } from '../../src/merge/canonical';
import { emptyRow } from '../../src/merge/row';
import { createDevice, type Device, launch } from './fakes/device';
import { lookInto, putInto, takeFrom } from './fakes/disk';
import { turns } from './fakes/life';
import { launched, opened } from './floor';
import { REAL } from './room';
import { lastTimes, openList, storedSeries } from './suite-series';

const rows = demoRows({ seed: 7, today: '2026-11-25', zone: 'Europe/Vienna' });
const clients = rows.filter((row) => row.kind === 'client').map((row) => row.id);

/** Fills the log named `log` from an app that shows another one. */
async function filled(device: Device) {
  const own = launch(device, REAL.startLog, 'own');
  await opened(own);
  const done = await own.run(() => fillLog('log', rows));
  own.kill();
  return done;
}

test('a log that was filled opens with all of it, nothing running, nothing to undo, nothing to mend', async () => {
  const device = createDevice(1);
  expect(await filled(device)).toEqual({ ok: true, value: undefined });
  const stored = (
    await Promise.all(['rows', 'sessions', 'results'].map((store) => lookInto(device.disk, 'log', store)))
  ).flat();
  const texts = stored.map((one) => {
    const row = unpackRow(one);
    return canonicalRow(row.ok ? row.value : emptyRow({ id: '', kind: '', stream: '' }));
  });
  expect(texts.sort()).toEqual(rows.map(canonicalRow).sort());
  const app = await launched(REAL, device);
  expect(app.log.status()).toMatchObject({ phase: 'open', wiped: false, unreadable: 0, unsaved: 0 });
  expect(app.log.ofKind('client')).toHaveLength(4);
  expect(app.log.ofKind('session')).toEqual([]);
  expect(app.log.lastAct()).toBeUndefined();
});

test('[M7] its series are what a rebuild gives', async () => {
  const device = createDevice(2);
  await filled(device);
  const byName = (all: readonly SeriesRow[]) =>
    [...all].sort((a, b) => (`${a.stream}/${a.exercise}` < `${b.stream}/${b.exercise}` ? -1 : 1));
  const kept = byName(await storedSeries(device));
  expect(kept.length).toBeGreaterThan(30);
  for (const { stream, exercise } of kept) await takeFrom(device.disk, 'log', 'series', [stream, exercise]);
  for (const stream of clients)
    await putInto(device.disk, 'log', 'series', { ...foldSession(undefined, stream, '', '', undefined), version: 0 });
  const app = await launched(REAL, device);
  for (const stream of clients) await lastTimes(app, stream, '');
  await turns(60);
  expect(byName(await storedSeries(device))).toEqual(kept);
  expect(await openList(device)).toEqual([]);
});
