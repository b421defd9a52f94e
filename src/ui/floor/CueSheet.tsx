import { useState } from 'preact/hooks';
import { cueParts } from '../../domain/cues';
import type { SetRecord } from '../../domain/set';
import { useApp, useWatch } from '../app';
import { type AnyCue, cuesOf } from '../cueWords';
import { faultSentence } from '../faultWords';
import { CUE_PART, cueFor, FAULTS, FOCUS } from '../libraryWords';
import { Sheet } from '../parts/Sheet';
import { search } from '../parts/search';
import { TextField } from '../parts/TextField';
import type { Place } from './usePad';

/** The cue that was given in a set: one that worked before, one of the library, or a new one in the words just used. */
export function CueSheet({ place, set, close }: { place: Place; set: SetRecord; close: () => void }) {
  const app = useApp();
  const { log, acts, views, world } = app;
  useWatch(['kind:cue', `series:${place.stream}`]);
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
  const exercise = set.exercise === undefined ? undefined : views.exercise(log, set.exercise);
  const times = (set.exercise !== undefined && log.exposures(place.stream, set.exercise)) || [];
  const used = times.toReversed().flatMap((time) => time.cues.map(({ cue }) => cue));
  const seen = set.faults.filter((one) => !one.gone).map((one) => one.id);
  const parts = cueParts(cuesOf(app), used, seen, exercise?.pattern);
  const inOrder = parts.flatMap((part) => part.cues);
  const shown = words.trim() === '' ? parts : [{ title: undefined, cues: search(inOrder, words, textOf) }];
  return (
    <Sheet title="Cue given in this set" onClose={close} tall>
      <div class="field-act">
        <TextField
          label="Find, or a new cue in your words"
          value={words}
          onText={(text) => {
            setWords(text);
            setFault(undefined);
          }}
          fault={fault}
        />
        <button type="button" class="button button-act" onClick={add}>
          Add and give
        </button>
      </div>
      {shown.map(({ title, cues }) => (
        <section key={title ?? 'found'} aria-label={title ? CUE_PART[title] : 'found'}>
          {title ? <h3 class="pick-head">{CUE_PART[title]}</h3> : null}
          <ul class="pick-list">
            {cues.map((cue) => (
              <li key={cue.id}>
                <button type="button" class="button pick" onClick={() => give(cue.id)}>
                  <span dir="auto">“{cue.words}”</span>
                  {cue.fault ? <span class="hint pick-note"> {cueFor(cue)}</span> : null}
                </button>
              </li>
            ))}
          </ul>
          {cues.length === 0 && !fault ? (
            <p class="hint">No cue is worded like that. It can be added as it stands.</p>
          ) : null}
        </section>
      ))}
    </Sheet>
  );
}

const textOf = ({ words, fault, focus }: AnyCue): string =>
  [words, fault && FAULTS[fault], focus && FOCUS[focus]].filter((text) => text).join(' ');
