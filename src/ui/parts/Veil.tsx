import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { useApp, useRedraw } from '../app';
import { later } from './later';

const LockScreen = later(() => import('./LockScreen').then((file) => file.LockScreen));

/**
 * What the lock covers. Before it has been open once nothing of it is drawn; after that it stays as it is, with what is half typed, and is neither seen
 * nor reached while the lock is not open.
 */
export function Veil({ children }: { children: ComponentChildren }) {
  const { lock } = useApp();
  const redraw = useRedraw();
  const place = useRef<HTMLDivElement>(null);
  const begun = useRef(false);
  const state = lock.state();
  const shut = state !== 'open';
  begun.current ||= !shut;
  useLayoutEffect(() => {
    let focus: Element | null;
    let top: number;
    return lock.watch(() => {
      const at = place.current;
      const shuts = lock.state() !== 'open';
      if (at && shuts !== at.hidden) {
        if (shuts) {
          focus = document.activeElement;
          top = scrollY;
        }
        // at once, not at the next drawing: a picture of the screen may be taken now
        at.hidden = at.inert = shuts;
        if (!shuts && focus instanceof HTMLElement) {
          scrollTo(0, top);
          focus.focus({ preventScroll: true });
        }
      }
      redraw();
    });
  }, [lock, redraw]);
  return (
    <>
      <div class="veil" ref={place} hidden={shut} inert={shut}>
        {begun.current ? children : null}
      </div>
      {state === 'locked' ? <LockScreen /> : null}
    </>
  );
}
