import { useEffect } from 'preact/hooks';
import { useRedraw } from '../app';

const printed = matchMedia('print');

/** Returns whether the page is being printed: what is folded is opened for it. */
export function usePrinting(): boolean {
  const redraw = useRedraw();
  useEffect(() => {
    printed.addEventListener('change', redraw);
    return () => printed.removeEventListener('change', redraw);
  }, [redraw]);
  return printed.matches;
}
