import { fail, ok, type Result } from './domain/result';
import type { World } from './domain/world';
import {
  deviceKeyOf,
  enterVault,
  type InTurn,
  type KeptKeys,
  keepKeys,
  type OpenKeys,
  openKeys,
  readKeys,
} from './keysHere';
import type { Log } from './log/log';
import { kindOf, open, openList } from './sealIn';
import { seal } from './sealOut';
import {
  addDevice,
  type DoorFault,
  openDoors,
  openWithCode,
  openWithDevice,
  rotate,
  setPassphrase,
  setRecoveryCode,
} from './sync/doors';
import { currentVaultKey } from './sync/keys';
import { newPhrase } from './sync/phrase';
import type { KeptFault, KeysState, Sealing } from './ui/sealing';

/** Joins this device's keys, the sealed files and the log into what the screens ask of them; `app` is what this build is called. */
export function createSealing(log: Log, world: World, app: string): Sealing {
  let last: Promise<unknown> = Promise.resolve();
  const inTurn: InTurn = (change) => {
    const next = last.then(change, change);
    last = next.catch(() => undefined);
    return next;
  };
  const deps = { log, world, app, inTurn };

  async function changed<T>(
    change: (keys: OpenKeys) => Promise<Result<{ keys: OpenKeys; value: T }, DoorFault | KeptFault>>,
  ): Promise<Result<T, DoorFault | KeptFault>> {
    return inTurn(async () => {
      const keys = await openKeys(log, world, []);
      if (!keys.ok) return keys;
      const next = await change(keys.value);
      if (!next.ok) return next;
      const { kept, vault } = next.value.keys;
      const saved = await keepKeys(log, { ...kept, list: vault.list });
      return saved.ok ? ok(next.value.value) : saved;
    });
  }

  return {
    keys: () => stateOf(log),
    newCode: () =>
      changed(async ({ kept, vault }) => {
        const made = await setRecoveryCode(vault, world.random);
        if (!made.ok) return made;
        const code = { made: world.now(), confirmed: null };
        return ok({ keys: { kept: { ...kept, code }, vault: made.value.vault }, value: made.value.code });
      }),
    confirmCode: (typed) =>
      changed(async (keys) => {
        const right = await openWithCode(keys.vault.list, typed);
        if (!right.ok) return right;
        const code = { made: keys.kept.code?.made ?? world.now(), confirmed: world.now() };
        return ok({ keys: { ...keys, kept: { ...keys.kept, code } }, value: undefined });
      }),
    setPassphrase: (passphrase, watch) =>
      changed(async ({ kept, vault }) => {
        const set = await setPassphrase(vault, passphrase, world.random, watch);
        return set.ok ? ok({ keys: { kept, vault: set.value }, value: undefined }) : set;
      }),
    unlock: (secret, watch) =>
      inTurn(async () => {
        const kept = await readKeys(log);
        if (!kept.ok) return kept;
        if (!kept.value) return fail({ type: 'no-door', door: 'recovery' });
        const opened = await openList(kept.value.list, secret, watch);
        if (!opened.ok) return opened;
        const entered = await enterVault(log, opened.value, world);
        return entered.ok ? ok(undefined) : entered;
      }),
    rotate: (passphrase, watch) =>
      changed(async ({ kept, vault }) => {
        const turned = await rotate(vault, passphrase, world.random, watch);
        if (!turned.ok) return turned;
        const here = await addDevice(turned.value.vault, kept.device, deviceKeyOf(kept), world.random);
        if (!here.ok) return here;
        const code = { made: world.now(), confirmed: null };
        const words = kept.words === null ? null : await newPhrase(world.random);
        return ok({ keys: { kept: { ...kept, code, words }, vault: here.value }, value: turned.value.code });
      }),
    newWords: () =>
      changed(async (keys) => {
        const words = await newPhrase(world.random);
        return ok({ keys: { ...keys, kept: { ...keys.kept, words } }, value: undefined });
      }),
    forgetErased: () =>
      inTurn(async () => {
        const kept = await readKeys(log);
        if (kept.ok && kept.value) await openKeys(log, world, []);
      }),
    async isOwner(secret) {
      const kept = await readKeys(log);
      // that keys could not be read does not say that none were made
      if (!kept.ok) throw new Error(`the keys: ${kept.error.type}`);
      if (!kept.value || !hasDoor(kept.value)) return 'none-made';
      return (await openList(kept.value.list, secret)).ok ? 'yes' : 'no';
    },
    async hasWayBack() {
      const kept = await readKeys(log);
      return kept.ok && kept.value !== undefined && hasDoor(kept.value);
    },
    seal: (order, watch) => inTurn(() => seal(deps, order, watch)),
    kindOf,
    open: (file, words, watch) => open(deps, file, words, watch),
  };
}

async function stateOf(log: Log): Promise<KeysState | 'unread' | 'damaged'> {
  const read = await readKeys(log);
  if (!read.ok) return read.error.type === 'damaged-keys' ? 'damaged' : 'unread';
  const kept = read.value;
  if (!kept) return { made: false, words: null, code: null, hasPassphrase: false, locked: false, sealed: [] };
  const opened = await openWithDevice(kept.list, kept.device, deviceKeyOf(kept));
  return {
    made: true,
    words: kept.words,
    code: openDoors(kept.list, 'recovery').length > 0 ? (kept.code ?? { made: null, confirmed: null }) : null,
    hasPassphrase: openDoors(kept.list, 'passphrase').length > 0,
    locked: !opened.ok || !currentVaultKey(opened.value).ok,
    sealed: kept.sealed,
  };
}

const hasDoor = ({ list }: KeptKeys): boolean =>
  openDoors(list, 'recovery').length + openDoors(list, 'passphrase').length > 0;
