import { newId } from '../domain/ids';
import { fail, ok, type Result } from '../domain/result';
import type { World } from '../domain/world';
import { canonical } from '../merge/canonical';
import { decrypt, derive, encrypt, KEY_BYTES } from './aead';
import { type Bytes, base64, fromBase64, owned, utf8 } from './bytes';
import type { Watch } from './derive';
import type { Door, KeyList } from './keyList';
import { currentVaultKey, type KeyFault, newEpoch, type Vault, withOlderKeys } from './keys';
import { type CodeFault, newRecoveryCode, parseRecoveryCode } from './recovery';
import { STRETCH, type Stretch, type StretchFault, stretched } from './stretch';

/*
 * Doors: what opens a vault key. A passphrase (stretched), a recovery code (random enough to need no stretching), a paired device's own key.
 * Making a door wraps the vault key once more and re-encrypts nothing else.
 */

export type DoorType = 'passphrase' | 'recovery' | 'device';
export type DoorFault =
  | StretchFault
  | CodeFault
  | KeyFault
  | { readonly type: 'empty-passphrase' }
  | { readonly type: 'no-door'; readonly door: DoorType }
  | { readonly type: 'wrong-passphrase' }
  | { readonly type: 'wrong-code' }
  | { readonly type: 'wrong-device-key' };

const SALT_BYTES = 16;
/** A list with a hundred doors would cost a hundred seconds. Changes made apart leave a few at most. */
const MOST_TRIED = 4;

/** Returns the vault with a door for a passphrase; every other passphrase is shut. Changing it is this and nothing else. */
export async function setPassphrase(
  vault: Vault,
  passphrase: string,
  random: World['random'],
  watch: Watch = {},
  stretch: Stretch = STRETCH,
): Promise<Result<Vault, DoorFault>> {
  if (passphrase === '') return fail({ type: 'empty-passphrase' });
  const salt = owned(random(SALT_BYTES));
  const key = await stretched(passphrase, salt, stretch, watch);
  return key.ok ? withDoor(vault, 'passphrase', key.value, { salt: base64(salt), stretch }, random) : key;
}

/** Returns the vault with a door for a new recovery code, and the code, which is shown once; every other code is shut. */
export async function setRecoveryCode(
  vault: Vault,
  random: World['random'],
): Promise<Result<{ readonly vault: Vault; readonly code: string }, DoorFault>> {
  const code = newRecoveryCode(random);
  const salt = owned(random(SALT_BYTES));
  const opened = await withDoor(vault, 'recovery', codeKey(code, salt), { salt: base64(salt) }, random);
  return opened.ok ? ok({ vault: opened.value, code }) : opened;
}

/** Returns the vault with a door for a paired device, which holds `key` (32 bytes) itself; its older doors are shut. */
export function addDevice(
  vault: Vault,
  device: string,
  key: Uint8Array,
  random: World['random'],
): Promise<Result<Vault, DoorFault>> {
  return withDoor(vault, 'device', key, { device }, random);
}

/** Returns the list with every door of a device shut. What it already knew it still knows: see `rotate`. */
export function shutDevice(list: KeyList, device: string): KeyList {
  return { ...list, shut: [...list.shut, ...openDoors(list, 'device', device).map((door) => door.id)] };
}

/** Returns the open vault, or why the passphrase does not open it. */
export async function openWithPassphrase(
  list: KeyList,
  passphrase: string,
  watch: Watch = {},
): Promise<Result<Vault, DoorFault>> {
  const doors = openDoors(list, 'passphrase').slice(0, MOST_TRIED);
  const keys = new Map<string, Bytes>();
  let refused: StretchFault | undefined;
  for (const [n, door] of doors.entries()) {
    const tick = (done: number): void => watch.tick?.((n + done) / doors.length);
    const salt = fromBase64(door.salt ?? '') ?? new Uint8Array();
    const key = await stretched(passphrase, salt, door.stretch ?? { ...STRETCH, type: 'none' }, { ...watch, tick });
    if (!key.ok && key.error.type === 'cancelled') return key;
    if (!key.ok) refused = key.error;
    const opened = key.ok ? await throughDoor(list.vault, door, key.value) : undefined;
    if (opened) keys.set(door.of, opened);
  }
  if (keys.size > 0) return entered(list, keys);
  return fail(refused ?? (doors.length === 0 ? { type: 'no-door', door: 'passphrase' } : { type: 'wrong-passphrase' }));
}

/** Returns the open vault, or why the recovery code does not open it; a typing mistake is told before anything is tried. */
export async function openWithCode(list: KeyList, typed: string): Promise<Result<Vault, DoorFault>> {
  const code = parseRecoveryCode(typed);
  if (!code.ok) return code;
  return openFirst(list, openDoors(list, 'recovery'), 'recovery', (door) =>
    codeKey(code.value, fromBase64(door.salt ?? '') ?? new Uint8Array()),
  );
}

/** Returns the open vault, or why a device's own key does not open it. */
export function openWithDevice(list: KeyList, device: string, key: Uint8Array): Promise<Result<Vault, DoorFault>> {
  return openFirst(list, openDoors(list, 'device', device), 'device', () => key);
}

/**
 * Returns the vault after a device was lost: a new epoch of every key, a door for the passphrase (a new one, if the old may be known) and one
 * for a new recovery code; all older doors are shut, so other devices pair again. What the lost device had already received stays readable to
 * whoever opens it.
 */
export async function rotate(
  vault: Vault,
  passphrase: string,
  random: World['random'],
  watch: Watch = {},
  stretch: Stretch = STRETCH,
): Promise<Result<{ readonly vault: Vault; readonly code: string }, DoorFault>> {
  const turned = await newEpoch(vault, random);
  if (!turned.ok) return turned;
  const list = { ...turned.value.list, shut: [...vault.list.shut, ...vault.list.doors.map((door) => door.id)] };
  const opened = await setPassphrase({ ...turned.value, list }, passphrase, random, watch, stretch);
  return opened.ok ? setRecoveryCode(opened.value, random) : opened;
}

/** Returns the doors of a type that are not shut. */
export function openDoors(list: KeyList, type: DoorType, device?: string): readonly Door[] {
  return list.doors.filter(
    (door) => door.type === type && !list.shut.includes(door.id) && (device === undefined || door.device === device),
  );
}

async function withDoor(
  vault: Vault,
  type: DoorType,
  key: Uint8Array,
  more: Pick<Door, 'salt' | 'stretch' | 'device'>,
  random: World['random'],
): Promise<Result<Vault, DoorFault>> {
  const current = currentVaultKey(vault);
  if (!current.ok) return current;
  const { list, ring } = vault;
  const vaultKey = ring.keys.get(current.value);
  if (!vaultKey) throw new Error(`vault key ${current.value} is not open`);
  const door = { ...more, id: newId(random, 8), type, of: current.value };
  const sealed = base64(await encrypt(key, vaultKey, doorBound(list.vault, door), random));
  const shut = openDoors(list, type, more.device).map((one) => one.id);
  return ok({
    list: { ...list, doors: [...list.doors, { ...door, key: sealed }], shut: [...list.shut, ...shut] },
    ring,
  });
}

async function openFirst(
  list: KeyList,
  doors: readonly Door[],
  type: 'recovery' | 'device',
  keyOf: (door: Door) => Uint8Array,
): Promise<Result<Vault, DoorFault>> {
  const keys = new Map<string, Bytes>();
  for (const door of doors) {
    const opened = await throughDoor(list.vault, door, keyOf(door));
    if (opened) keys.set(door.of, opened);
  }
  if (keys.size > 0) return entered(list, keys);
  if (doors.length === 0) return fail({ type: 'no-door', door: type });
  return fail({ type: type === 'recovery' ? 'wrong-code' : 'wrong-device-key' });
}

const entered = async (list: KeyList, keys: ReadonlyMap<string, Bytes>): Promise<Result<Vault, DoorFault>> =>
  ok(await withOlderKeys({ list, ring: { vault: list.vault, keys } }));

async function throughDoor(vault: string, door: Door, key: Uint8Array): Promise<Bytes | undefined> {
  const sealed = fromBase64(door.key);
  const opened = sealed && (await decrypt(key, sealed, doorBound(vault, door)));
  return opened?.length === KEY_BYTES ? opened : undefined;
}

const codeKey = (code: string, salt: Uint8Array): Bytes =>
  derive(utf8(code.replaceAll('-', '')), salt, 'cuewright recovery code');

/** Binds the parameters too: a blob whose parameters were changed does not open under the right passphrase. */
const doorBound = (vault: string, { id, type, of, salt, stretch, device }: Omit<Door, 'key'>): Bytes =>
  utf8(
    canonical({
      use: 'door',
      vault,
      id,
      type,
      of,
      salt: salt ?? null,
      device: device ?? null,
      stretch: stretch
        ? { type: stretch.type, memory: stretch.memory, passes: stretch.passes, lanes: stretch.lanes }
        : null,
    }),
  );
