import * as z from 'zod/mini';
import { fail, ok, type Result } from '../domain/result';
import type { World } from '../domain/world';
import { type Bytes, base64, fromBase64, owned, sameBytes, utf8 } from './bytes';

/*
 * The PIN of this device's screen lock, kept as a hash alone: PBKDF2-HMAC-SHA256 (RFC 8018), so that who reads the storage does not read the PIN.
 * It keeps nothing secret beyond that: a few digits are guessed from a copy of the hash, whatever the rounds.
 */

const FORMAT = 'cuewright-lock/1';
const ROUNDS = 600_000;
/** Read, but no more: a record that asks for more would hang the phone. */
const MOST_ROUNDS = 6_000_000;
const SALT_BYTES = 16;
const HASH_BYTES = 32;

/** What is kept of a PIN. */
export type Pin = {
  readonly format: typeof FORMAT;
  readonly salt: string;
  readonly hash: string;
  readonly rounds: number;
};

export type PinFault = { readonly type: 'not-a-pin' } | { readonly type: 'unreadable-pin' };

const bytesOf = (length: number) => z.string().check(z.refine((text) => fromBase64(text)?.length === length));
const pinSchema = z.looseObject({
  format: z.literal(FORMAT),
  salt: bytesOf(SALT_BYTES),
  hash: bytesOf(HASH_BYTES),
  rounds: z.int().check(z.gte(ROUNDS), z.lte(MOST_ROUNDS)),
});

/** Returns whether a text may be a PIN: 4 to 12 digits. */
export const mayBePin = (text: string): boolean => /^[0-9]{4,12}$/.test(text);

/** Returns what is to be kept of a new PIN, or the fault where the text may not be one. */
export async function newPin(pin: string, random: World['random']): Promise<Result<Pin, PinFault>> {
  if (!mayBePin(pin)) return fail({ type: 'not-a-pin' });
  const salt = owned(random(SALT_BYTES));
  const hash = await pbkdf2(utf8(pin), salt, ROUNDS, HASH_BYTES);
  return ok({ format: FORMAT, salt: base64(salt), hash: base64(hash), rounds: ROUNDS });
}

/** Returns whether this is the PIN that the record was made of. */
export async function isPin({ salt, hash, rounds }: Pin, pin: string): Promise<boolean> {
  const [salted, kept] = [fromBase64(salt), fromBase64(hash)];
  if (!salted || !kept || !mayBePin(pin)) return false;
  return sameBytes(await pbkdf2(utf8(pin), salted, rounds, HASH_BYTES), kept);
}

/** Returns the record that was kept, or the fault where it is not one. */
export function readPin(raw: unknown): Result<Pin, PinFault> {
  const read = pinSchema.safeParse(raw);
  return read.success ? ok(read.data) : fail({ type: 'unreadable-pin' });
}

/** Returns `length` bytes derived from a secret by PBKDF2-HMAC-SHA256. */
export async function pbkdf2(secret: Bytes, salt: Bytes, rounds: number, length: number): Promise<Bytes> {
  const key = await crypto.subtle.importKey('raw', secret, 'PBKDF2', false, ['deriveBits']);
  const how = { name: 'PBKDF2', hash: 'SHA-256', salt, iterations: rounds };
  return new Uint8Array(await crypto.subtle.deriveBits(how, key, length * 8));
}
