import { expect, vi } from 'vitest';
import type { App, Device } from './fakes/device';
import { turns } from './fakes/life';
import { type Floor, launched, log, newClient, newSession, onFloor, setsOf } from './floor';
import type { LogRoom } from './room';
import { failOnce } from './suite-writes';

/* What must hold between tabs: functions over a room, as in suite-sets.ts. They need timers that a test moves by hand. */

const FULL = { type: 'aborts', error: 'QuotaExceededError' } as const;

/** A trainer's session in one tab, and a second tab beside it. */
export async function twoTabs(room: LogRoom): Promise<Floor & { readonly other: App }> {
  const floor = await onFloor(room);
  await log(room, floor, '100', '5').saved;
  const other = await launched(room, floor.device);
  return { ...floor, other };
}

/** Takes the seat from a tab that answers, or from one that does not. */
export async function take(app: App): Promise<void> {
  const taken = app.log.takeSeat();
  await turns(20);
  await vi.advanceTimersByTimeAsync(1000);
  await turns(30);
  await taken;
}

/** What a launch after all this finds. */
export async function afterwards(
  room: LogRoom,
  device: Device,
  place: Floor['place'],
  apps: readonly App[],
): Promise<string[]> {
  for (const app of apps) app.kill();
  await turns(10);
  return setsOf(room, await launched(room, device), place);
}

/** What the first tab could not save is the second's to save, however long messages take. */
export async function handedOver(room: LogRoom, delay: number): Promise<void> {
  const { device, app, place, other } = await twoTabs(room);
  device.tabs.delay = delay;
  failOnce(device, FULL);
  expect((await log(room, { device, app, place }, '105', '3').saved).ok).toBe(false);
  await take(other);
  expect(setsOf(room, other, place)).toEqual(['100x5', '105x3']);
  expect(other.log.status()).toMatchObject({ seat: 'writer', unsaved: 0 });
  expect(app.log.status(), 'and the tab that could not save it learns that it is').toMatchObject({ unsaved: 0 });
  const key = room.keyOf({ stream: place.stream, id: place.session });
  expect(app.log.isSaved(key)).toBe(true);
  expect(await afterwards(room, device, place, [app, other])).toEqual(['100x5', '105x3']);
}

/** A tab that freezes between two writes puts its old row over newer ones when it thaws; the writer puts that right. */
export async function thawedIsPutRight(room: LogRoom, turn: number, lossDelay: number): Promise<void> {
  const { device, app, place, other } = await twoTabs(room);
  device.tabs.lossDelay = lossDelay;
  log(room, { device, app, place }, '105', '3');
  log(room, { device, app, place }, '106', '2');
  await turns(turn);
  app.freeze();
  await take(other);
  await log(room, { device, app: other, place }, '110', '1').saved;
  app.thaw();
  await turns(80);
  expect(await afterwards(room, device, place, [app, other]), `after ${turn} turns`).toEqual([
    '100x5',
    '105x3',
    '106x2',
    '110x1',
  ]);
}

/** What waits in a tab that lost the seat, and is no row, is not written over what came since: drafts, the list of running sessions. */
export async function nothingOldOver(room: LogRoom): Promise<void> {
  const { device, app, place, other } = await twoTabs(room);
  const clients = [
    await newClient(room, { device, app }, 'Client M'),
    await newClient(room, { device, app }, 'Client N'),
  ];
  app.log.setDraft(room.padDraft(place), { load: '105' });
  app.log.flush();
  await app.log.retry();
  device.disk.fate = ({ life }) => (life === app.life ? FULL : undefined);
  await log(room, { device, app, place }, '105', '3').saved;
  await newSession(room, { device, app }, clients[0] ?? '');
  app.freeze();
  await take(other);
  const place2 = await newSession(room, { device, app: other }, clients[1] ?? '');
  other.log.setDraft(room.padDraft(place), { load: 'new' });
  other.log.flush();
  await other.log.retry();
  const last = other.log.lastAct();
  app.thaw();
  await turns(60);
  device.disk.fate = undefined;
  await take(app);
  expect(app.log.lastAct()).toEqual(last);
  await log(room, { device, app, place: place2 }, '60', '5').saved;
  for (const tab of [app, other]) tab.kill();
  const next = await launched(room, device);
  expect(next.log.draft(room.padDraft(place))).toEqual({ load: 'new' });
  expect(
    room
      .sessionsInMemory(next.log)
      .map(({ stream }) => stream)
      .toSorted(),
  ).toEqual([place.stream, ...clients].toSorted());
  expect(setsOf(room, next, place)).toEqual(['100x5', '105x3']);
}
