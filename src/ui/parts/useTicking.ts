import { useEffect, useRef, useState } from 'preact/hooks';

const TICK_MS = 250;

/** Returns what `compute` gives now, looked at four times a second; draws again only when that is another text or number. */
export function useTicking<T extends string | number | null>(compute: () => T): T {
  const now = compute();
  const [, setShown] = useState(now);
  const latest = useRef(compute);
  latest.current = compute;
  useEffect(() => {
    const timer = setInterval(() => setShown(latest.current()), TICK_MS);
    return () => clearInterval(timer);
  }, []);
  return now;
}
