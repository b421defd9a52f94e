import { describe, expect, test } from 'vitest';
import { base64, utf8 } from '../../src/sync/bytes';
import { isPin, newPin, pbkdf2, readPin } from '../../src/sync/pin';
import { seeded } from './rig';

const asHex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');
const hex = (text: string): string => text.replaceAll(/\s/g, '');

/** The record of a PIN, as it is read again from text. */
async function kept(pin: string) {
  const made = await newPin(pin, seeded(7));
  if (!made.ok) throw new Error('no PIN');
  const read = readPin(JSON.parse(JSON.stringify(made.value)));
  if (!read.ok) throw new Error('not read');
  return read.value;
}

describe('PBKDF2-HMAC-SHA256: the vectors of RFC 7914, section 11', () => {
  test.each([
    [
      'passwd',
      'salt',
      1,
      `55ac046e56e3089fec1691c22544b605 f94185216dde0465e68b9d57c20dacbc
       49ca9cccf179b645991664b39d77ef31 7c71b845b1e30bd509112041d3a19783`,
    ],
    [
      'Password',
      'NaCl',
      80_000,
      `4ddcd8f60b98be21830cee5ef22701f9 641a4418d04c0414aeff08876b34ab56
       a1d425a1225833549adb841b51c9b317 6a272bdebba1d078478f62b397f33c8d`,
    ],
  ])('%s, %s, %i rounds', async (secret, salt, rounds, bytes) =>
    expect(asHex(await pbkdf2(utf8(secret), utf8(salt), rounds, 64))).toBe(hex(bytes)),
  );
});

describe('a PIN', () => {
  test('is known again from its record, and no other is', async () => {
    const record = await kept('004271');
    expect(record).toMatchObject({ format: 'cuewright-lock/1', rounds: 600_000 });
    expect(JSON.stringify(record)).not.toContain('4271');
    expect(await isPin(record, '004271')).toBe(true);
    for (const other of ['4271', '004272', '0042710', '', '00427l']) expect(await isPin(record, other)).toBe(false);
  });

  test('is salted: the same digits are kept as something else each time', async () => {
    const random = seeded(3);
    const [a, b] = [await newPin('1234', random), await newPin('1234', random)];
    if (!a.ok || !b.ok) throw new Error('no PIN');
    expect(a.value.salt).not.toBe(b.value.salt);
    expect(a.value.hash).not.toBe(b.value.hash);
  });

  test.each(['', '123', '1234567890123', '12 34', '12a4', '١٢٣٤', '-1234'])('“%s” is none', async (text) =>
    expect(await newPin(text, seeded(1))).toEqual({ ok: false, error: { type: 'not-a-pin' } }),
  );

  test('of 4 and of 12 digits may be chosen', async () => {
    for (const pin of ['0000', '123456789012']) expect((await newPin(pin, seeded(1))).ok).toBe(true);
  });
});

describe('a record that is not one is refused', () => {
  const good = { format: 'cuewright-lock/1', salt: base64(new Uint8Array(16)), hash: base64(new Uint8Array(32)) };
  test('the whole one is read', () => expect(readPin({ ...good, rounds: 600_000 }).ok).toBe(true));
  test.each([
    ['nothing', null],
    ['a text', 'cuewright-lock/1'],
    ['another format', { ...good, rounds: 600_000, format: 'cuewright-lock/2' }],
    ['a short salt', { ...good, rounds: 600_000, salt: base64(new Uint8Array(15)) }],
    ['a cut hash', { ...good, rounds: 600_000, hash: base64(new Uint8Array(31)) }],
    ['no base64', { ...good, rounds: 600_000, hash: `${good.hash.slice(0, -1)}!` }],
    ['too few rounds', { ...good, rounds: 599_999 }],
    ['rounds that hang a phone', { ...good, rounds: 6_000_001 }],
    ['rounds in part', { ...good, rounds: 600_000.5 }],
    ['no rounds', good],
  ])('%s', (_, raw) => expect(readPin(raw)).toEqual({ ok: false, error: { type: 'unreadable-pin' } }));
});
