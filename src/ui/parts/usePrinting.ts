import { options } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { useRedraw } from '../app';

const printed = matchMedia('print');

/** Returns whether the page is being printed: what is folded is opened for it. */
export function usePrinting(): boolean {
  const redraw = useRedraw();
  const isAsked = useRef(false);
  useEffect(() => {
    // pages are counted at once: what is drawn a moment later would be cut off
    const drawNow = (): void => {
      const { debounceRendering } = options;
      options.debounceRendering = (draw) => draw();
      redraw();
      if (debounceRendering) options.debounceRendering = debounceRendering;
      else delete options.debounceRendering;
    };
    const ask = (asked: boolean) => (): void => {
      isAsked.current = asked;
      drawNow();
    };
    const [before, after] = [ask(true), ask(false)];
    addEventListener('beforeprint', before);
    addEventListener('afterprint', after);
    printed.addEventListener('change', drawNow);
    return () => {
      removeEventListener('beforeprint', before);
      removeEventListener('afterprint', after);
      printed.removeEventListener('change', drawNow);
    };
  }, [redraw]);
  return isAsked.current || printed.matches;
}
