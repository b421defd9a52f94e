import * as z from 'zod/mini';
import { fail, ok, type Result } from './domain/result';
import type { World } from './domain/world';
import { thisDevice } from './log/deviceNames';
import { keepHere, keptHere } from './log/kept';
import type { Log } from './log/log';
import type { Json } from './merge/row';
import { base64, fromBase64, owned } from './sync/bytes';
import { addDevice, openWithDevice } from './sync/doors';
import { eraseKeys, type KeyList, readKeyList } from './sync/keyList';
import { addStream, type KeyFault, newVault, type Vault } from './sync/keys';
import type { KeptFault, SealedBefore } from './ui/sealing';

/*
 * This device's keys as they are kept: the vault's key list, this device's own key that opens it, and what was sealed so far. They lie beside the rows
 * and no safer than these: what protects both is the phone's own lock and encryption.
 */

const NAME = 'keys';
const FORMAT = 'cuewright-kept-keys/1';
const MOST_SEALED = 500;

const keptSchema = z.looseObject({
  format: z.literal(FORMAT),
  list: z.unknown(),
  device: z.string(),
  deviceKey: z.string(),
  seed: z.string(),
  words: z.nullable(z.string()),
  code: z.nullable(z.object({ made: z.number(), confirmed: z.nullable(z.number()) })),
  sealed: z.array(
    z.object({ at: z.number(), what: z.enum(['vault', 'clients', 'handover']), streams: z.array(z.string()) }),
  ),
});

export type KeptKeys = {
  readonly list: KeyList;
  /** What this device is called in its door, and its 32 bytes in base64. */
  readonly device: string;
  readonly deviceKey: string;
  /** Of the device's signature, in base64. */
  readonly seed: string;
  readonly words: string | null;
  readonly code: { readonly made: number; readonly confirmed: number | null } | null;
  readonly sealed: readonly SealedBefore[];
};

/** The kept keys with the vault they open. */
export type OpenKeys = { readonly kept: KeptKeys; readonly vault: Vault };

/** Runs one change of the keys after the other: two at once would each write over what the other kept. */
export type InTurn = <T>(change: () => Promise<T>) => Promise<T>;

/** Returns what is kept; undefined where no vault was made yet. */
export async function readKeys(log: Log): Promise<Result<KeptKeys | undefined, KeptFault>> {
  const raw = await keptHere(log, NAME);
  if (raw === undefined) return ok(undefined);
  if (raw === 'unread') return fail({ type: 'unread' });
  const kept = z.safeParse(keptSchema, raw);
  const list = kept.success ? readKeyList(kept.data.list) : undefined;
  return kept.success && list?.ok ? ok({ ...kept.data, list: list.value }) : fail({ type: 'damaged-keys' });
}

/** Keeps keys in the place of those that were kept. */
export async function keepKeys(log: Log, kept: KeptKeys): Promise<Result<void, KeptFault>> {
  const sealed = kept.sealed.slice(-MOST_SEALED);
  return keepHere(log, NAME, { ...kept, sealed, format: FORMAT } as unknown as Json);
}

/**
 * Returns the open keys of this device, with keys for `streams`, and none for clients that were erased since [M10]; a new vault where there
 * is none. What changed is kept.
 */
export async function openKeys(
  log: Log,
  { random }: Pick<World, 'random'>,
  streams: readonly string[],
): Promise<Result<OpenKeys, KeptFault | KeyFault>> {
  const read = await readKeys(log);
  if (!read.ok) return read;
  const before = read.value ?? (await newKeys(log, random));
  const list = erasedFrom(log, before.list);
  const opened = await openWithDevice(list, before.device, deviceKeyOf(before));
  if (!opened.ok) return fail({ type: 'locked', vault: list.vault });
  let vault = opened.value;
  for (const stream of streams) {
    const added = await addStream(vault, stream, random);
    // erased on another device, and not yet here: no file needs its key
    if (!added.ok && added.error.type !== 'erased') return added;
    if (added.ok) vault = added.value;
  }
  const kept = { ...before, list: vault.list };
  if (read.value && vault.list === read.value.list) return ok({ kept, vault });
  const saved = await keepKeys(log, kept);
  return saved.ok ? ok({ kept, vault }) : saved;
}

/** Returns the keys of this device in a vault that was opened otherwise: its doors get one for this device, and what else was kept stays. */
export async function enterVault(
  log: Log,
  vault: Vault,
  { random }: Pick<World, 'random'>,
): Promise<Result<OpenKeys, KeptFault | KeyFault>> {
  const read = await readKeys(log);
  // keys that cannot be read are no use: those of the vault that was just opened take their place
  if (!read.ok && read.error.type !== 'damaged-keys') return read;
  const kept = (read.ok && read.value) || freshKeys(log, vault.list, random);
  const added = await addDevice(vault, kept.device, deviceKeyOf(kept), random);
  if (!added.ok) return fail({ type: 'locked', vault: vault.list.vault });
  const isOther = kept.list.vault !== vault.list.vault;
  const entered = { ...kept, list: added.value.list, ...(isOther ? { words: null, code: null } : {}) };
  const saved = await keepKeys(log, entered);
  return saved.ok ? ok({ kept: entered, vault: added.value }) : saved;
}

/** Returns a list without the keys of clients that the log has erased. */
function erasedFrom(log: Log, list: KeyList): KeyList {
  const known = new Set(list.erased);
  const fresh = log.ofKind('erased').flatMap(({ id }) => (known.has(id) ? [] : [id]));
  return fresh.length > 0 ? eraseKeys(list, ...fresh) : list;
}

async function newKeys(log: Log, random: World['random']): Promise<KeptKeys> {
  const vault = await newVault(random);
  const kept = freshKeys(log, vault.list, random);
  const added = await addDevice(vault, kept.device, deviceKeyOf(kept), random);
  if (!added.ok) throw new Error(`a new vault refuses its device: ${added.error.type}`);
  return { ...kept, list: added.value.list };
}

const freshKeys = (log: Log, list: KeyList, random: World['random']): KeptKeys => ({
  list,
  device: thisDevice(log) || 'device',
  deviceKey: base64(owned(random(32))),
  seed: base64(owned(random(32))),
  words: null,
  code: null,
  sealed: [],
});

/** Returns the key that opens this device's door. */
export const deviceKeyOf = ({ deviceKey }: KeptKeys): Uint8Array => fromBase64(deviceKey) ?? new Uint8Array();
