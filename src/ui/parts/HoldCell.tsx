import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

const HOLD_MS = 450;

type HoldCellProps = {
  readonly class: string;
  readonly label: string;
  readonly saved: boolean;
  readonly disabled: boolean;
  readonly onTap: () => void;
  readonly onHold: () => void;
  readonly children: ComponentChildren;
};

/** A button with two acts: tapped and held. A hold that began to scroll is neither. */
export function HoldCell({ class: name, label, saved, disabled, onTap, onHold, children }: HoldCellProps) {
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const held = useRef(false);
  const hold = useRef(onHold);
  hold.current = onHold;
  const stop = () => clearTimeout(timer.current);
  useEffect(() => stop, []);
  return (
    <button
      type="button"
      class={name}
      disabled={disabled}
      {...(saved ? { 'data-saved': '' } : {})}
      onPointerDown={() => {
        held.current = false;
        timer.current = setTimeout(() => {
          held.current = true;
          hold.current();
        }, HOLD_MS);
      }}
      onPointerUp={stop}
      onPointerLeave={stop}
      onPointerCancel={stop}
      onContextMenu={(event) => event.preventDefault()}
      onClick={() => {
        // the end of a hold is also a click: it has acted already
        if (!held.current) onTap();
        held.current = false;
      }}
    >
      <span class="unseen">{label}</span>
      {children}
    </button>
  );
}
