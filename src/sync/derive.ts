import { type Bytes, owned } from './bytes';
import { computedKey, type Derivation, type Told } from './computeKey';

/*
 * Keys of passphrases and phrases take a second and a large piece of memory: computed in a worker of their own, where the browser has one, so that no tap
 * waits; there it is stopped at once, and its memory is given back. Elsewhere the same runs in between.
 */

/** How a long computation is watched and stopped; `tick` hears how much of it is done, from 0 to 1. */
export type Watch = { readonly tick?: (done: number) => void; readonly signal?: AbortSignal };

/** Returns the 32-byte key of a derivation, or undefined where it was stopped on the way. */
export async function derivedKey(derivation: Derivation, watch: Watch = {}): Promise<Bytes | undefined> {
  if (watch.signal?.aborted) return undefined;
  const worker = startWorker();
  const told = worker && (await askWorker(worker, derivation, watch));
  return told === undefined || told === 'failed'
    ? deriveHere(derivation, watch)
    : told === 'stopped'
      ? undefined
      : told;
}

function startWorker(): Worker | undefined {
  try {
    return typeof Worker === 'undefined'
      ? undefined
      : new Worker(new URL('./deriveWorker.ts', import.meta.url), { type: 'module' });
  } catch {
    return undefined;
  }
}

/** `failed`: it could not be loaded, or ran out of memory. */
function askWorker(
  worker: Worker,
  derivation: Derivation,
  { tick, signal }: Watch,
): Promise<Bytes | 'stopped' | 'failed'> {
  return new Promise<Bytes | 'stopped' | 'failed'>((resolve) => {
    signal?.addEventListener('abort', () => resolve('stopped'), { once: true });
    worker.onerror = (event) => {
      event.preventDefault();
      resolve('failed');
    };
    worker.onmessage = ({ data }: MessageEvent<Told>) => {
      if ('key' in data) resolve(owned(data.key));
      else if ('failed' in data) resolve('failed');
      else tick?.(data.done);
    };
    worker.postMessage(derivation);
  }).finally(() => worker.terminate());
}

const STOPPED = Symbol('stopped');

async function deriveHere(derivation: Derivation, { tick, signal }: Watch): Promise<Bytes | undefined> {
  try {
    if (signal?.aborted) return undefined;
    return await computedKey(derivation, (done) => {
      if (signal?.aborted) throw STOPPED;
      tick?.(done);
    });
  } catch (error) {
    if (error === STOPPED) return undefined;
    throw error;
  }
}
