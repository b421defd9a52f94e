import { argon2idAsync } from '@noble/hashes/argon2.js';
import * as z from 'zod/mini';
import { fail, ok, type Result } from '../domain/result';
import { type Bytes, owned } from './bytes';

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

/** How a long computation is watched and stopped; `tick` hears how much of it is done, from 0 to 1. */
export type Watch = { readonly tick?: (done: number) => void; readonly signal?: AbortSignal };

export type StretchFault =
  | { readonly type: 'unknown-stretch'; readonly name: string }
  | { readonly type: 'weak-stretch'; readonly memory: number; readonly passes: number }
  | { readonly type: 'heavy-stretch'; readonly memory: number; readonly passes: number }
  | { readonly type: 'cancelled' };

/**
 * Returns the 32-byte key of a passphrase, or why it is not computed. The text is put in one Unicode form first, so that two keyboards type
 * the same. About a second: meant for a worker; it gives way every few milliseconds all the same.
 */
export async function stretched(
  passphrase: string,
  salt: Uint8Array,
  { type, memory, passes, lanes }: Stretch,
  { tick, signal }: Watch = {},
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
  const key = await unlessStopped(signal, tick, (onProgress) =>
    argon2idAsync(passphrase.normalize('NFKC'), salt, { m: memory, t: passes, p: lanes, dkLen: 32, onProgress }),
  );
  return key ? ok(key) : fail({ type: 'cancelled' });
}

const STOPPED = Symbol('stopped');

/** Returns what a long derivation comes to, or undefined where it was stopped on the way. */
export async function unlessStopped(
  signal: AbortSignal | undefined,
  tick: ((done: number) => void) | undefined,
  derive: (onProgress: (done: number) => void) => Promise<Uint8Array>,
): Promise<Bytes | undefined> {
  try {
    if (signal?.aborted) return undefined;
    return owned(
      await derive((done) => {
        if (signal?.aborted) throw STOPPED;
        tick?.(done);
      }),
    );
  } catch (error) {
    if (error === STOPPED) return undefined;
    throw error;
  }
}
