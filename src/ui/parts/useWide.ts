import { useEffect } from 'preact/hooks';
import { useRedraw } from '../app';

const wide = matchMedia('(min-width: 1000px), print');

/** Returns whether the screen is wide enough for a table of a week; paper is. */
export function useWide(): boolean {
  const redraw = useRedraw();
  useEffect(() => {
    wide.addEventListener('change', redraw);
    return () => wide.removeEventListener('change', redraw);
  }, [redraw]);
  return wide.matches;
}
