import { useState } from 'preact/hooks';
import { type Entry, type Field, fieldsOf } from '../../domain/entry';
import type { Exercise } from '../../domain/exercise';
import { type Plan, plannedTexts, planOfEntry } from '../../domain/plan';
import { useApp } from '../app';
import { Control } from './Control';
import { type Selection, Sentence } from './Sentence';
import { entryOf, type Pad, pastOf } from './usePad';

type PlanEditorProps = {
  readonly pad: Pad;
  readonly exercise: Exercise;
  readonly plan: Plan;
  readonly onKeep: (plan: Plan) => void;
};

/** What is planned of a station, as the same sentence the pad is. What is left open stays open. */
export function PlanEditor({ pad, exercise, plan, onKeep }: PlanEditorProps) {
  const app = useApp();
  const past = pastOf(app, pad.place, pad.session, exercise.id);
  const [entry, setEntry] = useState<Entry>(() => ({
    ...entryOf(
      app,
      pad.place.stream,
      pad.session,
      exercise,
      { ...plannedTexts(plan), exercise: exercise.id, kind: 'working' },
      past,
    ),
    // a side and its numbers are the round's; the plan is for both
    side: null,
  }));
  const [chosen, setChosen] = useState<Selection>({
    type: 'field',
    field: firstOf(exercise, entry),
    part: 0,
    typing: false,
  });
  return (
    <div class="card">
      <Control
        entry={entry}
        exercise={exercise}
        selection={chosen}
        today={past.today}
        lastTime={past.lastTime}
        onChange={(patch) => setEntry({ ...entry, ...patch } as Entry)}
        onSelect={setChosen}
      />
      <Sentence
        entry={entry}
        exercise={exercise}
        selection={chosen}
        onSelect={(selection) => {
          if (selection.type !== 'choice' || selection.choice !== 'kind') setChosen(selection);
        }}
        onType={(field, _, text) => setEntry({ ...entry, [field]: text })}
        invalid={undefined}
        slim
      />
      <button type="button" class="button" onClick={() => onKeep(planOfEntry(entry))}>
        Keep this plan
      </button>
    </div>
  );
}

const firstOf = (exercise: Exercise, entry: Entry): Field => fieldsOf(exercise.holds, entry.body)[0] ?? 'reps';
