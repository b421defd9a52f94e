import { argon2idAsync } from '@noble/hashes/argon2.js';
import { scryptAsync } from '@noble/hashes/scrypt.js';
import { type Bytes, owned } from './bytes';

/** What is derived: Argon2id (RFC 9106; memory in KiB) or scrypt (RFC 7914; `work` is log2 of N). */
export type Derivation =
  | {
      readonly by: 'argon2id';
      readonly text: string;
      readonly salt: Uint8Array;
      readonly memory: number;
      readonly passes: number;
      readonly lanes: number;
    }
  | { readonly by: 'scrypt'; readonly text: string; readonly salt: Uint8Array; readonly work: number };

/** What the worker tells: a share done, the key, or that it could not compute it (no memory is left). */
export type Told = { readonly done: number } | { readonly key: Uint8Array } | { readonly failed: true };

/** Returns the 32-byte key of a derivation, computed on the thread that calls, giving way every few milliseconds. */
export async function computedKey(derivation: Derivation, onProgress: (done: number) => void): Promise<Bytes> {
  const { text, salt } = derivation;
  if (derivation.by === 'scrypt')
    return owned(await scryptAsync(text, salt, { N: 2 ** derivation.work, r: 8, p: 1, dkLen: 32, onProgress }));
  const { memory, passes, lanes } = derivation;
  return owned(await argon2idAsync(text, salt, { m: memory, t: passes, p: lanes, dkLen: 32, onProgress }));
}
