import { useEffect, useRef } from 'preact/hooks';

const HOLD_MS = 400;
const RUN_MS = 110;

/** A button that acts once when tapped and runs on while it is held. */
export function HoldButton({ label, sign, onStep }: { label: string; sign: string; onStep: () => void }) {
  const step = useRef(onStep);
  step.current = onStep;
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const ran = useRef(false);

  const stop = () => clearTimeout(timer.current);
  const run = () => {
    ran.current = true;
    step.current();
    timer.current = setTimeout(run, RUN_MS);
  };
  useEffect(() => stop, []);

  return (
    <button
      type="button"
      class="chip"
      aria-label={label}
      onPointerDown={() => {
        ran.current = false;
        timer.current = setTimeout(run, HOLD_MS);
      }}
      onPointerUp={stop}
      onPointerLeave={stop}
      onPointerCancel={stop}
      onContextMenu={(event) => event.preventDefault()}
      onClick={() => {
        // the end of a hold is also a click: it has acted already
        if (!ran.current) onStep();
        ran.current = false;
      }}
    >
      {sign}
    </button>
  );
}
