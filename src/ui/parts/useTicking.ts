import { useEffect, useRef } from 'preact/hooks';
import { useRedraw } from '../app';

const TICK_MS = 250;

/** Returns what `compute` gives now, looked at four times a second; draws again only when that is another text or number. */
export function useTicking<T extends string | number | null>(compute: () => T): T {
  const now = compute();
  const redraw = useRedraw();
  // what was drawn last, by whatever cause: against an older tick, what came back to that tick's value would stay as it was drawn
  const drawn = useRef(now);
  drawn.current = now;
  const latest = useRef(compute);
  latest.current = compute;
  useEffect(() => {
    const timer = setInterval(() => {
      if (latest.current() !== drawn.current) redraw();
    }, TICK_MS);
    return () => clearInterval(timer);
  }, [redraw]);
  return now;
}
