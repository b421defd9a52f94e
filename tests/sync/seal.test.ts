import { describe, expect, test, vi } from 'vitest';
import { canonicalRow } from '../../src/merge/canonical';
import { mergeRows } from '../../src/merge/merge';
import type { Row } from '../../src/merge/row';
import { rotate } from '../../src/sync/doors';
import { streamKeys } from '../../src/sync/keys';
import { paddedLength } from '../../src/sync/padding';
import { newLaunch, openRow, type SealedRow, sealRow, tagOf } from '../../src/sync/seal';
import { below, fault, findText, held, seeded, session, value, vaultWith } from './rig';

vi.setConfig({ testTimeout: 60_000 });

const random = seeded(30);
const { vault, keys } = await vaultWith(31, 'c1', 'c2');
const [k1, k2] = keys as [(typeof keys)[0], (typeof keys)[0]];
const launch = newLaunch(random);
const row = session('c1', 's1');
const sealed = await sealRow(row, k1, launch, random);

const CANARY = 'kanarienvogel-9f2c';
const strange: Row = {
  id: 'r-unknown',
  kind: 'fromANewerApp',
  stream: 'c1',
  seen: { 'p-1': 7, constructor: 2 },
  body: {
    'newer/path': [held(7, 'p-1', { deep: [{ x: CANARY }], '😀': null }), held(6, 'q-2', -0.0000033)],
    note: [held(3, 'p-1', `${CANARY} "quoted" \u2028 \ud800`)],
    toString: [held(2, 'constructor', null)] as const,
  },
};

describe('a sealed row', () => {
  test.each([
    ['a session', row],
    ['unknown kinds, paths and values, and siblings [M8]', strange],
    ['300 sets', session('c1', 's2', 300)],
  ])('%s comes back as it was', async (_, one) => {
    const through = await sealRow(one, k1, launch, random);
    expect(canonicalRow(value(await openRow(through, k1)))).toBe(canonicalRow(one));
  });

  test('two devices that hold the same seal it under the same tag, and under nothing else that is the same', async () => {
    const merged = value(mergeRows(row, { ...row, body: { ...row.body, why: [held(9, 'z-1', 'x')] } }));
    const other = newLaunch(random);
    const [a, b] = [await sealRow(merged, k1, launch, random), await sealRow(merged, k1, other, random)];
    expect(a.header.tag).toBe(b.header.tag);
    expect(Buffer.compare(a.bytes.subarray(0, 12), b.bytes.subarray(0, 12))).not.toBe(0);
    expect(a.header.launch).not.toBe(b.header.launch);
    expect(a.header.tag).not.toBe(sealed.header.tag);
    // in another stream the same words have another tag
    expect(tagOf(row, k1)).not.toBe(tagOf(row, k2));
  });

  test('the tag outlives the epoch, and rows of the old one still open', async () => {
    const least = { type: 'argon2id', memory: 19_456, passes: 2, lanes: 1 };
    const turned = value(await rotate(vault, 'word', random, {}, least)).vault;
    const after = value(await streamKeys(turned, 'c1'));
    const again = await sealRow(row, after, launch, random);
    expect(again.header.tag).toBe(sealed.header.tag);
    expect(again.header.epoch).not.toBe(sealed.header.epoch);
    expect(value(await openRow(sealed, after))).toEqual(row);
    expect(fault(await openRow(again, k1))).toEqual({ type: 'no-epoch', epoch: again.header.epoch });
  });

  test('shows nothing of what it holds', async () => {
    const through = await sealRow(strange, k1, launch, random);
    const outside = Buffer.concat([Buffer.from(JSON.stringify(through.header)), through.bytes]);
    for (const word of [CANARY, 'fromANewerApp', 'newer/path', 'p-1']) expect(findText(outside, word)).toBe(-1);
    expect(findText(outside, 'r-unknown')).toBeGreaterThan(-1);
  });

  test('rows of nearly one length have one length outside', async () => {
    const lengths = new Set<number>();
    for (let n = 0; n < 40; n += 1) {
      const note = [held(30, 'p-1', 'x'.repeat(n))] as const;
      lengths.add((await sealRow({ ...row, body: { ...row.body, note } }, k1, launch, random)).bytes.length);
    }
    expect(lengths.size).toBeLessThanOrEqual(3);
  });

  test('is refused in another vault, stream, row, epoch or launch, and under another tag', async () => {
    const elsewhere = (await vaultWith(32, 'c1')).keys[0]!;
    expect(fault(await openRow(sealed, elsewhere)).type).toBe('another-place');
    expect(fault(await openRow(sealed, k2)).type).toBe('another-place');
    const moved: readonly Partial<SealedRow['header']>[] = [
      { row: 's2' },
      { tag: tagOf(strange, k1) },
      { launch: newLaunch(random).salt },
      { stream: 'c2' },
      { vault: elsewhere.vault },
    ];
    for (const part of moved) {
      const header = { ...sealed.header, ...part };
      for (const open of [k1, k2, elsewhere])
        expect((await openRow({ header, bytes: sealed.bytes }, open)).ok).toBe(false);
      // the same key under the name that is claimed: the header is bound
      const claimed = { ...k1, stream: header.stream, vault: header.vault };
      expect(fault(await openRow({ header, bytes: sealed.bytes }, claimed))).toEqual({ type: 'refused', at: 'key' });
    }
  });

  test('there is no plaintext mode and no older algorithm', async () => {
    for (const algorithm of ['none', '', 'aes256gcm-gzip/2', 'plain']) {
      const refused = fault(await openRow({ header: { ...sealed.header, algorithm }, bytes: sealed.bytes }, k1));
      expect(refused.type).toBe(algorithm === '' ? 'not-a-sealed-row' : 'newer-sealing');
    }
    const plain = new TextEncoder().encode(JSON.stringify(row));
    expect((await openRow({ header: sealed.header, bytes: plain }, k1)).ok).toBe(false);
    expect((await openRow({ header: null, bytes: plain }, k1)).ok).toBe(false);
    expect((await openRow({ header: { ...sealed.header, more: 1 }, bytes: sealed.bytes }, k1)).ok).toBe(false);
  });

  test('no changed byte of it opens, and no piece of it', async () => {
    for (let at = 0; at < sealed.bytes.length; at += 1) {
      const changed = sealed.bytes.slice();
      changed[at] = changed[at]! ^ (1 << below(random, 8));
      expect((await openRow({ header: sealed.header, bytes: changed }, k1)).ok).toBe(false);
      expect((await openRow({ header: sealed.header, bytes: sealed.bytes.subarray(0, at) }, k1)).ok).toBe(false);
    }
  });

  test('a row of another stream is not sealed: that is a bug', async () => {
    await expect(sealRow(session('c2', 's1'), k1, launch, random)).rejects.toThrow('not sealed');
  });
});

describe('Padmé', () => {
  test.each([
    [0, 0],
    [1, 1],
    [2, 2],
    [9, 10],
    [100, 104],
    [1000, 1024],
    [100_000, 100_352],
    [1_000_000, 1_015_808],
  ])('%i becomes %i', (length, padded) => expect(paddedLength(length)).toBe(padded));

  test('never less, never over 12 % more', () => {
    for (let length = 1; length < 5000; length += 1) {
      const more = paddedLength(length) / length;
      expect(more).toBeGreaterThanOrEqual(1);
      expect(more).toBeLessThan(1.12);
    }
  });
});
