import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { TREND } from '../trendWords';

/** A table in a frame that it may be wider than: then a line above it says where there is more. */
export function WideTable({ label, children }: { label: string; children: ComponentChildren }) {
  const ref = useRef<HTMLElement>(null);
  const [more, setMore] = useState<keyof typeof TREND.more>();
  const look = () => {
    if (!ref.current) return;
    const { scrollLeft, clientWidth, scrollWidth } = ref.current;
    const isWide = scrollWidth > clientWidth + 1;
    setMore(isWide ? (scrollLeft + clientWidth < scrollWidth - 1 ? 'right' : 'left') : undefined);
  };
  useLayoutEffect(() => {
    look();
    const sizes = new ResizeObserver(look);
    // the frame, and what stands in it
    for (const one of [ref.current, ref.current?.firstElementChild]) if (one) sizes.observe(one);
    return () => sizes.disconnect();
  }, []);
  return (
    <div>
      {more ? (
        <p class={`hint wide-hint wide-${more}`} aria-hidden="true">
          {TREND.more[more]}
        </p>
      ) : null}
      <section
        class="trend-wide"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what is wider than the screen must be reached by keys too
        tabIndex={0}
        aria-label={label}
        ref={ref}
        onScroll={look}
      >
        {children}
      </section>
    </div>
  );
}
