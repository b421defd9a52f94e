import type { Entry } from '../../src/domain/entry';
import type { Exercise } from '../../src/domain/exercise';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import type { Saving } from '../../src/log/log';
import { removing, restoring } from '../../src/merge/removal';
import type { Json, Row } from '../../src/merge/row';
import { workingEntry } from '../domain/made';
import { canary, movedTexts } from './canaries';
import type { Phone } from './kinds';
import type { LivesRoom } from './room';

/* What a trainer does on a phone: one act a function, which returns undefined where there is nothing to do it to. */

type Act = (room: LivesRoom, phone: Phone) => Saving | undefined;

const EXERCISES = SHIPPED_EXERCISES.filter(({ holds, sides }) => holds === 'load' && sides !== 'each').slice(0, 3);
const note: Act = (_room, phone) => {
  const row = some(
    phone,
    phone.app.log.all().filter(({ kind }) => kind !== 'erased'),
  );
  if (!row) return undefined;
  const paths = ['note', 'question', 'newer/x', 'constructor', 'note', ...(phone.isNewer ? ['newer/y', 'x.y/z'] : [])];
  const changes: Record<string, Json> = { [some(phone, paths) ?? 'note']: canary(row.stream) };
  if (phone.isNewer && phone.device.world.pick(3) === 0) changes['landings'] = { newer: [canary(row.stream), null] };
  return phone.app.log.commit({ act: { type: 'note' }, rows: [{ name: row, changes }] });
};

const newerKind: Act = (_room, { app, device, isNewer }) => {
  const client = some({ device }, app.log.ofKind('client'));
  if (!isNewer || !client) return undefined;
  const name = { stream: client.stream, id: `orbit${device.world.pick(3)}`, kind: 'orbit' };
  return app.log.commit({
    act: { type: 'orbit' },
    rows: [{ name, changes: { 'a/b': canary(client.stream) }, fresh: true }],
  });
};

const addClient: Act = (room, { app, device }) => {
  const added = room.saveClient(app.log, { alias: 'Client', short: '', dayName: '', day: '' }, device.world);
  return added.ok ? added.value.saved : undefined;
};

const startSession: Act = (room, phone) => {
  const client = some(phone, room.clients(phone.app.log));
  return client && room.startSession(phone.app.log, client.id, phone.device.world).saved;
};

const logSet: Act = (room, phone) => {
  const running = some(phone, runningOn(room, phone));
  const exercise = some(phone, EXERCISES) as Exercise;
  const { pick } = phone.device.world;
  const entry = { ...ENTRY, exercise: exercise.id, load: String(60 + pick(40)), reps: String(1 + pick(9)) };
  if (!running) return undefined;
  const logged = room.logSet(phone.app.log, running, entry, exercise, phone.device.world);
  phone.device.world.pass(60_000);
  return logged.ok ? logged.value.saved : undefined;
};

const touchUp: Act = (room, phone) => {
  const set = someSet(room, phone);
  const effort = { value: phone.device.world.pick(6), as: 'left' };
  return set && room.touchUp(phone.app.log, set.place, set.id, { effort, note: canary(set.place.stream) });
};

const removeSet: Act = (room, phone) => {
  const set = someSet(room, phone);
  return set && room.removeSet(phone.app.log, set.place, set.id);
};

const moveSet: Act = (room, phone) => {
  const set = someSet(room, phone);
  const to = some(
    phone,
    runningOn(room, phone).filter(({ session }) => session !== set?.place.session),
  );
  if (set?.note && to) movedTexts.add(set.note);
  return set && to && room.moveSet(phone.app.log, set.place, set.id, to, phone.device.world);
};

const endSession: Act = (room, phone) => {
  const place = some(phone, runningOn(room, phone));
  const said = { effort: '7', minutes: '', attendance: null, why: '', note: place ? canary(place.stream) : '' };
  const ended = place && room.endSession(phone.app.log, place, said, phone.device.world);
  return ended?.ok ? ended.value : undefined;
};

const resumeSession: Act = (room, phone) => {
  const place = some(phone, placesOn(room, phone));
  return place && room.resumeSession(phone.app.log, place);
};

const removeRow: Act = (room, phone) => {
  if (phone.device.world.pick(3) > 0) return undefined;
  const place = some(phone, placesOn(room, phone));
  if (place && phone.device.world.pick(3) > 0) return room.removeSession(phone.app.log, place);
  const client = some(phone, room.clients(phone.app.log));
  return client && room.removeClient(phone.app.log, client.id);
};

const removeThing: Act = (_room, phone) => {
  const row = some(phone, phone.app.log.ofKind('session'));
  const thing = row && some(phone, thingsIn(row));
  return thing === undefined
    ? undefined
    : phone.app.log.commit({
        act: { type: 'remove' },
        rows: [{ name: row as Row, changes: removing(row as Row, thing) }],
      });
};

const bringBack: Act = (_room, phone) => {
  const row = some(
    phone,
    phone.app.log.all().filter(({ body }) => Object.keys(body).some((path) => /(^|\/)removed$/.test(path))),
  );
  const path =
    row &&
    some(
      phone,
      Object.keys(row.body).filter((one) => /(^|\/)removed$/.test(one)),
    );
  if (!row || path === undefined) return undefined;
  const thing = path === 'removed' ? '' : path.slice(0, -'/removed'.length);
  return phone.app.log.commit({ act: { type: 'bring-back' }, rows: [{ name: row, changes: restoring(thing) }] });
};

const settle: Act = (room, phone) => {
  const one = some(phone, phone.app.log.all().flatMap(room.besideIn));
  return one && room.settle(phone.app.log, one, one.others[0]?.value ?? null);
};

const undo: Act = (_room, phone) => phone.app.log.undo()?.saved;

const bodyMass: Act = (room, phone) => {
  const client = some(phone, room.clients(phone.app.log));
  const fields = { mass: String(60 + phone.device.world.pick(30)), unit: 'kg', day: '2026-03-03' } as const;
  const noted = client && room.noteBodyMass(phone.app.log, client.id, fields, phone.device.world);
  return noted?.ok ? noted.value.saved : undefined;
};

const addCue: Act = (room, { app, device }) => {
  const added = room.addCue(app.log, canary('main'), device.world);
  return added.ok ? added.value.saved : undefined;
};

const draft: Act = (room, phone) => {
  const place = some(phone, placesOn(room, phone));
  if (!place) return undefined;
  phone.app.log.setDraft(room.padDraft(place), { load: canary(place.stream) });
  phone.app.log.setDraft(`rest/${place.stream}/${place.session}`, { set: canary(place.stream) });
  // the screen keeps a snapshot of Today
  phone.device.local.set('log.today', JSON.stringify([place.stream, canary(place.stream)]));
  return undefined;
};

const ACTS: readonly (readonly [weight: number, act: Act])[] = [
  [6, note],
  [2, newerKind],
  [1, addClient],
  [3, startSession],
  [8, logSet],
  [5, touchUp],
  [2, removeSet],
  [2, moveSet],
  [4, endSession],
  [1, resumeSession],
  [2, removeRow],
  [2, removeThing],
  [2, bringBack],
  [2, settle],
  [4, undo],
  [1, bodyMass],
  [1, addCue],
  [3, draft],
];
const TOTAL = ACTS.reduce((sum, [weight]) => sum + weight, 0);

/** Does one act drawn from the phone's chances. */
export function someAct(room: LivesRoom, phone: Phone): Saving | undefined {
  let drawn = phone.device.world.pick(TOTAL);
  for (const [weight, act] of ACTS) {
    if (drawn < weight) return act(room, phone);
    drawn -= weight;
  }
  return undefined;
}

/** Begins a life's records: a client with a session and a set. */
export const beginning: readonly Act[] = [addClient, addClient, startSession, logSet, note];

const ENTRY: Entry = workingEntry('');

export type Place = { readonly stream: string; readonly session: string };

const placesOn = (room: LivesRoom, { app }: Phone): readonly Place[] =>
  room.sessionsInMemory(app.log).map(({ stream, session }) => ({ stream, session: session.id }));

/** Returns the running sessions in a phone's memory. */
export const runningOn = (room: LivesRoom, { app }: Phone): readonly Place[] =>
  room
    .sessionsInMemory(app.log)
    .filter(({ session }) => !session.end)
    .map(({ stream, session }) => ({ stream, session: session.id }));

function someSet(
  room: LivesRoom,
  phone: Phone,
): { readonly place: Place; readonly id: string; readonly note: string | undefined } | undefined {
  const place = some(phone, placesOn(room, phone));
  const set = place && some(phone, room.session(phone.app.log, place.stream, place.session)?.sets ?? []);
  return set && { place, id: set.id, note: set.note };
}

const thingsIn = (row: Row): string[] => [
  ...new Set(Object.keys(row.body).flatMap((path) => /^(sets|exercises)\/[^/]+(?=\/)/.exec(path)?.[0] ?? [])),
];

/** Returns one of a list by the phone's chances; undefined of an empty one. */
export function some<T>({ device }: Pick<Phone, 'device'>, list: readonly T[]): T | undefined {
  return list[device.world.pick(Math.max(1, list.length))];
}
