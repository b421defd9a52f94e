import { describe, expect, test, vi } from 'vitest';
import { canonicalRow } from '../../src/merge/canonical';
import type { Row } from '../../src/merge/row';
import { openWithCode, setRecoveryCode } from '../../src/sync/doors';
import { readKeyList } from '../../src/sync/keyList';
import { streamKeys } from '../../src/sync/keys';
import { makeBundle } from '../../src/sync/makeBundle';
import { type BundleRead, openBundle } from '../../src/sync/openBundle';
import { parsePhrase } from '../../src/sync/phrase';
import { newSigningKey } from '../../src/sync/signing';
import { crafted, head, lines, read, refusal, textIn } from './bundleRig';
import { AT, bytesOf, client, findText, held, order, PHRASE, seeded, session, value, vaultWith, world } from './rig';

vi.setConfig({ testTimeout: 60_000 });

const { vault } = await vaultWith(50, 'c1', 'c2');
const device = (await newSigningKey(seeded(51)))!;
const library: Row = {
  id: 'ex1',
  kind: 'exercise',
  stream: 'main',
  seen: { 'p-1': 1 },
  body: { name: [held(1, 'p-1', 'Board row')] },
};
const settings: Row = {
  id: 'settings',
  kind: 'settings',
  stream: 'main',
  seen: {},
  body: { night: [held(1, 'p-1', true)] },
};
const erased: Row = { id: 'c9', kind: 'erased', stream: 'main', seen: {}, body: {} };
const rows = [
  library,
  client('c1', 'Client K'),
  session('c1', 's1'),
  session('c1', 's2', 40),
  client('c2', 'Client L'),
];

describe('a bundle', () => {
  test('brings every row as it was, and says what it is', async () => {
    const { file, phrase, header } = value(await makeBundle(rows, order(vault, ['c1', 'c2']), world(53)));
    expect(phrase).toBe(PHRASE);
    const got = value(await read(file, { vault }));
    expect(got.taken.map(canonicalRow)).toEqual(rows.map(canonicalRow));
    expect(got).toMatchObject({ rows: 5, refusedRows: 0, signature: { by: 'own-vault' } });
    expect(got.header).toEqual(header);
    expect(got.header).toMatchObject({
      at: AT,
      sender: 'Trainer R',
      device: { id: 'phone-1', name: 'My phone' },
      streams: [
        { stream: 'c1', name: 'Client of c1' },
        { stream: 'c2', name: 'Client of c2' },
      ],
    });
  });

  test('of no rows; made from rows that stream; opened from bytes', async () => {
    async function* streamed() {
      yield* rows;
    }
    const none = value(await makeBundle([], order(vault, []), world(54)));
    expect(value(await read(none.file, { vault })).rows).toBe(0);
    const some = value(await makeBundle(streamed(), order(vault, ['c1', 'c2']), world(54)));
    expect(value(await read(await bytesOf(some.file), { vault })).rows).toBe(5);
  });

  test('draws its own phrase, which opens it after it was typed by hand', async () => {
    const { phrase: _, ...own } = order(vault, ['c1', 'c2']);
    const made = value(await makeBundle(rows, own, world(55)));
    const typed = value(await parsePhrase(made.phrase.toUpperCase().replaceAll(' ', '  ')));
    expect((await openBundle(made.file, typed)).ok).toBe(true);
    expect(await refusal(made.file, {}, PHRASE)).toEqual({ type: 'wrong-phrase' });
  });

  test('may be read twice: once for the report, once to keep; and in batches', async () => {
    const many = Array.from({ length: 1234 }, (_, n) => session('c1', `s${n}`, 1));
    const { file } = value(await makeBundle(many, order(vault, ['c1']), world(56)));
    const open = value(await openBundle(file, PHRASE));
    for (const _ of [1, 2]) {
      const sizes: number[] = [];
      const done: number[] = [];
      const result = await open.read((batch) => void sizes.push(batch.length), {
        vault,
        tick: (part) => void done.push(part),
      });
      expect(value(result).rows).toBe(1234);
      expect(sizes).toEqual([500, 500, 234]);
      expect(done.at(-1)).toBe(1);
    }
  });

  test('a restored phone: the bundle and the recovery code open the vault and everything in it', async () => {
    const random = seeded(57);
    const { vault: kept, code } = value(await setRecoveryCode(vault, random));
    const { file } = value(await makeBundle([...rows, settings], order(kept, ['c1', 'c2']), world(58)));
    const open = value(await openBundle(file, PHRASE));
    const again = value(await openWithCode(value(readKeyList(open.header.keys)), code));
    const got = value(await read(file, { vault: again }));
    expect(got.signature).toEqual({ by: 'own-vault' });
    expect(got.taken).toContainEqual(settings);
    expect(value(await streamKeys(again, 'c1')).epochs).toEqual(value(await streamKeys(vault, 'c1')).epochs);
  });
});

describe('who it is from', async () => {
  const other = (await vaultWith(59)).vault;
  const all = [...rows, settings, erased];
  const byVault = value(await makeBundle(all, order(vault, ['c1', 'c2']), world(60))).file;
  const handed = order(vault, ['c1', 'c2'], {
    signer: { by: 'device', vault: 'v9', key: device },
    what: 'handover',
    consent: 'Asked on 1 May.',
  });
  const byDevice = value(await makeBundle(all, handed, world(61))).file;
  const byNobody = value(await makeBundle(all, { ...handed, signer: { by: 'nobody', vault: 'v9' } }, world(62))).file;

  test('the own vault brings everything; anyone else records and library, not what rules over a log', async () => {
    expect(value(await read(byVault, { vault }))).toMatchObject({ signature: { by: 'own-vault' }, refusedRows: 0 });
    const strangers = [
      [byVault, { by: 'another-vault', vault: vault.list.vault }],
      [byDevice, { by: 'device', key: device.publicKey, checked: true }],
      [byNobody, { by: 'nobody' }],
    ] as const;
    for (const [file, signature] of strangers) {
      const got = value(await read(file, { vault: other }));
      expect(got.signature).toEqual(signature);
      expect(got.taken.map(canonicalRow)).toEqual(rows.map(canonicalRow));
      expect(got.refused.map(({ why }) => why.type)).toEqual(['not-of-a-stranger', 'not-of-a-stranger']);
      expect(value(await read(file, { restoring: true })).taken).toHaveLength(7);
    }
    expect(value(await read(byDevice)).header.consent).toBe('Asked on 1 May.');
  });

  test('a changed row, a changed header, a taken row: the signature tells', async () => {
    for (const [file, by, reading] of [
      [byVault, 'vault', { vault }],
      [byDevice, 'device', {}],
    ] as const) {
      const plain = await textIn(file);
      expect(value(await read(await crafted(plain), reading)).rows).toBe(7);
      for (const changed of [plain.replace('"value":60', '"value":80'), plain.replace('Trainer R', 'Trainer S')]) {
        expect(changed).not.toBe(plain);
        expect(await refusal(await crafted(changed), reading)).toEqual({ type: 'bad-signature', by });
      }
      const taken = plain
        .split('\n')
        .filter((_, n) => n !== 2)
        .join('\n');
      expect(await refusal(await crafted(taken), reading)).toEqual({ type: 'wrong-count', says: 7, has: 6 });
      const unsigned = plain.replace(/"(mac|signature)":"[^"]*",?/, '').replace(',}', '}');
      expect(await refusal(await crafted(unsigned), reading)).toEqual({ type: 'bad-signature', by });
    }
  });

  test('a stream that the header does not name is not slipped in', async () => {
    const text = lines(head, session('c7', 's1'), { end: { rows: 1 } });
    const got = value(await read(await crafted(text)));
    expect(got.taken).toEqual([]);
    expect(got.refused).toEqual([{ line: 2, why: { type: 'undeclared-stream' } }]);
  });
});

describe('secrecy', () => {
  test('canaries in every field, the header, ids and names included, are never in the bytes', async () => {
    const word = 'kanari-7d1e';
    const deep: Row = {
      id: `${word}-row`,
      kind: `${word}-kind`,
      stream: `${word}-stream`,
      seen: { [`${word}-writer`]: 4 },
      body: { [`${word}/path`]: [held(4, `${word}-writer`, { [word]: [word, { deeper: word }] }), held(3, 'x', word)] },
    };
    const told = order(vault, [], {
      app: word,
      sender: word,
      consent: word,
      device: { id: word, name: word },
      streams: [{ stream: `${word}-stream`, name: word, withheld: [] }],
    });
    const made = value(await makeBundle([deep], told, world(65)));
    const bytes = await bytesOf(made.file);
    expect(findText(bytes, word)).toBe(-1);
    expect(findText(bytes, PHRASE.split(' ')[0]!)).toBe(-1);
    const got: BundleRead & { taken: Row[] } = value(await read(bytes, { vault }));
    expect(canonicalRow(got.taken[0]!)).toBe(canonicalRow(deep));
  });
});
