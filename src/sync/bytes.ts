/*
 * Bytes as text and back. Everything here is exact: one text for each value, and anything else is refused.
 */

/** Bytes that WebCrypto and Blob take: over a buffer that is not shared. */
export type Bytes = Uint8Array<ArrayBuffer>;

const encoder = new TextEncoder();
const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

/** Returns the UTF-8 bytes of a text. */
export const utf8 = (text: string): Bytes => encoder.encode(text);

/** Returns the text of UTF-8 bytes, or undefined where they are none. */
export function fromUtf8(bytes: Uint8Array): string | undefined {
  try {
    return decoder.decode(bytes);
  } catch {
    return undefined;
  }
}

/** Returns the bytes one after another. */
export function joined(...parts: readonly Uint8Array[]): Bytes {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/** Returns whether two byte strings are the same, in a time that does not tell where they differ. */
export function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  let differs = a.length ^ b.length;
  for (let i = 0; i < a.length; i += 1) differs |= (a[i] ?? 0) ^ (b[i] ?? 0);
  return differs === 0;
}

/** Returns the base64 of bytes (RFC 4648 §4), without padding. */
export function base64(bytes: Uint8Array): string {
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary).replaceAll('=', '');
}

/** Returns the bytes of an unpadded base64 text, or undefined where it is not the one text of any bytes. */
export function fromBase64(text: string): Bytes | undefined {
  if (!/^[A-Za-z0-9+/]*$/.test(text) || text.length % 4 === 1) return undefined;
  const binary = atob(text);
  const bytes = Uint8Array.from(binary, (character) => character.charCodeAt(0));
  // the last character may carry bits that stand for nothing: only one text is right
  return base64(bytes) === text ? bytes : undefined;
}

/** Returns a copy over a buffer of its own, as WebCrypto and Blob ask for. */
export const owned = (bytes: Uint8Array): Bytes => new Uint8Array(bytes);
