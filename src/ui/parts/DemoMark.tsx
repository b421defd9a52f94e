import { DEMO } from '../demoWords';

/** Says on every screen that all of this is invented, and takes it away with one tap. It asks nothing of the log: that may be broken. */
export function DemoMark({ remove }: { remove: () => void }) {
  return (
    <aside class="demo-mark" aria-label={DEMO.mark}>
      <p>
        <strong>{DEMO.mark}</strong> <span class="hint">{DEMO.markMore}</span>
      </p>
      <button type="button" class="button" aria-label={DEMO.removeLabel} onClick={remove}>
        {DEMO.remove}
      </button>
    </aside>
  );
}
