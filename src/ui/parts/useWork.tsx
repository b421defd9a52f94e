import { useEffect, useRef, useState } from 'preact/hooks';
import type { Watching } from '../sealing';

type Work = {
  readonly busy: boolean;
  /** From 0 to 1. */
  readonly done: number;
  /** Runs something long; it hears when it is called off, and is called off when the screen goes. */
  readonly run: <T>(work: (watch: Required<Watching>) => Promise<T>) => Promise<T>;
  readonly cancel: () => void;
};

/** Returns what a screen needs to run something long: how far it is, and a way to call it off. */
export function useWork(): Work {
  const [done, setDone] = useState<number>();
  const stop = useRef<AbortController>(undefined);
  useEffect(() => () => stop.current?.abort(), []);
  return {
    busy: done !== undefined,
    done: done ?? 0,
    async run(work) {
      stop.current?.abort();
      const own = new AbortController();
      stop.current = own;
      setDone(0);
      try {
        return await work({ tick: (share) => own === stop.current && setDone(share), signal: own.signal });
      } finally {
        if (own === stop.current) setDone(undefined);
      }
    },
    cancel: () => stop.current?.abort(),
  };
}

/** The bar of something long. */
export function WorkBar({ work, what, fixed = false }: { work: Work; what: string; fixed?: boolean }) {
  if (!work.busy) return null;
  return (
    <div class="work-bar">
      <progress aria-label={what} value={work.done} max={1} />
      <p role="status">{what}</p>
      {fixed ? null : (
        <button type="button" class="button" onClick={work.cancel}>
          Call it off
        </button>
      )}
    </div>
  );
}
