import { describe, expect, test, vi } from 'vitest';
import {
  addDevice,
  openWithCode,
  openWithDevice,
  openWithPassphrase,
  rotate,
  setPassphrase,
  setRecoveryCode,
  shutDevice,
} from '../../src/sync/doors';
import { eraseKeys, type KeyList, mergeKeyLists, readKeyList } from '../../src/sync/keyList';
import { addStream, newVault, streamKeys, type Vault } from '../../src/sync/keys';
import { fault, findText, seeded, value } from './rig';

// stretching costs memory and time, on a busy machine much of it
vi.setConfig({ testTimeout: 60_000 });

/** The least that is read: a test need not wait for more. */
const LEAST = { type: 'argon2id', memory: 19_456, passes: 2, lanes: 1 };
const throughText = (list: KeyList): KeyList => value(readKeyList(JSON.parse(JSON.stringify(list))));
const plain = async (vault: Vault, stream: string) => {
  const { tag, current, epochs } = value(await streamKeys(vault, stream));
  return { tag, current, epochs };
};

describe('a vault', () => {
  test('what it writes by default is 64 MiB, three passes; the passphrase opens it again', async () => {
    const random = seeded(1);
    const vault = value(await setPassphrase(await newVault(random), 'côté and a half', random));
    expect(vault.list.doors[0]?.stretch).toEqual({ type: 'argon2id', memory: 65_536, passes: 3, lanes: 1 });
    const list = throughText(vault.list);
    // typed on a keyboard that puts accents apart
    const again = value(await openWithPassphrase(list, 'co\u0302te\u0301 and a half'));
    expect(await plain(again, 'main')).toEqual(await plain(vault, 'main'));
  });

  test('changing the passphrase wraps the vault key anew and nothing else; the old one is shut', async () => {
    const random = seeded(2);
    const first = value(await setPassphrase(await newVault(random), 'one', random, {}, LEAST));
    const second = value(await setPassphrase(first, 'two', random, {}, LEAST));
    expect(second.list.streamKeys).toEqual(first.list.streamKeys);
    expect(second.list.vaultKeys).toEqual(first.list.vaultKeys);
    expect(fault(await openWithPassphrase(second.list, 'one')).type).toBe('wrong-passphrase');
    expect(await plain(value(await openWithPassphrase(second.list, 'two')), 'main')).toEqual(
      await plain(first, 'main'),
    );
    expect(fault(await setPassphrase(first, '', random)).type).toBe('empty-passphrase');
  });

  test('two devices that changed it apart keep both passphrases', async () => {
    const random = seeded(3);
    const vault = value(await setPassphrase(await newVault(random), 'one', random, {}, LEAST));
    const a = value(await setPassphrase(vault, 'two', random, {}, LEAST));
    const b = value(await setPassphrase(vault, 'three', random, {}, LEAST));
    const merged = value(mergeKeyLists(a.list, b.list));
    for (const word of ['two', 'three']) expect((await openWithPassphrase(merged, word)).ok).toBe(true);
    expect((await openWithPassphrase(merged, 'one')).ok).toBe(false);
  });

  test('the recovery code opens it, however it is typed; a typing mistake is told as one', async () => {
    const random = seeded(4);
    const { vault, code } = value(await setRecoveryCode(await newVault(random), random));
    const list = throughText(vault.list);
    const typed = ` ${code.toLowerCase().replaceAll('-', ' ').replaceAll('0', 'o').replaceAll('1', 'l')}`;
    expect(await plain(value(await openWithCode(list, typed)), 'main')).toEqual(await plain(vault, 'main'));
    const wrong = (code.startsWith('7') ? '8' : '7') + code.slice(1);
    expect(fault(await openWithCode(list, wrong))).toEqual({ type: 'code-mistyped' });
    const other = value(await setRecoveryCode(await newVault(random), random));
    expect(fault(await openWithCode(list, other.code))).toEqual({ type: 'wrong-code' });
    expect(fault(await openWithCode((await newVault(random)).list, code))).toEqual({
      type: 'no-door',
      door: 'recovery',
    });
  });

  test('a paired device opens it with its own key until its door is shut', async () => {
    const random = seeded(5);
    const key = random(32);
    const vault = value(await addDevice(await newVault(random), 'laptop', key, random));
    expect(await plain(value(await openWithDevice(vault.list, 'laptop', key)), 'main')).toEqual(
      await plain(vault, 'main'),
    );
    expect(fault(await openWithDevice(vault.list, 'laptop', random(32))).type).toBe('wrong-device-key');
    expect(fault(await openWithDevice(vault.list, 'tablet', key)).type).toBe('no-door');
    expect(fault(await openWithDevice(shutDevice(vault.list, 'laptop'), 'laptop', key)).type).toBe('no-door');
  });

  test('a list shows no key, in any form', async () => {
    const random = seeded(6);
    const { vault, code } = value(await setRecoveryCode(await newVault(random), random));
    const text = JSON.stringify(vault.list);
    const { tag, epochs } = value(await streamKeys(vault, 'main'));
    for (const key of [tag, ...epochs.values(), ...vault.ring.keys.values()]) {
      expect(text).not.toContain(Buffer.from(key).toString('base64').slice(0, 20));
      expect(text).not.toContain(Buffer.from(key).toString('hex').slice(0, 20));
      expect(findText(Buffer.from(text), Buffer.from(key).toString('latin1'))).toBe(-1);
    }
    expect(text).not.toContain(code.slice(0, 9));
  });

  test('no entry opens in another place', async () => {
    const random = seeded(7);
    const vault = value(await addStream(await newVault(random), 'c1', random));
    const moved = vault.list.streamKeys.map((one) => ({ ...one, stream: one.stream === 'c1' ? 'main' : 'c1' }));
    expect((await streamKeys({ ...vault, list: { ...vault.list, streamKeys: moved } }, 'c1')).ok).toBe(false);
    const turned = vault.list.streamKeys.map((one) => ({ ...one, epoch: one.epoch + 1 }));
    expect((await streamKeys({ ...vault, list: { ...vault.list, streamKeys: turned } }, 'c1')).ok).toBe(false);
  });
});

describe('after a lost phone', () => {
  test('every stream has a new epoch under a new vault key, old epochs stay for reading, older doors are shut', async () => {
    const random = seeded(8);
    const before = value(
      await addStream(value(await setPassphrase(await newVault(random), 'old', random, {}, LEAST)), 'c1', random),
    );
    const { vault, code } = value(await rotate(before, 'new', random, {}, LEAST));
    for (const stream of ['main', 'c1']) {
      const [was, is] = [await plain(before, stream), await plain(vault, stream)];
      expect(is.tag).toEqual(was.tag);
      expect(is.current).not.toBe(was.current);
      expect(is.epochs.get(was.current)).toEqual(was.epochs.get(was.current));
      expect(is.epochs.size).toBe(2);
      // the key that the lost phone holds opens nothing of the new epoch
      const thief = value(await streamKeys({ list: vault.list, ring: before.ring }, stream));
      expect([...thief.epochs.keys()]).toEqual([was.current]);
    }
    expect(fault(await openWithPassphrase(vault.list, 'old')).type).toBe('wrong-passphrase');
    const list = throughText(vault.list);
    for (const again of [await openWithPassphrase(list, 'new'), await openWithCode(list, code)])
      expect(await plain(value(again), 'c1')).toEqual(await plain(vault, 'c1'));
    expect(fault(await addStream({ list, ring: before.ring }, 'c2', random)).type).toBe('locked');
  });
});

describe('two lists', () => {
  test('become one by union, in whatever order, and only grow', async () => {
    const random = seeded(9);
    const vault = await newVault(random);
    const a = value(await addStream(vault, 'c1', random));
    const b = value(await addStream(value(await addStream(vault, 'c1', random)), 'c2', random));
    const one = value(mergeKeyLists(a.list, b.list));
    expect(value(mergeKeyLists(b.list, a.list))).toEqual(one);
    expect(value(mergeKeyLists(one, one))).toEqual(one);
    expect(value(mergeKeyLists(one, a.list))).toEqual(one);
    for (const entry of [...a.list.streamKeys, ...b.list.streamKeys]) expect(one.streamKeys).toContainEqual(entry);
    // both made keys for c1: both are read, and every device comes to the same tag key
    const [x, y] = [await plain({ list: one, ring: a.ring }, 'c1'), await plain({ list: one, ring: b.ring }, 'c1')];
    expect(x).toEqual(y);
    expect(x.epochs.size).toBe(2);
  });

  test('an entry with the id of another does not replace it', async () => {
    const random = seeded(10);
    const vault = await newVault(random);
    const forged = vault.list.streamKeys.map((one) => ({ ...one, key: 'AAAA' }));
    const merged = value(mergeKeyLists(vault.list, { ...vault.list, streamKeys: forged }));
    expect(await plain({ list: merged, ring: vault.ring }, 'main')).toEqual(await plain(vault, 'main'));
  });

  test('what a newer app put in survives, and its doors are kept', async () => {
    const random = seeded(11);
    const vault = await newVault(random);
    const newer = {
      ...vault.list,
      passkeys: [1],
      doors: [{ id: 'd1', type: 'passkey', of: 'k', key: 'AAAA', prf: true }],
    };
    const merged = value(mergeKeyLists(vault.list, throughText(newer as unknown as KeyList)));
    expect(merged).toMatchObject({ passkeys: [1], doors: newer.doors });
  });

  test('of two vaults never become one', async () => {
    const random = seeded(12);
    const [a, b] = [await newVault(random), await newVault(random)];
    expect(fault(mergeKeyLists(a.list, b.list)).type).toBe('another-vault');
  });

  test('[M10] an erased client loses its keys in every epoch, for ever and everywhere', async () => {
    const random = seeded(13);
    const vault = value(await addStream(await newVault(random), 'c1', random));
    const erased = eraseKeys(vault.list, 'c1');
    expect(JSON.stringify(erased.streamKeys)).not.toContain('c1');
    for (const list of [value(mergeKeyLists(erased, vault.list)), value(mergeKeyLists(vault.list, erased))]) {
      expect(list).toEqual(value(mergeKeyLists(erased, erased)));
      expect(fault(await streamKeys({ list, ring: vault.ring }, 'c1')).type).toBe('erased');
      expect(fault(await addStream({ list, ring: vault.ring }, 'c1', random)).type).toBe('erased');
    }
    const turned = value(await rotate({ list: erased, ring: vault.ring }, 'new', random, {}, LEAST)).vault;
    expect(turned.list.streamKeys.every((key) => key.stream === 'main')).toBe(true);
    expect(() => eraseKeys(vault.list, 'main')).toThrow();
  });
});

describe('a list from outside', () => {
  test.each([
    ['nothing', null, 'not-a-key-list'],
    ['a text', 'cuewright-keys/1', 'not-a-key-list'],
    ['another format', { format: 'other/1' }, 'not-a-key-list'],
    ['a newer format', { format: 'cuewright-keys/2' }, 'newer-format'],
    ['fields missing', { format: 'cuewright-keys/1', vault: 'v' }, 'not-a-key-list'],
  ])('%s', (_, raw, type) => expect(fault(readKeyList(raw)).type).toBe(type));

  test('a door weaker than the floor, or harder than the ceiling, is refused before anything is computed', async () => {
    const random = seeded(14);
    const vault = value(await setPassphrase(await newVault(random), 'one', random, {}, LEAST));
    for (const [memory, type] of [
      [8, 'weak-stretch'],
      [4_000_000, 'heavy-stretch'],
    ] as const) {
      const doors = vault.list.doors.map((door) => ({ ...door, stretch: { ...LEAST, memory } }));
      expect(fault(await openWithPassphrase({ ...vault.list, doors }, 'one')).type).toBe(type);
    }
    const doors = vault.list.doors.map((door) => ({ ...door, stretch: { ...LEAST, passes: 3 } }));
    expect(fault(await openWithPassphrase({ ...vault.list, doors }, 'one')).type).toBe('wrong-passphrase');
  });
});
