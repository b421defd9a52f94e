import { afterEach, describe, expect, test, vi } from 'vitest';
import type { Derivation } from '../../src/sync/computeKey';
import { derivedKey } from '../../src/sync/derive';

/** RFC 7914 §12, the third vector, of which 32 bytes are asked for: PBKDF2-HMAC-SHA256 gives the same first block for any length. */
const RFC: Derivation = {
  by: 'scrypt',
  text: 'pleaseletmein',
  salt: new TextEncoder().encode('SodiumChloride'),
  work: 14,
};
const KEY = '7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2';
const hex = (bytes: Uint8Array | undefined): string => Buffer.from(bytes ?? []).toString('hex');

type Fake = {
  onmessage?: ((event: { data: unknown }) => void) | undefined;
  onerror?: ((event: { preventDefault: () => void }) => void) | undefined;
};
const made: { asked: unknown[]; ended: number; worker: Fake }[] = [];

/** A browser's Worker, as far as one key asks for it. */
function fakeWorker(answer: (worker: Fake, asked: unknown) => void): void {
  made.length = 0;
  vi.stubGlobal(
    'Worker',
    class implements Fake {
      onmessage?: Fake['onmessage'];
      onerror?: Fake['onerror'];
      #own = { asked: [] as unknown[], ended: 0, worker: this as Fake };
      constructor() {
        made.push(this.#own);
      }
      postMessage(asked: unknown) {
        this.#own.asked.push(asked);
        setTimeout(() => answer(this, asked), 0);
      }
      terminate() {
        this.#own.ended += 1;
      }
    },
  );
}

afterEach(() => vi.unstubAllGlobals());

describe('a key of a phrase', () => {
  test('is the published one, without a worker', async () => {
    expect(hex(await derivedKey(RFC))).toBe(KEY);
  });

  test('comes from the worker, which is ended; what it tells on the way is passed on', async () => {
    fakeWorker((worker) => {
      worker.onmessage?.({ data: { done: 0.5 } });
      worker.onmessage?.({ data: { key: Uint8Array.of(1, 2, 3) } });
    });
    const ticks: number[] = [];
    expect(hex(await derivedKey(RFC, { tick: (done) => ticks.push(done) }))).toBe('010203');
    expect(ticks).toEqual([0.5]);
    expect(made).toMatchObject([{ asked: [RFC], ended: 1 }]);
  });

  test('is computed here where the worker does not come up', async () => {
    fakeWorker((worker) => worker.onerror?.({ preventDefault: () => undefined }));
    expect(hex(await derivedKey(RFC))).toBe(KEY);
    expect(made).toMatchObject([{ ended: 1 }]);
    vi.stubGlobal('Worker', function refused() {
      throw new Error('refused by the page');
    });
    expect(hex(await derivedKey(RFC))).toBe(KEY);
  });

  test('is computed here where the worker tells that it could not: no promise that fails there is heard of', async () => {
    fakeWorker((worker) => worker.onmessage?.({ data: { failed: true } }));
    expect(hex(await derivedKey(RFC))).toBe(KEY);
    expect(made).toMatchObject([{ ended: 1 }]);
  });

  test('is stopped at once: the worker is ended, and no key comes', async () => {
    fakeWorker(() => undefined);
    const stop = new AbortController();
    const key = derivedKey(RFC, { signal: stop.signal });
    stop.abort();
    expect(await key).toBeUndefined();
    expect(made).toMatchObject([{ ended: 1 }]);
    expect(await derivedKey(RFC, { signal: stop.signal })).toBeUndefined();
    expect(made).toHaveLength(1);
  });
});
