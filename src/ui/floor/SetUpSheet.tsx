import { useState } from 'preact/hooks';
import { useApp } from '../app';
import { Sheet } from '../parts/Sheet';
import { TextField } from '../parts/TextField';
import { faultSentence } from '../words';
import type { Place } from './usePad';

/** How an exercise is set up for this client: remembered, and noted with each set from now on. */
export function SetUpSheet({ place, exercise: id, close }: { place: Place; exercise: string; close: () => void }) {
  const { log, acts, views } = useApp();
  const exercise = views.exercise(log, id);
  const [text, setText] = useState(views.client(log, place.stream)?.setUps[id] ?? '');
  const [fault, setFault] = useState<string>();
  if (!exercise) return null;
  const keep = () => {
    const kept = acts.saveSetUp(log, place.stream, exercise, text);
    if (kept.ok) close();
    else setFault(faultSentence(kept.error));
  };
  return (
    <Sheet title={`Set-up, ${exercise.name}`} onClose={close}>
      <TextField
        label="Box, grip, seat, tempo, pause"
        value={text}
        onText={setText}
        fault={fault}
        hint="Remembered for this client. Sets already logged keep theirs."
      />
      <button type="button" class="button button-act" onClick={keep}>
        Keep set-up
      </button>
    </Sheet>
  );
}
