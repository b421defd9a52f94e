import { TEN_YEARS } from '../laws/history';
import { createWorld, type TestWorld } from '../log/fakes/world';
import { beginning, some, someAct } from './acts';
import { must } from './book';
import { type Bundle, bundleOf, imports, importsWhole, isCutOff, looksInto } from './bundle';
import { countAnew } from './canaries';
import { heal } from './heal';
import type { Life, Phone, Version } from './kinds';
import {
  becomes,
  type Copy,
  copyOfPhone,
  does,
  isErasing,
  newPhone,
  observe,
  reconcile,
  restart,
  start,
} from './phone';
import type { LivesRoom } from './room';
import { quiet, rowsOn, textIn } from './snapshot';
import { takeTime, turns } from './timers';

/*
 * One life: two to five phones, each with a real log, that write, erase, crash, are set back to copies and cloned, and hand each other bundles out
 * of order, twice, old ones again. Everything follows from the seed. In the end all meet.
 */

type World = Life & {
  readonly chance: TestWorld;
  readonly phones: Phone[];
  readonly bundles: Bundle[];
  readonly copies: { readonly of: Phone; readonly copy: Copy }[];
  /** What happened, for whoever looks into a failing seed. */
  readonly story: string[];
};

/** Lives a life; resolves with why it went wrong, or undefined where everything held. */
export async function live(room: LivesRoom, seed: number): Promise<string | undefined> {
  const time = takeTime();
  countAnew();
  const world: World = {
    room,
    book: new Map(),
    time,
    chance: createWorld(seed * 7919 + 13),
    phones: [],
    bundles: [],
    copies: [],
    broughtBack: new Set(),
    story: [],
  };
  try {
    await liveThrough(world, seed);
    return undefined;
  } catch (error) {
    const told = error instanceof Error ? `${error.stack ?? error.message}` : String(error);
    return `${told}\n${world.story.slice(-12).join('\n')}`;
  } finally {
    for (const phone of world.phones) phone.app.kill();
    await turns(1);
    time.end();
  }
}

async function liveThrough(world: World, seed: number): Promise<void> {
  const { chance, phones } = world;
  const { pick } = chance;
  const count = 2 + pick(3);
  for (let n = 0; n < count; n += 1) {
    const phone = await newPhone(world, `phone ${n}`, seed * 31 + n, pick(3) === 0);
    phone.device.world.pass([0, 0, 0, -TEN_YEARS, TEN_YEARS, 1][pick(6)] ?? 0);
    phones.push(phone);
  }
  const [first] = phones;
  for (const act of first ? beginning : []) await does(world, first!, () => act(world.room, first!));
  if (first) world.bundles.push(await bundleOf(world, first));
  for (const phone of phones.slice(1)) if (pick(4) > 0) await importsWhole(world, phone, world.bundles[0]!);
  const events = 15 + pick(46);
  for (let n = 0; n < events; n += 1) {
    const phone = phones[pick(phones.length)]!;
    const drawn = pick(100);
    world.story.push(`${n} ${phone.name} ${drawn}`);
    await event(world, phone, drawn);
    observe(world, phone);
    if (pick(4) === 0) await world.time.pass(pick(3) * 150);
  }
  await heal(world, phones);
}

async function event(world: World, phone: Phone, drawn: number): Promise<void> {
  const { chance, room } = world;
  const { pick } = chance;
  if (drawn < 50) return does(world, phone, () => someAct(room, phone));
  if (drawn < 58) return crashes(world, phone);
  if (drawn < 66) return makesBundle(world, phone);
  if (drawn < 82) return getsBundle(world, phone);
  if (drawn < 85) return opensOld(world, phone);
  if (drawn < 88) return erases(world, phone);
  if (drawn < 90) return fails(world, phone);
  if (drawn < 92) return void phone.device.world.pass((pick(3) - 1) * [1, 86_400_000, TEN_YEARS][pick(3)]!);
  if (drawn < 94) return setsBack(world, phone);
  if (drawn < 96) return isCloned(world, phone);
  if (drawn < 97) return loses(phone);
  return restart(world, phone, true);
}

async function crashes(world: World, phone: Phone): Promise<void> {
  const { pick } = world.chance;
  for (let n = 0; n <= pick(3); n += 1) void does(world, phone, () => someAct(world.room, phone));
  await turns(pick(9));
  observe(world, phone);
  await restart(world, phone, pick(2) === 0);
}

async function makesBundle(world: World, phone: Phone): Promise<void> {
  const client = world.chance.pick(2) === 0 ? some(phone, phone.app.log.ofKind('client')) : undefined;
  world.bundles.push(await bundleOf(world, phone, client?.stream));
}

async function getsBundle(world: World, phone: Phone): Promise<void> {
  const { pick } = world.chance;
  const bundle = world.bundles[pick(world.bundles.length)]!;
  const how = pick(12);
  if (how === 0) return isCutOff(world, bundle, pick(1_000_000_000));
  if (how === 1) return looksInto(world, phone, bundle);
  if (how === 2) {
    const { changed } = await imports(world, phone, bundle);
    await turns(pick(16));
    observe(world, phone);
    await restart(world, phone, pick(2) === 0);
    return isWholeOrNot(phone, changed);
  }
  if (how === 3) return comesBackAsNew(world, phone, bundle);
  await importsWhole(world, phone, bundle);
  // the same one twice
  if (how === 4) await importsWhole(world, phone, bundle);
}

/** A kill in the middle of an import leaves all of it or nothing. */
function isWholeOrNot(phone: Phone, changed: readonly Version[]): void {
  const rows = rowsOn(phone.device.disk);
  const wanted = changed.filter(({ row }) => !phone.marks.has(row.stream));
  const landed = wanted.filter(({ row }) => {
    const stored = rows.get(`${row.stream}/${row.id}`);
    return stored !== undefined && textIn(stored) === textIn(row);
  });
  must(
    landed.length === 0 || landed.length === wanted.length,
    () => `${phone.name}: of an import of ${wanted.length} rows ${landed.length} came through a kill`,
  );
}

/** [M10] A bundle with an erased client lands as a new one where that is asked for. */
async function comesBackAsNew(world: World, phone: Phone, bundle: Bundle): Promise<void> {
  const streams = [...new Set(bundle.rows.map(({ stream }) => stream))].filter((stream) => phone.marks.has(stream));
  const [stream] = streams;
  if (stream === undefined) return;
  const asNew = `new${phone.device.world.pick(1_000_000_000)}x`;
  world.story.push(`  as new: ${stream} is ${asNew}`);
  world.broughtBack.add(stream);
  const { done } = await imports(world, phone, bundle, new Map([[stream, asNew]]));
  await done;
}

/** Reads an old session to be looked at and changed, and lets go of it or not. */
async function opensOld(world: World, phone: Phone): Promise<void> {
  const key = some(
    phone,
    [...phone.held].flatMap(([one, versions]) => (versions.at(-1)?.row.kind === 'session' ? [one] : [])),
  );
  if (key === undefined) return;
  const [stream = '', id = ''] = key.split('/');
  await phone.app.log.loadSession(stream, id);
  await phone.app.log.loadResults(stream);
  observe(world, phone);
  await does(world, phone, () => someAct(world.room, phone));
  if (world.chance.pick(2) === 0) phone.app.log.releaseSession(stream, id);
}

async function erases(world: World, phone: Phone): Promise<void> {
  const client = some(phone, phone.app.log.ofKind('client'));
  if (!client || world.chance.pick(2) === 0) return;
  const erasing = isErasing(phone, client.stream);
  const saving = world.room.eraseClient(phone.app.log, client.stream).then((saved) => {
    if (saved.ok) erasing.acked = true;
  });
  if (world.chance.pick(2) === 0) return saving;
  await turns(world.chance.pick(9));
  return restart(world, phone, world.chance.pick(2) === 0);
}

/** The store refuses once. */
async function fails(world: World, phone: Phone): Promise<void> {
  const fates = [
    { type: 'aborts', error: 'QuotaExceededError' },
    { type: 'aborts', error: null },
    { type: 'stored-but-lost', error: 'UnknownError' },
    { type: 'refused', error: 'InvalidStateError' },
  ] as const;
  const fate = fates[world.chance.pick(4)]!;
  const { disk } = phone.device;
  disk.fate = () => {
    disk.fate = undefined;
    return fate;
  };
  await does(world, phone, () => someAct(world.room, phone));
}

/** The phone is put away as a copy, or set back to one: what it did since is known to those alone whom it told. */
async function setsBack(world: World, phone: Phone): Promise<void> {
  const own = world.copies.filter(({ of }) => of === phone);
  const { copy } = own[world.chance.pick(Math.max(1, own.length))] ?? {};
  if (!copy || world.chance.pick(3) === 0) {
    await settled(world, phone);
    world.copies.push({ of: phone, copy: copyOfPhone(phone) });
    return;
  }
  phone.app.kill();
  await turns(1);
  becomes(phone, copy);
  await start(world, phone);
}

/** A second phone begins as a copy of this one, and both go on. */
async function isCloned(world: World, phone: Phone): Promise<void> {
  if (world.phones.length >= 5) return;
  await settled(world, phone);
  const seed = world.chance.pick(1_000_000);
  const name = `phone ${world.phones.length}, once ${phone.name}`;
  world.phones.push(await newPhone(world, name, seed, phone.isNewer, phone));
}

/** Ends a launch with everything on the disk: whatever kept it from saving is over by then. */
async function settled(world: World, phone: Phone): Promise<void> {
  phone.device.disk.fate = undefined;
  await phone.app.log.retry();
  await phone.app.log.inside((core) => core.folding);
  await quiet(phone.device.disk);
  observe(world, phone);
  reconcile(phone);
}

/** The browser loses its connection to the database. */
async function loses(phone: Phone): Promise<void> {
  phone.app.loseConnections();
  await turns(1);
}
