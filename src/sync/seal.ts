import * as z from 'zod/mini';
import { fail, ok, type Result } from '../domain/result';
import type { World } from '../domain/world';
import { canonical, canonicalRow } from '../merge/canonical';
import { admitRow } from '../merge/door';
import type { Row } from '../merge/row';
import { decrypt, derive, encrypt, macOf } from './aead';
import { type Bytes, base64, fromBase64, fromUtf8, joined, owned, utf8 } from './bytes';
import { gunzip, gzip } from './gzip';
import type { StreamKeys } from './keys';
import { padded, unpadded } from './padding';

/*
 * A sealed row: AES-256-GCM over the packed, padded canonical row. Everything the outside says of it is bound to the ciphertext and said once
 * more inside, so nothing can be moved to another vault, stream, row or epoch. There is no plaintext mode, and no way to ask for one.
 */

export const SEALING = 'aes256gcm-gzip/1';

/** What the outside of a sealed row says. */
export type SealHeader = {
  readonly vault: string;
  readonly stream: string;
  readonly row: string;
  /** HMAC of the canonical row: two devices that hold the same seal it under the same tag. */
  readonly tag: string;
  readonly epoch: string;
  readonly algorithm: string;
  /** Of the launch that sealed it: its rows are sealed under a key of their own, so random nonces never run out. */
  readonly launch: string;
};
export type SealedRow = { readonly header: SealHeader; readonly bytes: Bytes };

export type SealFault =
  | { readonly type: 'newer-sealing'; readonly algorithm: string }
  | { readonly type: 'not-a-sealed-row' }
  | { readonly type: 'another-place'; readonly differs: 'vault' | 'stream' }
  | { readonly type: 'no-epoch'; readonly epoch: string }
  /** It does not verify: changed, moved, or sealed by someone without the key. */
  | { readonly type: 'refused'; readonly at: 'key' | 'padding' | 'packing' | 'text' | 'header' | 'row' | 'tag' };

/** A row unpacks to this much at most: the door's own bounds are far below. */
const MOST_UNPACKED = 64 * 1024 * 1024;
const LAUNCH_BYTES = 16;

const text = (most: number) => z.string().check(z.minLength(1), z.maxLength(most));
const headerSchema = z.strictObject({
  vault: text(64),
  stream: text(64),
  row: text(64),
  tag: text(64),
  epoch: text(80),
  algorithm: text(40),
  launch: text(64),
});

/** A launch of the app, for sealing: its random part, and the sealing keys it derived. */
export type Launch = { readonly salt: string; readonly keys: Map<string, Bytes> };

/** Returns what a launch seals with; made once at every start. */
export const newLaunch = (random: World['random']): Launch => ({
  salt: base64(owned(random(LAUNCH_BYTES))),
  keys: new Map(),
});

/** Returns the tag of a row under its stream's tag key. */
export const tagOf = (row: Row, keys: StreamKeys): string => base64(macOf(keys.tag, utf8(canonicalRow(row))));

/** Returns a row sealed under its stream's newest epoch. Throws for a row of another stream: that is a bug. */
export async function sealRow(row: Row, keys: StreamKeys, launch: Launch, random: World['random']): Promise<SealedRow> {
  if (row.stream !== keys.stream) throw new Error(`a row of ${row.stream} is not sealed for ${keys.stream}`);
  const header: SealHeader = {
    vault: keys.vault,
    stream: keys.stream,
    row: row.id,
    tag: tagOf(row, keys),
    epoch: keys.current,
    algorithm: SEALING,
    launch: launch.salt,
  };
  const name = `${keys.vault} ${keys.stream} ${keys.current}`;
  const key = launch.keys.get(name) ?? sealingKey(keys, header);
  if (!key) throw new Error(`no key of epoch ${keys.current}`);
  launch.keys.set(name, key);
  const inside = utf8(`{"header":${canonical(header)},"row":${canonicalRow(row)}}`);
  return { header, bytes: await encrypt(key, padded(await gzip(inside)), boundTo(header), random) };
}

/** Returns the row in a sealed row once everything about it is verified, or why it is refused; then nothing of it may be kept. */
export async function openRow(
  sealed: { readonly header: unknown; readonly bytes: Uint8Array },
  keys: StreamKeys,
): Promise<Result<Row, SealFault>> {
  const read = z.safeParse(headerSchema, sealed.header);
  if (!read.success) {
    const named = z.safeParse(z.looseObject({ algorithm: text(40) }), sealed.header);
    return fail(
      named.success && named.data.algorithm !== SEALING
        ? { type: 'newer-sealing', algorithm: named.data.algorithm }
        : { type: 'not-a-sealed-row' },
    );
  }
  const header = read.data;
  if (header.algorithm !== SEALING) return fail({ type: 'newer-sealing', algorithm: header.algorithm });
  if (header.vault !== keys.vault) return fail({ type: 'another-place', differs: 'vault' });
  if (header.stream !== keys.stream) return fail({ type: 'another-place', differs: 'stream' });
  const key = sealingKey(keys, header);
  if (!key) return fail({ type: 'no-epoch', epoch: header.epoch });
  const plain = await decrypt(key, sealed.bytes, boundTo(header));
  if (!plain) return fail({ type: 'refused', at: 'key' });
  return verified(plain, header, keys);
}

async function verified(plain: Uint8Array, header: SealHeader, keys: StreamKeys): Promise<Result<Row, SealFault>> {
  const packed = unpadded(plain);
  if (!packed) return fail({ type: 'refused', at: 'padding' });
  const unpacked = await gunzip(packed, MOST_UNPACKED);
  if (typeof unpacked === 'string') return fail({ type: 'refused', at: 'packing' });
  const inside = jsonOf(unpacked);
  if (!inside) return fail({ type: 'refused', at: 'text' });
  const { header: repeated, row: raw } = inside;
  const again = z.safeParse(headerSchema, repeated);
  if (!again.success || canonical(again.data) !== canonical(header)) return fail({ type: 'refused', at: 'header' });
  const admitted = admitRow(raw);
  if (!admitted.ok) return fail({ type: 'refused', at: 'row' });
  const row = admitted.value;
  if (row.stream !== header.stream || row.id !== header.row) return fail({ type: 'refused', at: 'row' });
  return tagOf(row, keys) === header.tag ? ok(row) : fail({ type: 'refused', at: 'tag' });
}

function jsonOf(bytes: Uint8Array): Record<string, unknown> | undefined {
  try {
    const value: unknown = JSON.parse(fromUtf8(bytes) ?? '');
    return typeof value === 'object' && value !== null ? { ...value } : undefined;
  } catch {
    return undefined;
  }
}

function sealingKey(keys: StreamKeys, { epoch, launch }: SealHeader): Bytes | undefined {
  const key = keys.epochs.get(epoch);
  const salt = fromBase64(launch);
  return key && salt ? derive(key, salt, `cuewright row ${SEALING}`) : undefined;
}

/** The associated data: the whole header in its one text. */
const boundTo = (header: SealHeader): Bytes => joined(utf8('cuewright sealed row\n'), utf8(canonical(header)));
