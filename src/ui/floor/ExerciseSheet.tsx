import { useState } from 'preact/hooks';
import { HOLDS as HOLD_NAMES, type Holds, SIDE_RULES, type SideRule } from '../../domain/exercise';
import { useApp, useWatch } from '../app';
import { Chip, ChipRow } from '../parts/Chip';
import { Sheet } from '../parts/Sheet';
import { TextField } from '../parts/TextField';
import { faultSentence, HOLDS, SIDES } from '../words';
import type { Pad } from './usePad';

/** The library to choose from: today's exercises first. A name that is not there can be added as it is typed. */
export function ExerciseSheet({ pad, close }: { pad: Pad; close: () => void }) {
  const { log, acts, views, world } = useApp();
  useWatch(['kind:exercise']);
  const [text, setText] = useState('');
  const [adding, setAdding] = useState(false);
  const wanted = text.trim().toLocaleLowerCase();
  const all = views.exercises(log);
  const todays = new Set(pad.session.exercises);
  const found = [...all.filter((one) => todays.has(one.id)), ...all.filter((one) => !todays.has(one.id))].filter(
    (one) => one.name.toLocaleLowerCase().includes(wanted),
  );
  const choose = (id: string) => {
    if (!todays.has(id)) void acts.listExercise(log, pad.place, id, world);
    pad.choose(id);
    close();
  };
  return (
    <Sheet title="Exercise" onClose={close}>
      <TextField label="Find, or name a new one" value={text} onText={setText} />
      {adding ? (
        <NewExercise name={text} onAdded={choose} />
      ) : (
        <button type="button" class="button" onClick={() => setAdding(true)}>
          {text.trim() === '' ? 'Add a new exercise' : `Add “${text.trim()}”`}
        </button>
      )}
      <ul class="pick-list">
        {found.map((exercise) => (
          <li key={exercise.id}>
            <button type="button" class="button pick" onClick={() => choose(exercise.id)} dir="auto">
              {exercise.name}
            </button>
          </li>
        ))}
      </ul>
      {found.length === 0 ? <p class="hint">Nothing here has that name yet.</p> : null}
    </Sheet>
  );
}

function NewExercise({ name, onAdded }: { name: string; onAdded: (id: string) => void }) {
  const { log, acts, world } = useApp();
  const [holds, setHolds] = useState<Holds>('load');
  const [sides, setSides] = useState<SideRule>('both');
  const [fault, setFault] = useState<string>();
  const add = () => {
    const added = acts.addExercise(log, { name, holds, sides }, world);
    if (added.ok) onAdded(added.value.id);
    else setFault(faultSentence(added.error));
  };
  return (
    <div class="card">
      <p class="hint">What a set of it holds</p>
      <ChipRow label="what a set holds" of="many">
        {HOLD_NAMES.map((one) => (
          <Chip key={one} chosen={holds === one} onTap={() => setHolds(one)}>
            {HOLDS[one]}
          </Chip>
        ))}
      </ChipRow>
      <ChipRow label="sides" of="many">
        {SIDE_RULES.map((one) => (
          <Chip key={one} chosen={sides === one} onTap={() => setSides(one)}>
            {SIDES[one]}
          </Chip>
        ))}
      </ChipRow>
      {fault ? (
        <p class="fault" role="alert">
          {fault}
        </p>
      ) : null}
      <button type="button" class="button button-act" onClick={add}>
        Add and use it
      </button>
    </div>
  );
}
