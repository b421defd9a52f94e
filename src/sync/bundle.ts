import * as z from 'zod/mini';
import type { DoorFault as RowFault } from '../merge/door';
import { derive, type RunningMac, runningHash, runningMac } from './aead';
import type { AgeFault } from './age';
import { type Bytes, joined, utf8 } from './bytes';
import type { Vault } from './keys';

/*
 * A bundle: an age file, sealed by a phrase, of gzip JSON Lines. The first line is the header; then a row a line, in its canonical text; the
 * last line counts them and signs every byte before it. Nothing of it can be read without the phrase, the header's names included.
 */

export const BUNDLE_FORMAT = 'cuewright-bundle/1';
const MOST_NAME = 200;
export const MOST_CONSENT = 2000;

const name = z.string().check(z.maxLength(MOST_NAME));
const id = z.string().check(z.regex(/^[A-Za-z0-9][\w.-]{0,63}$/));

/** Who vouches for a bundle: the vault's own key, a device's signature, or nobody. */
const signerSchema = z.union([
  z.looseObject({ by: z.literal('vault'), key: id }),
  z.looseObject({ by: z.literal('device'), key: z.string().check(z.maxLength(64)) }),
  z.looseObject({ by: z.literal('nobody') }),
]);

export const headerSchema = z.looseObject({
  format: z.literal(BUNDLE_FORMAT),
  app: name,
  /** Milliseconds since 1970, as the device that made it believed. */
  at: z.number(),
  id,
  vault: id,
  device: z.looseObject({ id, name }),
  /** Who sends it, as they want to be called. */
  sender: name,
  what: z.enum(['vault', 'clients', 'handover']),
  /** Every stream in it but `main`, with the client's name as shown, and what was left out of it. */
  streams: z.array(z.looseObject({ stream: id, name, withheld: z.array(name) })).check(z.maxLength(100_000)),
  consent: z.optional(z.string().check(z.maxLength(MOST_CONSENT))),
  signer: signerSchema,
  /** The vault's key list, in a bundle of the whole vault: with the passphrase or recovery code it opens the vault again. */
  keys: z.optional(z.unknown()),
});
export type BundleStream = {
  readonly stream: string;
  readonly name: string;
  readonly withheld: readonly string[];
};
export type BundleHeader = {
  readonly format: typeof BUNDLE_FORMAT;
  readonly app: string;
  readonly at: number;
  readonly id: string;
  readonly vault: string;
  readonly device: { readonly id: string; readonly name: string };
  readonly sender: string;
  readonly what: 'vault' | 'clients' | 'handover';
  readonly streams: readonly BundleStream[];
  readonly consent?: string | undefined;
  readonly signer:
    | { readonly by: 'vault'; readonly key: string }
    | { readonly by: 'device'; readonly key: string }
    | { readonly by: 'nobody' };
  readonly keys?: unknown;
};

export const endSchema = z.strictObject({
  end: z.looseObject({
    rows: z.int().check(z.gte(0)),
    mac: z.optional(z.string().check(z.maxLength(100))),
    signature: z.optional(z.string().check(z.maxLength(200))),
  }),
});

/** Limits on reading, in bytes but for rows. A file that unpacks to more than `ratio` times its size is none of ours. */
export const CAPS = {
  file: 512 * 1024 * 1024,
  unpacked: 2 * 1024 * 1024 * 1024,
  line: 32 * 1024 * 1024,
  rows: 2_000_000,
  ratio: 400,
} as const;
export type Caps = { readonly [K in keyof typeof CAPS]: number };

export type BundleFault =
  | AgeFault
  | { readonly type: 'too-large'; readonly what: keyof Caps; readonly most: number }
  | { readonly type: 'not-gzip' }
  /** An age file that the phrase opens, and that holds something else. */
  | { readonly type: 'not-a-bundle' }
  | { readonly type: 'bad-line'; readonly line: number }
  | { readonly type: 'wrong-count'; readonly says: number; readonly has: number }
  | { readonly type: 'bad-signature'; readonly by: 'vault' | 'device' };

/** Who a bundle is from, once it is read to its end. */
export type Signature =
  | { readonly by: 'own-vault' }
  /** Signed by a vault whose key is not here: nobody can check it. */
  | { readonly by: 'another-vault'; readonly vault: string }
  /** `checked` is false where this browser has no Ed25519. Whether the key is known is for whoever keeps such keys. */
  | { readonly by: 'device'; readonly key: string; readonly checked: boolean }
  | { readonly by: 'nobody' };

/** A row of a bundle that is not taken; `line` counts from 1. */
export type RefusedRow = {
  readonly line: number;
  readonly why: RowFault | { readonly type: 'undeclared-stream' } | { readonly type: 'not-of-a-stranger' };
};

/** Returns what the last line is computed over, fed with every byte before it; undefined where nobody signs, or the vault's key is not here. */
export function signing(signer: BundleHeader['signer'], vault: Vault | undefined): RunningMac | undefined {
  if (signer.by === 'nobody') return undefined;
  if (signer.by === 'device') {
    const hash = runningHash();
    return { add: hash.add, end: () => joined(utf8('cuewright bundle 1\n'), hash.end()) };
  }
  const key: Bytes | undefined = vault?.ring.keys.get(signer.key);
  return key && runningMac(derive(key, undefined, 'cuewright bundle 1'));
}
