import { useEffect } from 'preact/hooks';
import { useApp } from './app';

/** Rows that answers are worked out from. */
export const RECORDS = [
  'kind:session',
  'kind:otherWork',
  'kind:role',
  'kind:exercise',
  'kind:result',
  'kind:client',
  'kind:settings',
];

/** Rows come in one act after another: they are waited out before anything is asked anew, ms. */
const SETTLES = 400;

/**
 * Asks at once, and anew a while after rows of `topics` were written (a list that stays the same; as `log.watch` takes them). The signal of what was asked
 * before is aborted then, as it is when nobody waits any more. `ask` is another function where something else is asked.
 */
export function useAskedAnew(topics: readonly string[], ask: (signal: AbortSignal) => void): void {
  const { log } = useApp();
  useEffect(() => {
    let call = new AbortController();
    let timer: ReturnType<typeof setTimeout> | undefined;
    const anew = (): void => {
      call.abort();
      call = new AbortController();
      ask(call.signal);
    };
    anew();
    const off = log.watch(topics, () => {
      clearTimeout(timer);
      timer = setTimeout(anew, SETTLES);
    });
    return () => {
      clearTimeout(timer);
      call.abort();
      off();
    };
  }, [log, topics, ask]);
}
