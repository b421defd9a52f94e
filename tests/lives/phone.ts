import type { Saving } from '../../src/log/log';
import { mergeRows } from '../../src/merge/merge';
import { emptyRow, type Row } from '../../src/merge/row';
import { isSameRow } from '../../src/merge/same';
import { type App, createDevice, type Device, launch } from '../log/fakes/device';
import { type Deeds, deedsIn, judge, must } from './book';
import type { Held, Life, Phone, Version } from './kinds';
import { copyOf, LOG, quiet, recordsIn, rowsOn, textIn } from './snapshot';
import { holdsWhatRuns, keepsNothingErased } from './started';
import { turns } from './timers';

/* A phone in a life: a real log on a disk of its own, and beside it what that log must hold. */

/** Returns a phone with the app open: new, or over the disk of another. */
export async function newPhone(life: Life, name: string, seed: number, isNewer: boolean, from?: Phone): Promise<Phone> {
  const device = createDevice(seed);
  device.disk.records = false;
  const phone: Phone = {
    name,
    device,
    app: undefined as unknown as App,
    held: new Map(),
    marks: new Set(),
    erasing: new Map(),
    isNewer,
  };
  if (from) becomes(phone, copyOfPhone(from));
  await start(life, phone);
  return phone;
}

export type Copy = {
  readonly disk: Device['disk'];
  readonly files: Device['files'];
  readonly local: Device['local'];
  readonly held: Held;
  readonly marks: ReadonlySet<string>;
};

/** Returns a copy of all that a phone keeps, as of now: a backup of the whole phone. Nothing may be on its way to the disk. */
export function copyOfPhone({ device, held, marks }: Phone): Copy {
  return {
    disk: copyOf(device.disk),
    files: new Map([...device.files].map(([name, folder]) => [name, new Map(folder)])),
    local: new Map(device.local),
    held: new Map(
      [...held].map(([key, versions]) => [key, versions.slice(-1).map((one) => ({ ...one, acked: true }))]),
    ),
    marks: new Set(marks),
  };
}

/** Sets a phone, whose app is not running, to a copy. */
export function becomes(phone: Phone, copy: Copy): void {
  const { world } = phone.device;
  phone.device = { ...phone.device, disk: copyOf(copy.disk), files: new Map(), local: new Map(copy.local), world };
  for (const [name, folder] of copy.files) phone.device.files.set(name, new Map(folder));
  phone.held = new Map([...copy.held].map(([key, versions]) => [key, versions.map((one) => ({ ...one }))]));
  phone.erasing.clear();
  phone.marks.clear();
  for (const stream of copy.marks) phone.marks.add(stream);
}

/** Launches the app and waits until it is open and has looked at its second copy. */
export async function start(life: Life, phone: Phone): Promise<void> {
  phone.app = launch(phone.device, life.room.startLog, LOG);
  await phone.app.log.ready;
  must(phone.app.log.status().phase === 'open', () => `${phone.name} did not open`);
  await life.time.pass(0);
  await turns(4);
  await phone.app.log.inside((core) => core.second.then((second) => second?.settled()));
  observe(life, phone);
  keepsNothingErased(life, phone);
  holdsWhatRuns(phone);
}

/** Kills the app, looks whether the disk holds what it must, and launches it again. */
export async function restart(life: Life, phone: Phone, lands: boolean): Promise<void> {
  phone.app.kill(lands);
  await turns(1);
  await quiet(phone.device.disk);
  reconcile(phone);
  await start(life, phone);
}

/** Holds what the disk holds after a kill against what was told to be saved, and goes on from there. */
export function reconcile(phone: Phone): void {
  const stored = rowsOn(phone.device.disk);
  for (const stream of phone.marks) {
    if (stored.has(`main/${stream}`)) {
      nothingLeft(phone, stream);
      continue;
    }
    const was = phone.erasing.get(stream);
    must(was !== undefined && !was.acked, () => `[M10] ${phone.name} erased ${stream}, and it is back after a kill`);
    phone.marks.delete(stream);
    for (const [key, versions] of was.held) phone.held.set(key, versions);
  }
  phone.erasing.clear();
  for (const [key, row] of stored) {
    const known = row.kind === 'erased' ? phone.marks.has(row.id) : phone.held.has(key);
    must(known, () => `${phone.name} has ${key} in its store, and nobody put it there`);
  }
  for (const [key, versions] of phone.held) {
    const row = stored.get(key);
    const text = row && textIn(row);
    const at = versions.findLastIndex((one) => textIn(one.row) === text);
    const acked = versions.findLastIndex((one) => one.acked);
    must(
      at >= acked,
      () => `${phone.name}: ${key} was told to be saved in a newer state than its store holds: ${text}`,
    );
    must(row === undefined || at >= 0, () => `${phone.name}: ${key} never was as its store holds it: ${text}`);
    if (at < 0) phone.held.delete(key);
    else phone.held.set(key, [{ ...versions[at]!, acked: true }]);
  }
}

/** [M10] Throws where a store holds anything of an erased stream. */
export function nothingLeft(phone: Phone, stream: string): void {
  for (const store of ['rows', 'sessions', 'results', 'series']) {
    const left = recordsIn(phone.device.disk, store).filter(({ key }) => Array.isArray(key) && key[0] === stream);
    must(left.length === 0, () => `[M10] ${phone.name} erased ${stream}, and its ${store} hold something of it`);
  }
}

/** Takes down what has changed in memory, judges it, and returns the new states. */
export function observe({ book }: Life, phone: Phone): Version[] {
  const fresh: Version[] = [];
  for (const row of phone.app.log.all()) {
    if (row.kind === 'erased') continue;
    const key = `${row.stream}/${row.id}`;
    const versions = phone.held.get(key) ?? [];
    const last = versions.at(-1);
    if (phone.erasing.get(row.stream)?.acked === false) continue;
    if (versions.some((one) => one.row === row) || isBeforeImport(row, versions)) continue;
    must(!phone.marks.has(row.stream), () => `[M10] ${phone.name} erased ${row.stream}, and holds ${key}`);
    const knows = deedsIn(book, row, last?.knows ?? new Set());
    if (last && knows === last.knows) {
      must(isSameRow(row, last.row), () => `${phone.name}: ${key} changed, and nobody wrote`);
      last.row = row;
      continue;
    }
    judge(row, knows, phone.name);
    const version = { row, knows, acked: false };
    phone.held.set(key, [...versions, version]);
    fresh.push(version);
  }
  return fresh;
}

/** Of an import that is on its way memory may not have heard yet: it shows what was there, read anew from the store perhaps. */
function isBeforeImport(row: Row, versions: readonly Version[]): boolean {
  const known = versions.slice(0, versions.findLastIndex(({ comes, acked }) => !comes || acked) + 1);
  return known.length < versions.length && known.some((one) => isSameRow(one.row, row));
}

/** Does something on a phone; what it changes counts as saved once the log says so. */
export function does(life: Life, phone: Phone, act: () => Saving | undefined): Promise<void> {
  const saving = act();
  const fresh = observe(life, phone);
  return Promise.resolve(saving).then((saved) => {
    if (saved?.ok) for (const version of fresh) version.acked = true;
  });
}

/** Takes down that a row comes in from outside; `mine` is what its sender knew. */
export function comesIn({ book }: Life, phone: Phone, row: Row, theirs: Deeds | undefined): Version | undefined {
  const key = `${row.stream}/${row.id}`;
  const versions = phone.held.get(key) ?? [];
  const last = versions.at(-1);
  const here = last?.row ?? emptyRow(row);
  const merged = mergeRows(here, row);
  if (!merged.ok) return undefined;
  const knows = new Set([...(last?.knows ?? []), ...(theirs ?? deedsIn(book, row, new Set(), true))]);
  if (last && knows.size === last.knows.size && isSameRow(merged.value, here)) return undefined;
  judge(merged.value, knows, `${phone.name}, by the law`);
  const version = { row: merged.value, knows, acked: false, comes: true };
  phone.held.set(key, [...versions, version]);
  return version;
}

/** Takes down that a stream is being erased on a phone; `acked` is to be set once the log says it is done. */
export function isErasing(phone: Phone, stream: string): { acked: boolean } {
  const held: Held = new Map();
  for (const [key, versions] of phone.held) {
    if (!key.startsWith(`${stream}/`)) continue;
    held.set(key, versions);
    phone.held.delete(key);
  }
  const known = phone.erasing.get(stream);
  const erasing = known ?? { held, acked: false };
  if (!phone.marks.has(stream)) phone.erasing.set(stream, erasing);
  phone.marks.add(stream);
  return erasing;
}
