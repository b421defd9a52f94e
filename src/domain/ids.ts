import type { World } from './world';

/** 32 characters that are hard to misread: no i, l, o, u. */
const BASE32 = '0123456789abcdefghjkmnpqrstvwxyz';

/** Returns a fresh id of `length` base-32 characters (5 random bits each): 16 for a row, 8 for a thing inside a row. */
export function newId(random: World['random'], length: 8 | 16): string {
  return Array.from(random(length), (byte) => BASE32.charAt(byte & 31)).join('');
}

/**
 * [M11] Returns the id of the n-th session (from 1) planned for a client's day out of a template: the same on every device, so
 * two devices that start one planned session write one row. A removed session counts on with the next n. 16 base-32 characters.
 */
export function plannedSessionId(client: string, template: string, day: string, n: number): string {
  const bits = fnv1a128(`${client}\n${template}\n${day}\n${n}`);
  // xor-folding to 80 bits, as the function's authors advise for sizes that are no power of two
  const folded = (bits >> 80n) ^ (bits & ((1n << 80n) - 1n));
  return Array.from({ length: 16 }, (_, i) => BASE32.charAt(Number((folded >> BigInt(75 - 5 * i)) & 31n))).join('');
}

/** Returns the 128-bit FNV-1a hash of the text's UTF-8 bytes (Fowler, Noll, Vo; IETF draft-eastlake-fnv). Not for secrets. */
export function fnv1a128(text: string): bigint {
  let hash = 0x6c62272e07bb014262b821756295c58dn;
  for (const byte of utf8(text)) {
    hash = BigInt.asUintN(128, (hash ^ BigInt(byte)) * 0x0000000001000000000000000000013bn);
  }
  return hash;
}

/** TextEncoder is not part of the language, and pure rooms hold nothing but the language. */
function utf8(text: string): number[] {
  const bytes: number[] = [];
  for (const character of text) {
    const code = character.codePointAt(0) ?? 0;
    if (code < 0x80) bytes.push(code);
    else if (code < 0x800) bytes.push(0xc0 | (code >> 6), tail(code));
    else if (code < 0x10000) bytes.push(0xe0 | (code >> 12), tail(code >> 6), tail(code));
    else bytes.push(0xf0 | (code >> 18), tail(code >> 12), tail(code >> 6), tail(code));
  }
  return bytes;
}

const tail = (bits: number): number => 0x80 | (bits & 0x3f);
