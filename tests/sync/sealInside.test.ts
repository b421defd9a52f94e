import { expect, test, vi } from 'vitest';
import { canonical, canonicalRow } from '../../src/merge/canonical';
import { derive, encrypt } from '../../src/sync/aead';
import { fromBase64, joined, utf8 } from '../../src/sync/bytes';
import { gzip } from '../../src/sync/gzip';
import { padded } from '../../src/sync/padding';
import { newLaunch, openRow, SEALING, type SealHeader, tagOf } from '../../src/sync/seal';
import { fault, seeded, session, value, vaultWith } from './rig';

vi.setConfig({ testTimeout: 60_000 });

/*
 * Sealed by someone who holds the stream's key, and does not keep to the form: a broken app, or a stolen device.
 */

const random = seeded(80);
const keys = (await vaultWith(81, 'c1')).keys[0]!;
const row = session('c1', 's1');
const launch = newLaunch(random).salt;
const right: SealHeader = {
  vault: keys.vault,
  stream: 'c1',
  row: 's1',
  tag: tagOf(row, keys),
  epoch: keys.current,
  algorithm: SEALING,
  launch,
};
const inside = (header: SealHeader, text = canonicalRow(row)): string =>
  `{"header":${canonical(header)},"row":${text}}`;

async function sealedAs(header: SealHeader, plain: Uint8Array) {
  const key = derive(keys.epochs.get(keys.current)!, fromBase64(header.launch)!, `cuewright row ${SEALING}`);
  const bound = joined(utf8('cuewright sealed row\n'), utf8(canonical(header)));
  return openRow({ header, bytes: await encrypt(key, plain, bound, random) }, keys);
}
const packed = async (text: string): Promise<Uint8Array> => padded(await gzip(utf8(text)));

test('in the right form it opens', async () => {
  expect(value(await sealedAs(right, await packed(inside(right))))).toEqual(row);
});

const OTHER = { ...right, tag: tagOf(session('c1', 's1', 4), keys) };
test.each([
  ['a tag that is of another row', OTHER, inside(OTHER), 'tag'],
  ['another header inside', right, inside({ ...right, row: 's2' }), 'header'],
  ['no header inside', right, canonicalRow(row), 'header'],
  ['another row than it says', { ...right, row: 's2' }, inside({ ...right, row: 's2' }), 'row'],
  ['a row of another stream', right, inside(right, canonicalRow({ ...row, stream: 'c2' })), 'row'],
  ['what the door refuses', right, inside(right, '{"id":"s1"}'), 'row'],
  ['no JSON', right, 'x', 'text'],
  ['a list', right, 'null', 'text'],
])('%s is refused', async (_, header, text, at) => {
  expect(fault(await sealedAs(header, await packed(text)))).toEqual({ type: 'refused', at });
});

test('no padding, another padding, one that is not zeros, no gzip, a bomb', async () => {
  const gz = await gzip(utf8(inside(right)));
  const good = padded(gz);
  const dirty = joined(good.subarray(0, -1), Uint8Array.of(1));
  expect(good.length).toBeGreaterThan(gz.length + 4);
  for (const plain of [gz, good.subarray(0, -1), joined(good, new Uint8Array(1)), dirty, new Uint8Array(2)])
    expect(fault(await sealedAs(right, plain))).toEqual({ type: 'refused', at: 'padding' });
  expect(fault(await sealedAs(right, padded(utf8('plain'))))).toEqual({ type: 'refused', at: 'packing' });
  const bomb = await gzip(new Uint8Array(65 * 1024 * 1024));
  expect(fault(await sealedAs(right, padded(bomb)))).toEqual({ type: 'refused', at: 'packing' });
});
