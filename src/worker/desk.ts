import type { Handed, Question, Reply } from './analyst';
import type { FromWorker, ToWorker } from './messages';

/*
 * A desk where an analyst sits: in a worker, or in the page itself (pageDesk.ts). Both are asked alike.
 */

/**
 * What became of a question. `failed`: it cannot be worked out. `lost`: the worker is gone, and what it was handed with it. `stuck`: it did not answer in a
 * minute. `stopped`: called off.
 */
export type Heard = Reply | { readonly type: 'failed' | 'lost' | 'stuck' | 'stopped' };

export type Desk = {
  readonly hand: (handed: Handed) => void;
  /** One question at a time. */
  readonly ask: (question: Question, signal?: AbortSignal) => Promise<Heard>;
  /** Ends it, with all it was handed. */
  readonly end: () => void;
};

/** A clock that was asleep wakes with one turn late, and not with all of them: so the worker has its time after that. */
const TURN_MS = 6_000;
const TURNS = 10;

/** Returns a desk in a worker of its own; undefined where there is none to be had. */
export function workerDesk(): Desk | undefined {
  const worker = startWorker();
  if (!worker) return undefined;
  let n = 0;
  let lost = false;
  let heard: ((what: Heard) => void) | undefined;
  const lose = (): void => {
    lost = true;
    heard?.({ type: 'lost' });
  };
  worker.onerror = (event) => {
    event.preventDefault();
    lose();
  };
  worker.onmessageerror = lose;
  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    if (data.n === n) heard?.(data.reply);
  };
  const send = (message: ToWorker): void => {
    try {
      worker.postMessage(message);
    } catch {
      // what cannot be sent was never handed over
      lose();
    }
  };
  return {
    hand: send,
    ask(question, signal) {
      n += 1;
      return new Promise<Heard>((resolve) => {
        if (signal?.aborted) return resolve({ type: 'stopped' });
        const stop = (): void => finish({ type: 'stopped' });
        const cancel = afterTurns(() => finish({ type: 'stuck' }));
        const finish = (what: Heard): void => {
          cancel();
          signal?.removeEventListener('abort', stop);
          heard = undefined;
          resolve(what);
        };
        heard = finish;
        signal?.addEventListener('abort', stop, { once: true });
        if (lost) finish({ type: 'lost' });
        else send({ type: 'ask', n, question });
      });
    },
    end: () => worker.terminate(),
  };
}

function startWorker(): Worker | undefined {
  try {
    return typeof Worker === 'undefined'
      ? undefined
      : new Worker(new URL('./analysisWorker.ts', import.meta.url), { type: 'module' });
  } catch {
    return undefined;
  }
}

function afterTurns(fn: () => void): () => void {
  let left = TURNS;
  let timer = setTimeout(turn, TURN_MS);
  function turn(): void {
    left -= 1;
    if (left === 0) fn();
    else timer = setTimeout(turn, TURN_MS);
  }
  return () => clearTimeout(timer);
}
