import { expect, test, vi } from 'vitest';
import { canonicalRow } from '../../src/merge/canonical';
import type { Row } from '../../src/merge/row';
import { utf8 } from '../../src/sync/bytes';
import { setRecoveryCode } from '../../src/sync/doors';
import { readKeyList } from '../../src/sync/keyList';
import { makeBundle } from '../../src/sync/makeBundle';
import { openBundle } from '../../src/sync/openBundle';
import { newLaunch, openRow, sealRow } from '../../src/sync/seal';
import { crafted, read, textIn } from './bundleRig';
import { below, bytesOf, client, order, PHRASE, seeded, session, value, vaultWith, world } from './rig';

vi.setConfig({ testTimeout: 60_000 });

/*
 * Mutations of everything that comes in from outside: sealed rows, sealed files, what is inside a file of someone who knows the phrase, key
 * lists. None may throw, none may hang, none may bring a row that was not in it under the signature of the one who made it.
 */

const ALL = Number(process.env['FUZZ'] ?? 20_000);
const SEED = Number(process.env['FUZZ_SEED'] ?? 70);
const share = (part: number): number => Math.ceil(ALL * part);

const { vault, keys } = await vaultWith(71, 'c1');
const rows = [client('c1', 'Client K'), session('c1', 's1'), session('c1', 's2', 1)];
const known = new Set(rows.map(canonicalRow));
const file = await bytesOf(value(await makeBundle(rows, order(vault, ['c1']), world(72))).file);
const plain = utf8(await textIn(new Blob([file])));

/** Bytes changed in one of the ways in which bytes go wrong. */
function mutated(bytes: Uint8Array<ArrayBuffer>, random: (count: number) => Uint8Array): Uint8Array<ArrayBuffer> {
  const at = below(random, bytes.length);
  const other = below(random, bytes.length);
  const [from, to] = at < other ? [at, other] : [other, at];
  switch (below(random, 6)) {
    case 0:
      return bytes.map((byte, n) => (n === at ? byte ^ (1 << below(random, 8)) : byte));
    case 1:
      return bytes.slice(0, at);
    case 2:
      return Uint8Array.from([...bytes.slice(0, from), ...bytes.slice(to)]);
    case 3:
      return Uint8Array.from([...bytes.slice(0, to), ...bytes.slice(from)]);
    case 4:
      return Uint8Array.from([...bytes.slice(0, at), ...random(1 + below(random, 8)), ...bytes.slice(at)]);
    default:
      return bytes.map((byte, n) => (n === at ? bytes[other]! : byte));
  }
}

/** Runs a case many times; a case that takes two seconds is a hang. */
async function many(count: number, once: (random: (count: number) => Uint8Array) => Promise<void>): Promise<void> {
  const random = seeded(SEED);
  for (let n = 0; n < count; n += 1) {
    const start = performance.now();
    await once(random);
    expect(performance.now() - start).toBeLessThan(2000);
  }
}

test(`sealed files, ${share(0.35)} times: refused, or the very rows that were in it`, async () => {
  let opened = 0;
  await many(share(0.35), async (random) => {
    const result = await read(mutated(file, random), { vault });
    if (!result.ok) return;
    opened += 1;
    for (const row of result.value.taken) expect(known).toContain(canonicalRow(row));
    expect(result.value.taken).toHaveLength(rows.length);
  });
  // a mutation may happen to change nothing
  expect(opened).toBeLessThan(share(0.35) / 20);
}, 600_000);

test(`what is inside, by someone who knows the phrase, ${share(0.05)} times: never under the vault's signature`, async () => {
  let refused = 0;
  await many(share(0.05), async (random) => {
    const inside = mutated(plain, random);
    const result = await read(await crafted(inside), { vault });
    if (!result.ok) refused += 1;
    else if (result.value.signature.by === 'own-vault')
      expect(result.value.taken.map(canonicalRow)).toEqual(rows.map(canonicalRow));
  });
  expect(refused).toBeGreaterThan(share(0.05) / 2);
}, 600_000);

test(`sealed rows, ${share(0.45)} times: refused, or the row itself`, async () => {
  const random = seeded(73);
  const row: Row = rows[1]!;
  const sealed = await sealRow(row, keys[0]!, newLaunch(random), random);
  const header = utf8(JSON.stringify(sealed.header));
  await many(share(0.45), async (drawn) => {
    const inHeader = below(drawn, 3) === 0;
    const bytes = inHeader ? sealed.bytes : mutated(sealed.bytes, drawn);
    const said: unknown = inHeader ? parsed(mutated(header, drawn)) : sealed.header;
    const result = await openRow({ header: said, bytes }, keys[0]!);
    if (result.ok) expect(canonicalRow(result.value)).toBe(canonicalRow(row));
  });
}, 600_000);

test(`key lists, ${share(0.15)} times: read or refused`, async () => {
  const random = seeded(74);
  const list = utf8(JSON.stringify(value(await setRecoveryCode(vault, random)).vault.list));
  await many(share(0.15), async (drawn) => {
    const result = readKeyList(parsed(mutated(list, drawn)));
    if (result.ok) expect(result.value.format).toBe('cuewright-keys/1');
  });
}, 600_000);

test('every cut of a small bundle is refused with a fault', async () => {
  for (let at = 0; at < file.length; at += 1) expect((await openBundle(file.subarray(0, at), PHRASE)).ok).toBe(false);
});

function parsed(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(Buffer.from(bytes).toString());
  } catch {
    return undefined;
  }
}
