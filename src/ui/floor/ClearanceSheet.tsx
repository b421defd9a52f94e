import { useState } from 'preact/hooks';
import { useApp } from '../app';
import { faultSentence } from '../faultWords';
import { Sheet } from '../parts/Sheet';
import { TextField } from '../parts/TextField';
import type { Place } from './usePad';

/** Who cleared an exercise that pain or a stop sign had closed. */
export function ClearanceSheet({ place, exercise: id, close }: { place: Place; exercise: string; close: () => void }) {
  const { log, acts, views, world } = useApp();
  const [who, setWho] = useState('');
  const [fault, setFault] = useState<string>();
  const name = views.exercise(log, id)?.name ?? 'the exercise';
  const keep = () => {
    const kept = acts.noteClearance(log, place.stream, id, who, world);
    if (kept.ok) close();
    else setFault(faultSentence(kept.error));
  };
  return (
    <Sheet title={`Clearance, ${name}`} onClose={close}>
      <p class="hint">
        A clearance is a licensed practitioner’s. Note who gave it; from then on the exercise is open again.
      </p>
      <TextField label="Who cleared it" value={who} onText={setWho} fault={fault} />
      <button type="button" class="button button-act" onClick={keep}>
        Note the clearance
      </button>
    </Sheet>
  );
}
