import { useEffect } from 'preact/hooks';
import { useRedraw } from '../app';

const narrow = matchMedia('(max-width: 359px)');

/** Returns whether the screen is too narrow for six targets in a row. */
export function useNarrow(): boolean {
  const redraw = useRedraw();
  useEffect(() => {
    narrow.addEventListener('change', redraw);
    return () => narrow.removeEventListener('change', redraw);
  }, [redraw]);
  return narrow.matches;
}
