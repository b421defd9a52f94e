import { type Bytes, joined } from './bytes';

/*
 * Padmé padding (Nikitin and others, "Reducing Metadata Leakage from Encrypted Files", 2019): a length says only its first few bits, for at
 * most 12 % more bytes.
 */

const LENGTH_BYTES = 4;

/** Returns the length that something of `length` bytes is padded to. */
export function paddedLength(length: number): number {
  if (length < 2) return length;
  const exponent = Math.floor(Math.log2(length));
  const kept = Math.floor(Math.log2(exponent)) + 1;
  const step = 2 ** (exponent - kept);
  return step < 1 ? length : Math.ceil(length / step) * step;
}

/** Returns the bytes behind their length, filled with zeros up to a padded length. */
export function padded(bytes: Uint8Array): Bytes {
  const length = new Uint8Array(LENGTH_BYTES);
  new DataView(length.buffer).setUint32(0, bytes.length);
  const size = LENGTH_BYTES + bytes.length;
  return joined(length, bytes, new Uint8Array(paddedLength(size) - size));
}

/** Returns what was padded, or undefined where it was not padded in this very way. */
export function unpadded(all: Uint8Array): Uint8Array | undefined {
  if (all.length < LENGTH_BYTES) return undefined;
  const end = LENGTH_BYTES + new DataView(all.buffer, all.byteOffset).getUint32(0);
  if (end > all.length || paddedLength(end) !== all.length) return undefined;
  return all.subarray(end).every((byte) => byte === 0) ? all.subarray(LENGTH_BYTES, end) : undefined;
}
