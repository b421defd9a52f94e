import type { World } from '../domain/world';
import { type Bytes, base64, fromBase64, joined, owned } from './bytes';

/*
 * A device's own signature (Ed25519, RFC 8032, by WebCrypto). Older browsers do not have it: then nothing is signed and nothing is checked,
 * and both are said.
 */

/** A signing key as it is kept: 32 random bytes and the public key that goes with them. */
export type SigningKey = { readonly seed: Bytes; readonly publicKey: string };

/** RFC 8410: what stands before the seed of an Ed25519 key in PKCS #8. */
const PKCS8 = Uint8Array.from([
  0x30, 0x2e, 0x02, 0x01, 0x00, 0x30, 0x05, 0x06, 0x03, 0x2b, 0x65, 0x70, 0x04, 0x22, 0x04, 0x20,
]);

/** Returns the part of a public key that two people compare by telephone. */
export const markOf = (publicKey: string): string => publicKey.slice(0, 8);

/** Returns a new signing key, or undefined where this browser has no Ed25519. */
export const newSigningKey = (random: World['random']): Promise<SigningKey | undefined> =>
  signingKeyOf(owned(random(32)));

/** Returns the signing key of a seed, or undefined where this browser has no Ed25519. */
export async function signingKeyOf(seed: Bytes): Promise<SigningKey | undefined> {
  try {
    const { x } = await crypto.subtle.exportKey('jwk', await privateKey(seed, true));
    const publicKey = fromBase64((x ?? '').replaceAll('-', '+').replaceAll('_', '/'));
    return publicKey?.length === 32 ? { seed, publicKey: base64(publicKey) } : undefined;
  } catch {
    return undefined;
  }
}

/** Returns the signature of bytes. */
export async function signed(key: SigningKey, bytes: Uint8Array): Promise<string> {
  const made = await crypto.subtle.sign('Ed25519', await privateKey(key.seed, false), owned(bytes));
  return base64(new Uint8Array(made));
}

/** Returns whether a signature is right, or undefined where this browser cannot tell. */
export async function isSigned(publicKey: string, signature: string, bytes: Uint8Array): Promise<boolean | undefined> {
  const [key, made] = [fromBase64(publicKey), fromBase64(signature)];
  if (key?.length !== 32 || made?.length !== 64) return false;
  let imported: CryptoKey;
  try {
    imported = await crypto.subtle.importKey('raw', key, 'Ed25519', false, ['verify']);
  } catch (error) {
    return error instanceof DOMException && error.name === 'NotSupportedError' ? undefined : false;
  }
  return crypto.subtle.verify('Ed25519', imported, made, owned(bytes));
}

const privateKey = (seed: Uint8Array, extractable: boolean): Promise<CryptoKey> =>
  crypto.subtle.importKey('pkcs8', joined(PKCS8, seed), 'Ed25519', extractable, ['sign']);
