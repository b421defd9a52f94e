import { useState } from 'preact/hooks';
import { type Entry, type EntryFault, fieldsOf } from '../../domain/entry';
import type { Exercise } from '../../domain/exercise';
import type { Past } from '../../domain/prefill';
import { Control } from './Control';
import { type Selection, Sentence } from './Sentence';

type EntryEditorProps = {
  readonly entry: Entry;
  readonly exercise: Exercise;
  readonly past: Past;
  readonly onEntry: (entry: Entry) => void;
  readonly fault?: EntryFault | undefined;
  /** Whether the kind of set can be another; a plan is of working sets. */
  readonly kinds?: boolean;
};

/** An entry edited in a sheet, as the same sentence and control the pad has. */
export function EntryEditor({ entry, exercise, past, onEntry, fault, kinds = true }: EntryEditorProps) {
  const [chosen, setChosen] = useState<Selection>({
    type: 'field',
    field: fieldsOf(exercise.holds, entry.body)[0] ?? 'reps',
    part: 0,
    typing: false,
  });
  return (
    <>
      <Control
        entry={entry}
        exercise={exercise}
        selection={chosen}
        today={past.today}
        lastTime={past.lastTime}
        onChange={(patch) => onEntry({ ...entry, ...patch } as Entry)}
        onSelect={setChosen}
      />
      <Sentence
        entry={entry}
        exercise={exercise}
        selection={chosen}
        onSelect={(selection) => {
          if (kinds || selection.type !== 'choice' || selection.choice !== 'kind') setChosen(selection);
        }}
        onType={(field, part, text) =>
          onEntry(
            part === 0
              ? { ...entry, [field]: text }
              : {
                  ...entry,
                  parts: entry.parts.map((one, index) => (index === part - 1 ? { ...one, [field]: text } : one)),
                },
          )
        }
        invalid={fault ? { field: fault.field, part: (fault.part ?? 1) - 1 } : undefined}
        slim
      />
    </>
  );
}
