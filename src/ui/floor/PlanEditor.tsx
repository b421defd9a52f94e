import { useState } from 'preact/hooks';
import type { Entry } from '../../domain/entry';
import type { Exercise } from '../../domain/exercise';
import { type Plan, plannedTexts } from '../../domain/plan';
import { planOfEntry } from '../../domain/planOf';
import { useApp } from '../app';
import { EntryEditor } from './EntryEditor';
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
  return (
    <div class="card">
      <EntryEditor entry={entry} exercise={exercise} past={past} onEntry={setEntry} kinds={false} />
      <button type="button" class="button" onClick={() => onKeep(planOfEntry(entry))}>
        Keep this plan
      </button>
    </div>
  );
}
