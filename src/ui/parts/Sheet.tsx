import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';

/** A sheet over a screen. It has an address, so Back closes it; Escape and its own button do the same. */
export function Sheet({
  title,
  onClose,
  tall = false,
  children,
}: {
  title: string;
  onClose: () => void;
  /** Where a list grows and shrinks with what is typed above it: the field must stay where it is. */
  tall?: boolean;
  children: ComponentChildren;
}) {
  const sheet = useRef<HTMLElement>(null);
  // before it is painted: a key pressed as soon as the sheet is seen must not land on what lies under it, nor be taken by the focus moving later
  useLayoutEffect(() => {
    const before = document.activeElement;
    sheet.current?.focus();
    return () => {
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    <>
      <div class="sheet-back" onClick={onClose} aria-hidden="true" />
      <section
        class={`sheet settles${tall ? ' sheet-tall' : ''}`}
        role="dialog"
        aria-modal="true"
        aria-label={title}
        tabIndex={-1}
        ref={sheet}
        onKeyDown={(event) => {
          if (event.key === 'Escape') onClose();
          if (event.key === 'Tab') keepInside(event, sheet.current);
        }}
      >
        <div class="sheet-head">
          <h2>{title}</h2>
          <button type="button" class="button" onClick={onClose}>
            Close
          </button>
        </div>
        {children}
      </section>
    </>
  );
}

/** Tab goes round inside the sheet: what lies under it cannot be acted on. */
function keepInside(event: KeyboardEvent, sheet: HTMLElement | null): void {
  const stops = [
    ...(sheet?.querySelectorAll<HTMLElement>('button:not(:disabled), input, textarea, summary, [tabindex="0"]') ?? []),
  ];
  const [first] = stops;
  const last = stops.at(-1);
  const at = document.activeElement;
  if (event.shiftKey && (at === first || at === sheet)) {
    event.preventDefault();
    last?.focus();
  } else if (!event.shiftKey && at === last) {
    event.preventDefault();
    first?.focus();
  }
}
