import { argon2id } from '@noble/hashes/argon2.js';
import { hkdf } from '@noble/hashes/hkdf.js';
import { sha256 } from '@noble/hashes/sha2.js';
import { describe, expect, test, vi } from 'vitest';
import { decrypt, derive, encrypt, macOf, runningMac } from '../../src/sync/aead';
import { base64, fromBase64, joined, utf8 } from '../../src/sync/bytes';
import { stretched } from '../../src/sync/stretch';
import { seeded } from './rig';

vi.setConfig({ testTimeout: 60_000 });

const hex = (text: string): Uint8Array<ArrayBuffer> => Uint8Array.from(Buffer.from(text.replaceAll(/\s/g, ''), 'hex'));
const asHex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');

describe('AES-256-GCM: test cases 13 to 16 of McGrew and Viega, "The Galois/Counter Mode of Operation"', () => {
  const key = 'feffe9928665731c6d6a8f9467308308feffe9928665731c6d6a8f9467308308';
  const text =
    'd9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a721c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b391aafd255';
  const sealed =
    '522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662898015ad';
  const bound = 'feedfacedeadbeeffeedfacedeadbeefabaddad2';
  const zeros = '00'.repeat(32);
  test.each([
    [13, zeros, '00'.repeat(12), '', '', '', '530f8afbc74536b9a963b4f1c4cb738b'],
    [
      14,
      zeros,
      '00'.repeat(12),
      '00'.repeat(16),
      '',
      'cea7403d4d606b6e074ec5d3baf39d18',
      'd0d1c8a799996bf0265b98b5d48ab919',
    ],
    [15, key, 'cafebabefacedbaddecaf888', text, '', sealed, 'b094dac5d93471bdec1a502270e3cc6c'],
    [
      16,
      key,
      'cafebabefacedbaddecaf888',
      text.slice(0, 120),
      bound,
      sealed.slice(0, 120),
      '76fc6ece0f4e1768cddf8853bb2d551b',
    ],
  ])('case %i', async (_, k, nonce, plain, aad, cipher, tag) => {
    const whole = nonce + cipher + tag;
    expect(asHex(await encrypt(hex(k), hex(plain), hex(aad), () => hex(nonce)))).toBe(whole);
    expect(asHex((await decrypt(hex(k), hex(whole), hex(aad)))!)).toBe(plain);
    expect(await decrypt(hex(k), hex(whole), hex(`${aad}00`))).toBeUndefined();
  });

  test('a nonce is drawn anew each time, and nothing shorter than nonce and tag opens', async () => {
    const random = seeded(1);
    const [a, b] = [
      await encrypt(hex(key), hex(text), hex(''), random),
      await encrypt(hex(key), hex(text), hex(''), random),
    ];
    expect(asHex(a.subarray(0, 12))).not.toBe(asHex(b.subarray(0, 12)));
    for (let length = 0; length < 28; length += 1)
      expect(await decrypt(hex(key), a.subarray(0, length), hex(''))).toBeUndefined();
  });
});

describe('HKDF-SHA256: RFC 5869, appendix A', () => {
  test('case 1', () => {
    const okm = hkdf(sha256, hex('0b'.repeat(22)), hex('000102030405060708090a0b0c'), hex('f0f1f2f3f4f5f6f7f8f9'), 42);
    expect(asHex(okm)).toBe('3cb25f25faacd57a90434f64d0362f2a2d2d0a90cf1a5a4c5db02d56ecc4c5bf34007208d5b887185865');
  });

  test('case 3: no salt and no info', () => {
    const okm = derive(hex('0b'.repeat(22)), undefined, '', 42);
    expect(asHex(okm)).toBe('8da4e775a563c18f715f802a063c5a31b8a11f5c5ee1879ec3454e5f3c738d2d9d201395faa4b61a96c8');
  });
});

describe('HMAC-SHA256: RFC 4231', () => {
  test('case 2, at once and in pieces', () => {
    const expected = '5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843';
    expect(asHex(macOf(utf8('Jefe'), utf8('what do ya want for nothing?')))).toBe(expected);
    const running = runningMac(utf8('Jefe'));
    running.add(utf8('what do ya '));
    running.add(utf8('want for nothing?'));
    expect(asHex(running.end())).toBe(expected);
  });
});

describe('Argon2id', () => {
  test('RFC 9106, section 5.3', () => {
    const options = { m: 32, t: 3, p: 4, dkLen: 32, key: hex('03'.repeat(8)), personalization: hex('04'.repeat(12)) };
    expect(asHex(argon2id(hex('01'.repeat(32)), hex('02'.repeat(16)), options))).toBe(
      '0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659',
    );
  });

  test.each([
    ['below the floor in memory', { memory: 19_455, passes: 3 }, 'weak-stretch'],
    ['below the floor in passes', { memory: 65_536, passes: 1 }, 'weak-stretch'],
    ['above the ceiling in memory', { memory: 262_145, passes: 2 }, 'heavy-stretch'],
    ['above the ceiling in passes', { memory: 19_456, passes: 13 }, 'heavy-stretch'],
    ['above the ceiling in work', { memory: 262_144, passes: 4 }, 'heavy-stretch'],
    ['another function', { type: 'pbkdf2', memory: 65_536, passes: 3 }, 'unknown-stretch'],
  ])('%s: nothing is computed', async (_, asked, type) => {
    let ticks = 0;
    const stretch = { type: 'argon2id', lanes: 1, ...asked };
    const tick = (): void => {
      ticks += 1;
    };
    const result = await stretched('word', utf8('sixteen of salt.'), stretch, { tick });
    expect(result).toMatchObject({ ok: false, error: { type } });
    expect(ticks).toBe(0);
  });

  test('it is cancelled on its way, and tells how far it is', async () => {
    const stop = new AbortController();
    const heard: number[] = [];
    const tick = (done: number): void => {
      heard.push(done);
      if (heard.length === 5) stop.abort();
    };
    const stretch = { type: 'argon2id', memory: 19_456, passes: 2, lanes: 1 };
    const result = await stretched('word', utf8('sixteen of salt.'), stretch, { tick, signal: stop.signal });
    expect(result).toEqual({ ok: false, error: { type: 'cancelled' } });
    expect(heard).toEqual([...heard].sort((a, b) => a - b));
    expect(heard.at(-1)).toBeLessThan(0.9);
  });
});

describe('base64', () => {
  test.each([
    ['', ''],
    ['f', 'Zg'],
    ['fo', 'Zm8'],
    ['foo', 'Zm9v'],
    ['foobar', 'Zm9vYmFy'],
  ])('RFC 4648: %j', (text, coded) => {
    expect(base64(utf8(text))).toBe(coded);
    expect(fromBase64(coded)).toEqual(utf8(text));
  });
  test.each(['Zh', 'Zg==', 'Z', 'Zm9v\n', 'Zm9-', 'Zm8='])('%j is no text of any bytes', (text) => {
    expect(fromBase64(text)).toBeUndefined();
  });
  test('bytes one after another', () => expect(joined(hex('01'), hex(''), hex('0203'))).toEqual(hex('010203')));
});
