import type { Result } from '../../src/domain/result';
import type { Row } from '../../src/merge/row';
import type { Bytes } from '../../src/sync/bytes';
import { newVault, type StreamKeys, streamKeys, type Vault } from '../../src/sync/keys';
import type { BundleOrder } from '../../src/sync/makeBundle';

/** Bytes that are the same in every run, and never the same twice in one (mulberry32). */
export function seeded(seed: number): (count: number) => Uint8Array {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  return (count) => Uint8Array.from({ length: count }, () => Math.floor(next() * 256));
}

/** A whole number from 0 to below `below`. */
export const below = (random: (count: number) => Uint8Array, most: number): number => {
  const [a = 0, b = 0, c = 0] = random(3);
  return (a * 65_536 + b * 256 + c) % most;
};

export const AT = 1_790_000_000_000;
export const world = (seed: number) => ({ now: () => AT, random: seeded(seed) });
/** For tests of everything but the phrase's cost. */
export const EASY = 1;
export const PHRASE = 'cobalt gravel unwind sixfold marbled ounce tinker';

export function value<T>(result: Result<T, { readonly type: string }>): T {
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.error)}`);
  return result.value;
}

export function fault<E extends { readonly type: string }>(result: Result<unknown, E>): E {
  if (result.ok) throw new Error('was not refused');
  return result.error;
}

export function held(l: number, writer: string, stands: Row['body'][string][0]['value']): Row['body'][string][0] {
  return { value: stands, stamp: { l, writer } };
}

export const client = (stream: string, alias: string): Row => ({
  id: stream,
  kind: 'client',
  stream,
  seen: { 'p-1': 5 },
  body: { alias: [held(4, 'p-1', alias)], short: [held(5, 'p-1', 'K')] },
});

export function session(stream: string, id: string, sets = 3): Row {
  const body: Record<string, Row['body'][string]> = {
    start: [held(10, 'p-1', { at: AT, day: '2026-09-21', zone: 'UTC' })],
  };
  for (let n = 0; n < sets; n += 1) {
    body[`sets/s${n}/exercise`] = [held(20 + n, 'p-1', 'lib-back-squat')];
    body[`sets/s${n}/reps`] = [held(20 + n, 'p-1', 5 + n)];
    body[`sets/s${n}/load`] = [held(20 + n, 'p-1', { unit: 'kg', value: 60 + 2.5 * n })];
  }
  return { id, kind: 'session', stream, seen: { 'p-1': 20 + sets, 'q-2': 3 }, body };
}

export async function vaultWith(seed: number, ...streams: string[]): Promise<{ vault: Vault; keys: StreamKeys[] }> {
  const { addStream } = await import('../../src/sync/keys');
  const random = seeded(seed);
  let vault = await newVault(random);
  for (const stream of streams) vault = value(await addStream(vault, stream, random));
  const keys = [];
  for (const stream of streams) keys.push(value(await streamKeys(vault, stream)));
  return { vault, keys };
}

export const order = (vault: Vault, streams: readonly string[], more: Partial<BundleOrder> = {}): BundleOrder => ({
  phrase: PHRASE,
  signer: { by: 'vault', vault },
  app: '0.1.0',
  device: { id: 'phone-1', name: 'My phone' },
  sender: 'Trainer R',
  what: 'vault',
  streams: streams.map((stream) => ({ stream, name: `Client of ${stream}`, withheld: [] })),
  work: EASY,
  ...more,
});

export const bytesOf = async (file: Blob): Promise<Bytes> => new Uint8Array(await file.arrayBuffer());

/** A place where the bytes of a text stand, in UTF-8 or UTF-16, or -1. */
export const findText = (bytes: Uint8Array, text: string): number =>
  Math.max(Buffer.from(bytes).indexOf(text, 0, 'utf8'), Buffer.from(bytes).indexOf(text, 0, 'utf16le'));
