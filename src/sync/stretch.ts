import * as z from 'zod/mini';
import { fail, ok, type Result } from '../domain/result';
import type { Bytes } from './bytes';
import { derivedKey, type Watch } from './derive';

/*
 * A passphrase stretched into a key: Argon2id (RFC 9106). Its parameters stand beside what it wraps, and are judged before anything is
 * computed: below the floor a stolen copy is guessed too fast, above the ceiling a hostile one would hang the phone.
 */

/** Memory in KiB, passes, lanes. */
export const stretchSchema = z.looseObject({
  type: z.string(),
  memory: z.int().check(z.gte(1)),
  passes: z.int().check(z.gte(1)),
  lanes: z.int().check(z.gte(1)),
});
export type Stretch = {
  readonly type: string;
  readonly memory: number;
  readonly passes: number;
  readonly lanes: number;
};

/** What is written. */
export const STRETCH: Stretch = { type: 'argon2id', memory: 65_536, passes: 3, lanes: 1 };
/** What is read: never less, whatever a stored blob says. */
export const LEAST_STRETCH = { memory: 19_456, passes: 2 } as const;
/** Never more: four times what is written, in memory and in work. */
export const MOST_STRETCH = { memory: 262_144, passes: 12, lanes: 4, work: 4 * 65_536 * 3 } as const;

export type StretchFault =
  | { readonly type: 'unknown-stretch'; readonly name: string }
  | { readonly type: 'weak-stretch'; readonly memory: number; readonly passes: number }
  | { readonly type: 'heavy-stretch'; readonly memory: number; readonly passes: number }
  | { readonly type: 'cancelled' };

/**
 * Returns the 32-byte key of a passphrase, or why it is not computed. The text is put in one Unicode form first, so that two keyboards type
 * the same. About a second, in a worker where there is one.
 */
export async function stretched(
  passphrase: string,
  salt: Uint8Array,
  { type, memory, passes, lanes }: Stretch,
  watch: Watch = {},
): Promise<Result<Bytes, StretchFault>> {
  if (type !== 'argon2id') return fail({ type: 'unknown-stretch', name: type });
  if (memory < LEAST_STRETCH.memory || passes < LEAST_STRETCH.passes)
    return fail({ type: 'weak-stretch', memory, passes });
  if (
    memory > MOST_STRETCH.memory ||
    passes > MOST_STRETCH.passes ||
    lanes > MOST_STRETCH.lanes ||
    memory * passes > MOST_STRETCH.work
  )
    return fail({ type: 'heavy-stretch', memory, passes });
  const text = passphrase.normalize('NFKC');
  const key = await derivedKey({ by: 'argon2id', text, salt, memory, passes, lanes }, watch);
  return key ? ok(key) : fail({ type: 'cancelled' });
}
