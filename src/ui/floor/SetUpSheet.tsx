import { useState } from 'preact/hooks';
import { setUpFor } from '../../domain/exercise';
import { setUpTexts } from '../../domain/setUp';
import { useApp } from '../app';
import type { AnyFault } from '../faultWords';
import { Sheet } from '../parts/Sheet';
import { SetUpFields } from './SetUpFields';
import type { Place } from './usePad';

/** How an exercise is set up for this client: remembered, and noted with each set from now on. */
export function SetUpSheet({ place, exercise: id, close }: { place: Place; exercise: string; close: () => void }) {
  const { log, acts, views } = useApp();
  const exercise = views.exercise(log, id);
  const remembered = views.client(log, place.stream)?.setUps[id];
  const [texts, setTexts] = useState(() => setUpTexts(exercise ? setUpFor(exercise, remembered) : {}));
  const [fault, setFault] = useState<AnyFault>();
  if (!exercise) return null;
  const keep = () => {
    const kept = acts.saveSetUp(log, place.stream, exercise, texts);
    if (kept.ok) close();
    else setFault(kept.error);
  };
  return (
    <Sheet title={`Set-up, ${exercise.name}`} onClose={close}>
      <SetUpFields
        texts={texts}
        onTexts={setTexts}
        label="Box, grip, seat, whatever must be the same"
        fault={fault}
        hint={`${exercise.setUp && !remembered ? 'As it usually is. ' : ''}Remembered for this client. Sets already logged keep theirs.`}
      />
      <button type="button" class="button button-act" onClick={keep}>
        Keep set-up
      </button>
    </Sheet>
  );
}
