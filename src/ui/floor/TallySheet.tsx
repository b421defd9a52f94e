import { useState } from 'preact/hooks';
import { useApp } from '../app';
import { faultSentence } from '../faultWords';
import { Sheet } from '../parts/Sheet';
import { TextField } from '../parts/TextField';
import type { Pad } from './usePad';

/** An exercise spread over the session: how many in all, added to from anywhere. */
export function TallySheet({ pad, exercise: id, close }: { pad: Pad; exercise: string; close: () => void }) {
  const { log, acts, views, world } = useApp();
  const { place, session } = pad;
  const held = session.items.find((item) => item.id === id)?.tally;
  const [text, setText] = useState(held === undefined ? '' : String(held));
  const [fault, setFault] = useState<string>();
  const keep = (total: string | null) => {
    const kept = acts.spread(log, place, id, total, world);
    if (kept.ok) close();
    else setFault(faultSentence(kept.error));
  };
  return (
    <Sheet title={`Spread over the session: ${views.exercise(log, id)?.name ?? ''}`} onClose={close}>
      <TextField
        label="How many in all"
        value={text}
        onText={setText}
        mode="numeric"
        fault={fault}
        hint="A few at a time, whatever else is in hand. What was done of it today counts."
      />
      <button type="button" class="button button-act" onClick={() => keep(text)}>
        Keep the count
      </button>
      {held === undefined ? null : (
        <button type="button" class="button button-plain" onClick={() => keep(null)}>
          Count it no more; its sets stay
        </button>
      )}
    </Sheet>
  );
}
