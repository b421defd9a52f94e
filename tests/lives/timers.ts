import { AsyncResource } from 'node:async_hooks';

/*
 * Time as a life has it: `setTimeout` waits until the life lets time pass, so that nothing depends on how fast a machine is.
 */

type Timer = { readonly due: number; readonly n: number; readonly fn: () => void };

export type Time = {
  /** Lets so many ms pass: what is due runs in its order, each with a few turns of the event loop to do its work. */
  readonly pass: (ms: number) => Promise<void>;
  /** Gives the clock of the machine back. */
  readonly end: () => void;
};

/** Takes the timers over until `end`. */
export function takeTime(): Time {
  const real = { setTimeout: globalThis.setTimeout, clearTimeout: globalThis.clearTimeout };
  const timers = new Map<number, Timer>();
  let now = 0;
  let count = 0;
  const set = (fn: () => void, ms = 0): number => {
    count += 1;
    // what it does belongs to the launch that asked for it
    timers.set(count, { due: now + ms, n: count, fn: AsyncResource.bind(fn) });
    return count;
  };
  const clear = (n: number): void => void timers.delete(n);
  Object.assign(globalThis, { setTimeout: set, clearTimeout: clear });

  return {
    async pass(ms) {
      const until = now + ms;
      for (;;) {
        const due = [...timers.values()].filter((timer) => timer.due <= until);
        const next = due.reduce<Timer | undefined>(
          (first, one) => (first && isBefore(first, one) ? first : one),
          undefined,
        );
        if (!next) break;
        timers.delete(next.n);
        now = next.due;
        next.fn();
        await turns(3);
      }
      now = until;
    },
    end: () => void Object.assign(globalThis, real),
  };
}

const isBefore = (a: Timer, b: Timer): boolean => a.due < b.due || (a.due === b.due && a.n < b.n);

/** Lets so many turns of the event loop pass. */
export async function turns(count: number): Promise<void> {
  for (let n = 0; n < count; n += 1) await new Promise((resolve) => setImmediate(resolve));
}
