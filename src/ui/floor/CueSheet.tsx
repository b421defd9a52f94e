import { useState } from 'preact/hooks';
import type { SetRecord } from '../../domain/set';
import { useApp, useWatch } from '../app';
import { faultSentence } from '../faultWords';
import { Sheet } from '../parts/Sheet';
import { TextField } from '../parts/TextField';
import type { Place } from './usePad';

/** The cue that was given in a set: one of the library, or a new one in the words just used. */
export function CueSheet({ place, set, close }: { place: Place; set: SetRecord; close: () => void }) {
  const { log, acts, views, world } = useApp();
  useWatch(['kind:cue']);
  const [words, setWords] = useState('');
  const [fault, setFault] = useState<string>();
  const give = (cue: string) => {
    if (!set.cues.some((use) => use.cue === cue)) void acts.answerCue(log, place, set, cue, null);
    close();
  };
  const add = () => {
    const added = acts.addCue(log, words, world);
    if (added.ok) give(added.value.id);
    else setFault(faultSentence(added.error));
  };
  return (
    <Sheet title="Cue given in this set" onClose={close}>
      <div class="field-act">
        <TextField label="New cue, in your words" value={words} onText={setWords} fault={fault} />
        <button type="button" class="button button-act" onClick={add}>
          Add and give
        </button>
      </div>
      <ul class="pick-list">
        {views.cues(log).map((cue) => (
          <li key={cue.id}>
            <button type="button" class="button pick" onClick={() => give(cue.id)} dir="auto">
              “{cue.words}”
            </button>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
