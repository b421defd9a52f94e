import { chacha20poly1305 } from '@noble/ciphers/chacha.js';
import { fail, ok, type Result } from '../domain/result';
import type { World } from '../domain/world';
import { derive, MAC_BYTES, macOf } from './aead';
import { type Bytes, base64, fromBase64, joined, owned, sameBytes, utf8 } from './bytes';
import { derivedKey, type Watch } from './derive';
import { stopWith } from './stop';

/*
 * Files of the age format, version 1, sealed by a passphrase: the one kind of recipient that is needed here, as its specification has it
 * (age-encryption.org/v1, C2SP). It works piece by piece, so a file need not fit in memory, and judges the work factor before it computes.
 */

/** log2 of scrypt's N: what is written, and the most that is read (128 MiB of memory). */
export const WORK = 15;
export const MOST_WORK = 17;

const INTRO = 'age-encryption.org/v1\n';
const CHUNK = 65_536;
const NONCE_BYTES = 16;
const FILE_KEY_BYTES = 16;
const MOST_HEADER = 1024;
const HEADER =
  /^age-encryption\.org\/v1\n-> scrypt ([A-Za-z0-9+/]{22}) ([1-9]\d*)\n([A-Za-z0-9+/]{43})\n--- ([A-Za-z0-9+/]{43})\n/;

export type AgeFault =
  | { readonly type: 'not-an-age-file' }
  | { readonly type: 'newer-format'; readonly format: string }
  /** An age file, but for a key and not for a phrase. */
  | { readonly type: 'not-by-phrase' }
  | { readonly type: 'work-too-high'; readonly has: number; readonly most: number }
  | { readonly type: 'wrong-phrase' }
  /** It ends too early. A file cut inside a piece cannot be told from a changed one: that is `damaged`. */
  | { readonly type: 'truncated' }
  | { readonly type: 'damaged' }
  | { readonly type: 'cancelled' };

/** A file that is read in parts. */
export type Source = {
  readonly size: number;
  readonly read: (from: number, to: number) => Promise<Uint8Array>;
};

/** Returns a file, or bytes, as something to read parts of. */
export function sourceOf(file: Blob | Uint8Array): Source {
  if (file instanceof Uint8Array)
    return { size: file.length, read: async (from, to) => file.subarray(from, Math.min(to, file.length)) };
  return { size: file.size, read: async (from, to) => new Uint8Array(await file.slice(from, to).arrayBuffer()) };
}

/** Yields the bytes of an age file that holds `pieces`, sealed by a phrase. Stops with `cancelled` where it was cancelled. */
export async function* ageSealed(
  pieces: AsyncIterable<Uint8Array>,
  phrase: string,
  random: World['random'],
  work = WORK,
  watch: Watch = {},
): AsyncGenerator<Bytes> {
  const fileKey = owned(random(FILE_KEY_BYTES));
  const salt = owned(random(16));
  const wrapping = await phraseKey(phrase, salt, work, watch);
  if (!wrapping) return stopWith({ type: 'cancelled' });
  const body = chacha20poly1305(wrapping, new Uint8Array(12)).encrypt(fileKey);
  const start = `${INTRO}-> scrypt ${base64(salt)} ${work}\n${base64(body)}\n---`;
  yield utf8(`${start} ${base64(headerMac(fileKey, start))}\n`);
  const nonce = owned(random(NONCE_BYTES));
  yield nonce;
  yield* sealedChunks(pieces, derive(fileKey, nonce, 'payload'), watch.signal);
}

async function* sealedChunks(
  pieces: AsyncIterable<Uint8Array>,
  key: Uint8Array,
  signal: AbortSignal | undefined,
): AsyncGenerator<Bytes> {
  const chunk = new Uint8Array(CHUNK);
  let [used, n] = [0, 0];
  for await (const piece of pieces) {
    for (let at = 0; at < piece.length; ) {
      // a full chunk waits until more comes: the last one is marked as such
      if (used === CHUNK) {
        if (signal?.aborted) stopWith({ type: 'cancelled' });
        yield owned(chacha20poly1305(key, chunkNonce(n, false)).encrypt(chunk));
        [used, n] = [0, n + 1];
      }
      const taken = piece.subarray(at, at + CHUNK - used);
      chunk.set(taken, used);
      used += taken.length;
      at += taken.length;
    }
  }
  yield owned(chacha20poly1305(key, chunkNonce(n, true)).encrypt(chunk.subarray(0, used)));
}

/** What an age file holds, once its phrase is right: pieces that are verified one by one. They stop with an `AgeFault`. */
export type Opened = (signal: AbortSignal | undefined, tick: (bytes: number) => void) => AsyncGenerator<Uint8Array>;

/** Returns what an age file holds, or why it does not open. Nothing is computed for a work factor above `most`. */
export async function openAge(
  source: Source,
  phrase: string,
  watch: Watch = {},
  most = MOST_WORK,
): Promise<Result<Opened, AgeFault>> {
  const head = new TextDecoder('latin1').decode(await source.read(0, MOST_HEADER));
  const [whole, salt = '', work = '', body = '', mac = ''] = HEADER.exec(head) ?? [];
  if (whole === undefined) return fail(whyNoHeader(head));
  const [saltBytes, bodyBytes, macBytes] = [fromBase64(salt), fromBase64(body), fromBase64(mac)];
  if (!saltBytes || !bodyBytes || !macBytes) return fail({ type: 'damaged' });
  if (Number(work) > most) return fail({ type: 'work-too-high', has: Number(work), most });
  const wrapping = await phraseKey(phrase, saltBytes, Number(work), watch);
  if (!wrapping) return fail({ type: 'cancelled' });
  const fileKey = opened(wrapping, new Uint8Array(12), bodyBytes);
  if (!fileKey) return fail({ type: 'wrong-phrase' });
  const start = whole.slice(0, whole.lastIndexOf('---') + 3);
  if (!sameBytes(headerMac(fileKey, start), macBytes)) return fail({ type: 'damaged' });
  const nonce = await source.read(whole.length, whole.length + NONCE_BYTES);
  if (nonce.length < NONCE_BYTES) return fail({ type: 'truncated' });
  const key = derive(fileKey, nonce, 'payload');
  const from = whole.length + NONCE_BYTES;
  return ok((signal, tick) => openedChunks(source, from, key, signal, tick));
}

async function* openedChunks(
  source: Source,
  from: number,
  key: Uint8Array,
  signal: AbortSignal | undefined,
  tick: (bytes: number) => void,
): AsyncGenerator<Uint8Array> {
  if (from === source.size) stopWith({ type: 'truncated' });
  let n = 0;
  for (let at = from; at < source.size; n += 1) {
    if (signal?.aborted) stopWith({ type: 'cancelled' });
    const sealed = await source.read(at, at + CHUNK + MAC_BYTES);
    at += sealed.length;
    const isLast = at >= source.size;
    const plain = opened(key, chunkNonce(n, isLast), sealed);
    if (!plain || (plain.length === 0 && n > 0)) {
      const goesOn = isLast && opened(key, chunkNonce(n, false), sealed);
      return stopWith({ type: goesOn ? 'truncated' : 'damaged' });
    }
    yield plain;
    tick(at);
  }
}

/** Tells what a file without a phrase's header is. */
function whyNoHeader(head: string): AgeFault {
  if (head === '') return { type: 'not-an-age-file' };
  if (head.length < INTRO.length && INTRO.startsWith(head)) return { type: 'truncated' };
  const [, version] = /^age-encryption\.org\/v([1-9]\d{0,5})\n/.exec(head) ?? [];
  if (version === undefined) return { type: 'not-an-age-file' };
  if (version !== '1') return { type: 'newer-format', format: `age-encryption.org/v${version}` };
  const rest = head.slice(INTRO.length);
  if (/^-> (?!scrypt )\S[^\n]*\n/.test(rest)) return { type: 'not-by-phrase' };
  const isCut = head.length < MOST_HEADER && !/\n--- [^\n]*\n/.test(head);
  return { type: isCut ? 'truncated' : 'damaged' };
}

function opened(key: Uint8Array, nonce: Uint8Array, sealed: Uint8Array): Uint8Array | undefined {
  try {
    return chacha20poly1305(key, nonce).decrypt(sealed);
  } catch {
    return undefined;
  }
}

/** scrypt (RFC 7914) with r = 8, p = 1; undefined where it was stopped. */
function phraseKey(phrase: string, salt: Uint8Array, work: number, watch: Watch): Promise<Bytes | undefined> {
  const labelled = joined(utf8('age-encryption.org/v1/scrypt'), salt);
  return derivedKey({ by: 'scrypt', text: phrase, salt: labelled, work }, watch);
}

const headerMac = (fileKey: Uint8Array, start: string): Bytes =>
  macOf(derive(fileKey, undefined, 'header'), utf8(start));

/** Eleven bytes of counter, then 1 for the last chunk. */
function chunkNonce(n: number, isLast: boolean): Uint8Array {
  const nonce = new Uint8Array(12);
  new DataView(nonce.buffer).setBigUint64(3, BigInt(n));
  nonce[11] = isLast ? 1 : 0;
  return nonce;
}
