import { useLayoutEffect, useRef, useState } from 'preact/hooks';

/** Drawn at first, and where nothing is laid out: the room of a small phone. */
const UNKNOWN = 340;

/** Returns a ref for an element and the width it has, in pixels: the chart is drawn to fit, so its words keep their size. */
export function useWidth() {
  const ref = useRef<HTMLFieldSetElement>(null);
  const [width, setWidth] = useState(UNKNOWN);
  useLayoutEffect(() => {
    const measure = () => setWidth(Math.floor(ref.current?.clientWidth ?? 0) || UNKNOWN);
    measure();
    const sizes = new ResizeObserver(measure);
    if (ref.current) sizes.observe(ref.current);
    return () => sizes.disconnect();
  }, []);
  return { ref, width };
}
