import { expect } from 'vitest';
import type { StoredRow } from '../../src/log/encode';
import type { Json } from '../../src/merge/row';
import type { Device } from './fakes/device';
import { lookInto, putInto } from './fakes/disk';
import { turns } from './fakes/life';
import { launched, log, newClient, newSession, onFloor, sessionOnDisk, setsOf } from './floor';
import type { LogRoom } from './room';
import type { Kill } from './suite-sets';

/* What must hold of undo and of moving a set: functions over a room, as in suite-sets.ts. */

/** Undo writes `before` anew where the act still shows; what was written since stays, and is counted. */
export async function undoLeavesWhatCameLater(room: LogRoom): Promise<void> {
  const floor = await onFloor(room);
  const { device, app, place } = floor;
  const { set, saved } = log(room, floor, '100', '5');
  await saved;
  await room.touchUp(app.log, place, set, { form: 'clean', effort: { value: 2, as: 'left' } });
  await writeElsewhere(device, place.session, { [`sets/${set}/form`]: 'slipping' });
  await app.log.refresh();
  const acted = app.log.lastAct()?.rows[0]?.stamp;
  const undone = app.log.undo();
  expect(undone).toMatchObject({ act: { type: 'touch-up' }, changedSince: 1 });
  await undone?.saved;
  const { body, seen } = await sessionOnDisk(device, place);
  expect(body[`sets/${set}/form`]?.[0]).toMatchObject({ value: 'slipping', stamp: { writer: 'other-1' } });
  const effort = body[`sets/${set}/effort`]?.[0];
  expect(effort?.value).toBeNull();
  expect(effort?.stamp.l, 'a fresh stamp').toBeGreaterThan(acted?.l ?? Number.POSITIVE_INFINITY);
  expect(seen[effort?.stamp.writer ?? '']).toBe(effort?.stamp.l);
}

/** Puts values of another writer, who has seen everything, into a session's stored row. */
export async function writeElsewhere(device: Device, session: string, values: Record<string, Json>): Promise<void> {
  const stored = (await lookInto(device.disk, 'log', 'sessions')) as StoredRow[];
  const row = stored.find(({ id }) => id === session);
  if (!row) throw new Error('no session on the disk');
  const l = Math.max(...row.seen.map(([, highest]) => highest)) + 1;
  const others = Object.fromEntries(Object.entries(values).map(([path, value]) => [path, [l, 'other-1', value]]));
  const seen = [...row.seen.filter(([writer]) => writer !== 'other-1'), ['other-1', l]];
  const body = Object.entries(row.body).map(([path, packed]) => [path, unplaced(packed, row.seen)]);
  await putInto(device.disk, 'log', 'sessions', { ...row, seen, body: { ...Object.fromEntries(body), ...others } });
}

/** Names the writers of a packed register, so that their places in `seen` may change. */
function unplaced(packed: readonly Json[], seen: StoredRow['seen']): Json[] {
  return packed.map((one, place) => (place % 3 === 1 && typeof one === 'number' ? (seen[one]?.[0] ?? '') : one));
}

/** [M12] A move is two rows in one transaction: killed at any moment, both say so or neither does. */
export async function moveIsOneAct(room: LogRoom, kill: Kill, seed: number): Promise<'here' | 'there'> {
  const floor = await onFloor(room, seed);
  const { device, app, place } = floor;
  const to = await newSession(room, floor, await newClient(room, floor, 'Client M'));
  const { set, saved } = log(room, floor, '100', '5');
  await saved;
  await turns(20);
  device.disk.asked.length = 0;
  void room.moveSet(app.log, place, set, to, device.world);
  await turns(kill.turns);
  for (let step = 0; step < kill.steps; step += 1) await null;
  app.kill(kill.lands);
  const writes = device.disk.asked.filter((one) => one.puts.some(({ store }) => store === 'sessions'));
  for (const { puts } of writes) {
    expect(
      puts
        .filter(({ store }) => store === 'sessions')
        .map(({ value }) => (value as StoredRow).id)
        .toSorted(),
    ).toEqual([place.session, to.session].toSorted());
    expect(puts.filter(({ store }) => store === 'undo')).toHaveLength(1);
  }
  await turns(30);
  const next = await launched(room, device);
  const here = setsOf(room, next, place);
  const there = setsOf(room, next, to);
  next.kill();
  expect([here, there]).toEqual(there.length > 0 ? [[], ['100x5']] : [['100x5'], []]);
  return there.length > 0 ? 'there' : 'here';
}
