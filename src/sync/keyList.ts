import * as z from 'zod/mini';
import { fail, ok, type Result } from '../domain/result';
import { canonical } from '../merge/canonical';
import type { Json } from '../merge/row';
import { type Stretch, stretchSchema } from './stretch';

/*
 * The key list of a vault: every key, each wrapped by another, as plain data that may lie anywhere. A list only grows: two lists become one
 * by union, entry by entry, and no entry is ever replaced by a newer one. Only erasing a client [M10] takes keys away, and for ever.
 *
 *   a passphrase, a recovery code, a device  (doors)  →  vault key  →  stream keys, one per epoch
 *   a newer vault key  (links)  →  older vault keys
 */

export const KEYS_FORMAT = 'cuewright-keys/1';
const MOST_ENTRIES = 100_000;

const name = z.string().check(z.regex(/^[A-Za-z0-9][\w.-]{0,63}$/));
const wrapped = z.string().check(z.regex(/^[A-Za-z0-9+/]{1,200}$/));

const vaultKeySchema = z.looseObject({ id: name, epoch: z.int().check(z.gte(1)) });
const linkSchema = z.looseObject({ of: name, by: name, key: wrapped });
/** Epoch 0 is the key of tags, which lives as long as the stream. */
const streamKeySchema = z.looseObject({
  id: name,
  stream: name,
  epoch: z.int().check(z.gte(0)),
  by: name,
  key: wrapped,
});
const doorSchema = z.looseObject({
  id: name,
  /** `passphrase`, `recovery`, `device`; others are of a newer app, and kept. */
  type: name,
  of: name,
  key: wrapped,
  salt: z.optional(wrapped),
  stretch: z.optional(stretchSchema),
  device: z.optional(name),
});
const listOf = <T>(schema: z.ZodMiniType<T>) => z.array(schema).check(z.maxLength(MOST_ENTRIES));
const keyListSchema = z.looseObject({
  format: z.literal(KEYS_FORMAT),
  vault: name,
  vaultKeys: listOf(vaultKeySchema),
  links: listOf(linkSchema),
  streamKeys: listOf(streamKeySchema),
  doors: listOf(doorSchema),
  /** Doors that are shut: a passphrase that was changed, a device that was lost. */
  shut: listOf(name),
  erased: listOf(name),
});

export type StreamKey = {
  readonly id: string;
  readonly stream: string;
  readonly epoch: number;
  readonly by: string;
  readonly key: string;
};
export type Door = {
  readonly id: string;
  readonly type: string;
  readonly of: string;
  readonly key: string;
  readonly salt?: string | undefined;
  readonly stretch?: Stretch | undefined;
  readonly device?: string | undefined;
};
export type KeyList = {
  readonly format: typeof KEYS_FORMAT;
  readonly vault: string;
  readonly vaultKeys: readonly { readonly id: string; readonly epoch: number }[];
  readonly links: readonly { readonly of: string; readonly by: string; readonly key: string }[];
  readonly streamKeys: readonly StreamKey[];
  readonly doors: readonly Door[];
  readonly shut: readonly string[];
  readonly erased: readonly string[];
};

export type KeyListFault =
  | { readonly type: 'not-a-key-list' }
  | { readonly type: 'newer-format'; readonly format: string }
  | { readonly type: 'another-vault'; readonly vault: string; readonly its: string };

/** Returns the key list in data from outside, its entries in their one order; unknown fields are kept [M8]. */
export function readKeyList(raw: unknown): Result<KeyList, KeyListFault> {
  const format = z.safeParse(z.looseObject({ format: z.string() }), raw);
  if (!format.success) return fail({ type: 'not-a-key-list' });
  if (format.data.format !== KEYS_FORMAT) {
    const isNewer = /^cuewright-keys\/\d{1,6}$/.test(format.data.format);
    return fail(isNewer ? { type: 'newer-format', format: format.data.format } : { type: 'not-a-key-list' });
  }
  const read = z.safeParse(keyListSchema, raw);
  return read.success ? ok(ordered(read.data)) : fail({ type: 'not-a-key-list' });
}

/** Returns everything that two lists of one vault hold. The keys of a stream that either erased are gone [M10]. */
export function mergeKeyLists(a: KeyList, b: KeyList): Result<KeyList, KeyListFault> {
  if (a.vault !== b.vault) return fail({ type: 'another-vault', vault: a.vault, its: b.vault });
  return ok(
    ordered({
      ...unknownOf(a, b),
      format: KEYS_FORMAT,
      vault: a.vault,
      vaultKeys: [...a.vaultKeys, ...b.vaultKeys],
      links: [...a.links, ...b.links],
      streamKeys: [...a.streamKeys, ...b.streamKeys],
      doors: [...a.doors, ...b.doors],
      shut: [...a.shut, ...b.shut],
      erased: [...a.erased, ...b.erased],
    }),
  );
}

/** Returns the list without any key of these streams, in any epoch, and refusing new ones for ever [M10]. `main` is no client and stays. */
export function eraseKeys(list: KeyList, ...streams: readonly string[]): KeyList {
  if (streams.includes('main')) throw new Error('the main stream is not erased');
  return ordered({ ...list, erased: [...list.erased, ...streams] });
}

/** Fields of a newer app: of two values the one whose text is later, so that every device keeps the same. */
function unknownOf(a: KeyList, b: KeyList): Record<string, unknown> {
  const all: Record<string, unknown> = { ...a };
  for (const [field, value] of Object.entries(b)) {
    if (!Object.hasOwn(all, field) || textOf(value) > textOf(all[field])) all[field] = value;
  }
  return all;
}

function ordered(list: KeyList): KeyList {
  const erased = once(list.erased);
  const gone = new Set(erased);
  return {
    ...list,
    vaultKeys: once(list.vaultKeys),
    links: once(list.links),
    streamKeys: once(list.streamKeys.filter((key) => !gone.has(key.stream))),
    doors: once(list.doors),
    shut: once(list.shut),
    erased,
  };
}

function once<T>(entries: readonly T[]): T[] {
  const byText = new Map(entries.map((entry) => [textOf(entry), entry]));
  return [...byText].sort(([x], [y]) => (x < y ? -1 : 1)).map(([, entry]) => entry);
}

const textOf = (value: unknown): string => canonical(value as Json);
