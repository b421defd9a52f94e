import { newId } from '../domain/ids';
import { fail, ok, type Result } from '../domain/result';
import type { World } from '../domain/world';
import { canonical } from '../merge/canonical';
import { decrypt, encrypt, KEY_BYTES } from './aead';
import { type Bytes, base64, fromBase64, owned, utf8 } from './bytes';
import { KEYS_FORMAT, type KeyList, type StreamKey } from './keyList';

/** The vault keys that are open, by id. Lives in memory alone; the list beside it may lie anywhere. */
export type Ring = { readonly vault: string; readonly keys: ReadonlyMap<string, Bytes> };

/** A vault that is open. */
export type Vault = { readonly list: KeyList; readonly ring: Ring };

/** The keys of one stream: that of its tags, and one an epoch. An epoch's name is its number and its key's id (`2-7k3fm2p1`). */
export type StreamKeys = {
  readonly vault: string;
  readonly stream: string;
  readonly tag: Bytes;
  readonly current: string;
  readonly epochs: ReadonlyMap<string, Bytes>;
};

export type KeyFault =
  | { readonly type: 'erased'; readonly stream: string }
  | { readonly type: 'no-key'; readonly stream: string }
  /** Another device made a newer vault key, and no door to it was opened here yet. */
  | { readonly type: 'locked'; readonly vault: string };

/** Returns a new vault: a random vault key, and keys for `main`. It has no door yet: add one before it is kept. */
export async function newVault(random: World['random']): Promise<Vault> {
  const [vault, id] = [newId(random, 16), newId(random, 8)];
  const ring = { vault, keys: new Map([[id, owned(random(KEY_BYTES))]]) };
  const list: KeyList = {
    format: KEYS_FORMAT,
    vault,
    vaultKeys: [{ id, epoch: 1 }],
    links: [],
    streamKeys: [],
    doors: [],
    shut: [],
    erased: [],
  };
  const added = await addStream({ list, ring }, 'main', random);
  if (!added.ok) throw new Error(`a new vault refuses keys: ${added.error.type}`);
  return added.value;
}

/** Returns the id of the vault key that wraps what is new: of the newest epoch the one with the lowest id. */
export function currentVaultKey({ list, ring }: Vault): Result<string, KeyFault> {
  const [newest] = [...list.vaultKeys].sort((a, b) => b.epoch - a.epoch || (a.id < b.id ? -1 : 1));
  return newest && ring.keys.has(newest.id) ? ok(newest.id) : fail({ type: 'locked', vault: list.vault });
}

/** Returns the vault with keys for a stream; one that has some already is left as it is, one that was erased is refused [M10]. */
export async function addStream(
  vault: Vault,
  stream: string,
  random: World['random'],
): Promise<Result<Vault, KeyFault>> {
  const { list, ring } = vault;
  if (list.erased.includes(stream)) return fail({ type: 'erased', stream });
  if (list.streamKeys.some((key) => key.stream === stream)) return ok(vault);
  const by = currentVaultKey(vault);
  if (!by.ok) return by;
  const made = [
    await newStreamKey(vault, by.value, stream, 0, random),
    await newStreamKey(vault, by.value, stream, 1, random),
  ];
  return ok({ list: { ...list, streamKeys: [...list.streamKeys, ...made] }, ring });
}

/** Returns the open keys of a stream. Of two tag keys that devices made apart the one with the lowest id counts everywhere. */
export async function streamKeys(vault: Vault, stream: string): Promise<Result<StreamKeys, KeyFault>> {
  const { list } = vault;
  if (list.erased.includes(stream)) return fail({ type: 'erased', stream });
  const own = list.streamKeys.filter((key) => key.stream === stream);
  const open = await Promise.all(own.map(async (entry) => ({ entry, key: await openStreamKey(vault, entry) })));
  const held = open.flatMap(({ entry, key }) => (key ? [{ entry, key }] : []));
  held.sort((a, b) => b.entry.epoch - a.entry.epoch || (a.entry.id < b.entry.id ? -1 : 1));
  const tag = held.find(({ entry }) => entry.epoch === 0);
  const newest = held.find(({ entry }) => entry.epoch > 0);
  if (!tag || !newest)
    return fail(own.length > held.length ? { type: 'locked', vault: list.vault } : { type: 'no-key', stream });
  return ok({
    vault: list.vault,
    stream,
    tag: tag.key,
    current: epochName(newest.entry),
    epochs: new Map(held.filter(({ entry }) => entry.epoch > 0).map(({ entry, key }) => [epochName(entry), key])),
  });
}

/**
 * Returns the vault after a device was lost: a new vault key that opens the old ones, and a new epoch of every stream under it. Old
 * epochs stay for reading. Every door still leads to the old vault key: `doors.rotate` makes the new ones in the same act.
 */
export async function newEpoch(vault: Vault, random: World['random']): Promise<Result<Vault, KeyFault>> {
  const { list, ring } = vault;
  const current = currentVaultKey(vault);
  if (!current.ok) return current;
  const id = newId(random, 8);
  const key = owned(random(KEY_BYTES));
  const links = await Promise.all(
    [...ring.keys].map(async ([of, older]) => ({
      of,
      by: id,
      key: base64(await encrypt(key, older, linkBound(list.vault, of, id), random)),
    })),
  );
  const newest = Math.max(...list.vaultKeys.map((one) => one.epoch));
  const opened: Vault = {
    list: {
      ...list,
      vaultKeys: [...list.vaultKeys, { id, epoch: newest + 1 }],
      links: [...list.links, ...links],
    },
    ring: { vault: ring.vault, keys: new Map([...ring.keys, [id, key]]) },
  };
  const made: StreamKey[] = [];
  for (const stream of new Set(list.streamKeys.map((one) => one.stream))) {
    const last = Math.max(...list.streamKeys.filter((one) => one.stream === stream).map((one) => one.epoch));
    made.push(await newStreamKey(opened, id, stream, last + 1, random));
  }
  return ok({ list: { ...opened.list, streamKeys: [...list.streamKeys, ...made] }, ring: opened.ring });
}

/** Returns the vault with every older vault key that an open one leads to. */
export async function withOlderKeys({ list, ring }: Vault): Promise<Vault> {
  const keys = new Map(ring.keys);
  for (let grew = true; grew; ) {
    grew = false;
    for (const { of, by, key } of list.links) {
      const opener = keys.get(by);
      if (!opener || keys.has(of)) continue;
      const opened = await decrypt(opener, fromBase64(key) ?? new Uint8Array(), linkBound(list.vault, of, by));
      if (opened?.length !== KEY_BYTES) continue;
      keys.set(of, opened);
      grew = true;
    }
  }
  return { list, ring: { vault: ring.vault, keys } };
}

async function newStreamKey(
  { list, ring }: Vault,
  by: string,
  stream: string,
  epoch: number,
  random: World['random'],
): Promise<StreamKey> {
  const wrapping = ring.keys.get(by);
  if (!wrapping) throw new Error(`vault key ${by} is not open`);
  const entry = { id: newId(random, 8), stream, epoch, by };
  return { ...entry, key: base64(await encrypt(wrapping, random(KEY_BYTES), streamBound(list.vault, entry), random)) };
}

async function openStreamKey({ list, ring }: Vault, entry: StreamKey): Promise<Bytes | undefined> {
  const wrapping = ring.keys.get(entry.by);
  const sealed = fromBase64(entry.key);
  if (!wrapping || !sealed) return undefined;
  const key = await decrypt(wrapping, sealed, streamBound(list.vault, entry));
  return key?.length === KEY_BYTES ? key : undefined;
}

const epochName = ({ epoch, id }: StreamKey): string => `${epoch}-${id}`;

/** What a wrapped key is bound to: put anywhere else, it does not open. */
const streamBound = (vault: string, { id, stream, epoch, by }: Omit<StreamKey, 'key'>): Bytes =>
  utf8(canonical({ use: 'stream-key', vault, id, stream, epoch, by }));
const linkBound = (vault: string, of: string, by: string): Bytes =>
  utf8(canonical({ use: 'vault-key', vault, of, by }));
