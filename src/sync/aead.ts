import { hkdf } from '@noble/hashes/hkdf.js';
import { hmac } from '@noble/hashes/hmac.js';
import { sha256 } from '@noble/hashes/sha2.js';
import type { World } from '../domain/world';
import { type Bytes, joined, owned, utf8 } from './bytes';

/*
 * The primitives as they are used: AES-256-GCM by WebCrypto, HKDF and HMAC over SHA-256. Nothing else here knows a cipher.
 */

export const KEY_BYTES = 32;
export const NONCE_BYTES = 12;
export const MAC_BYTES = 16;

/** Returns nonce, ciphertext and authentication tag in one: AES-256-GCM (NIST SP 800-38D) under a nonce of 96 random bits. */
export async function encrypt(
  key: Uint8Array,
  plain: Uint8Array,
  bound: Uint8Array,
  random: World['random'],
): Promise<Bytes> {
  const nonce = owned(random(NONCE_BYTES));
  const imported = await aesKey(key, 'encrypt');
  const sealed = await crypto.subtle.encrypt(
    { name: 'AES-GCM', iv: nonce, additionalData: owned(bound) },
    imported,
    owned(plain),
  );
  return joined(nonce, new Uint8Array(sealed));
}

/** Returns what was encrypted, or undefined where anything of it, or of what it is bound to, is not as it was. */
export async function decrypt(key: Uint8Array, sealed: Uint8Array, bound: Uint8Array): Promise<Bytes | undefined> {
  if (sealed.length < NONCE_BYTES + MAC_BYTES) return undefined;
  const imported = await aesKey(key, 'decrypt');
  try {
    const plain = await crypto.subtle.decrypt(
      { name: 'AES-GCM', iv: owned(sealed.subarray(0, NONCE_BYTES)), additionalData: owned(bound) },
      imported,
      owned(sealed.subarray(NONCE_BYTES)),
    );
    return new Uint8Array(plain);
  } catch {
    return undefined;
  }
}

const aesKey = (key: Uint8Array, use: 'encrypt' | 'decrypt'): Promise<CryptoKey> =>
  crypto.subtle.importKey('raw', owned(key), 'AES-GCM', false, [use]);

/** Returns `length` bytes derived from a key for one use (HKDF-SHA256, RFC 5869). */
export const derive = (key: Uint8Array, salt: Uint8Array | undefined, use: string, length = KEY_BYTES): Bytes =>
  owned(hkdf(sha256, key, salt, utf8(use), length));

/** Returns the HMAC-SHA256 of bytes. */
export const macOf = (key: Uint8Array, bytes: Uint8Array): Bytes => owned(hmac(sha256, key, bytes));

/** Takes bytes piece by piece, and tells their MAC at the end. */
export type RunningMac = { readonly add: (bytes: Uint8Array) => void; readonly end: () => Bytes };

/** Returns an HMAC-SHA256 that is fed piece by piece. */
export function runningMac(key: Uint8Array): RunningMac {
  const running = hmac.create(sha256, key);
  return { add: (bytes) => void running.update(bytes), end: () => owned(running.digest()) };
}

/** Returns a SHA-256 that is fed piece by piece. */
export function runningHash(): RunningMac {
  const running = sha256.create();
  return { add: (bytes) => void running.update(bytes), end: () => owned(running.digest()) };
}
