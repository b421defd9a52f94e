import { useState } from 'preact/hooks';
import { FOCUSES } from '../../domain/cues';
import { SHIPPED_FAULTS } from '../../domain/library';
import { useApp, useWatch } from '../app';
import { type AnyCue, cuesOf } from '../cueWords';
import { faultSentence } from '../faultWords';
import { FAULTS, FOCUS, kitLines, TAB } from '../libraryWords';
import { Chip, ChipRow } from '../parts/Chip';
import { PageHead } from '../parts/PageHead';
import { PlaceForm } from '../parts/PlaceForm';
import { TextField } from '../parts/TextField';
import { LIBRARY_TABS, type LibraryTab, replace } from '../routes';
import { LibraryExercises } from './LibraryExercises';
import './library.css';

/** What can be chosen on the floor: exercises, cues, faults and places, to read and to change. */
export function Library({ tab }: { tab: LibraryTab }) {
  return (
    <main class="page">
      <PageHead title="Library" />
      <ChipRow label="part of the library" of="even">
        {LIBRARY_TABS.map((one) => (
          <Chip key={one} chosen={one === tab} onTap={() => replace({ page: 'library', part: one })}>
            {TAB[one]}
          </Chip>
        ))}
      </ChipRow>
      {tab === 'exercises' ? <LibraryExercises /> : null}
      {tab === 'cues' ? <Cues /> : null}
      {tab === 'faults' ? <Faults /> : null}
      {tab === 'places' ? <Places /> : null}
    </main>
  );
}

function Cues() {
  const app = useApp();
  const { log, acts, world } = app;
  useWatch(['kind:cue']);
  const [words, setWords] = useState('');
  const [fault, setFault] = useState<string>();
  const add = () => {
    const added = acts.addCue(log, words, world);
    setFault(added.ok ? undefined : faultSentence(added.error));
    if (added.ok) setWords('');
  };
  const all = cuesOf(app);
  const own = all.filter((cue) => cue.fault === undefined);
  return (
    <>
      <p class="hint">
        A cue may send the attention to the body, to the effect, or to an image. None is ranked above another: what it
        did for this client is what counts.
      </p>
      <div class="field-act">
        <TextField label="A new cue, in your words" value={words} onText={setWords} fault={fault} />
        <button type="button" class="button" onClick={add}>
          Add the cue
        </button>
      </div>
      {own.length > 0 ? (
        <section class="card" aria-label="your own">
          <h2>Your own</h2>
          <ul class="library-cues">
            {own.map((cue) => (
              <li key={cue.id} dir="auto">
                “{cue.words}”
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      {SHIPPED_FAULTS.map((fault) => (
        <section key={fault} class="card" aria-label={`for ${FAULTS[fault]}`}>
          <h2>For {FAULTS[fault]}</h2>
          <ul class="library-cues">
            {FOCUSES.flatMap((focus) => all.filter((cue) => cue.fault === fault && cue.focus === focus)).map(cueLine)}
          </ul>
        </section>
      ))}
    </>
  );
}

const cueLine = (cue: AnyCue) => (
  <li key={cue.id}>
    <span dir="auto">“{cue.words}”</span> {cue.focus ? <span class="hint">{FOCUS[cue.focus]}</span> : null}
  </li>
);

function Faults() {
  const all = cuesOf(useApp());
  return (
    <section class="card" aria-label="faults">
      <p class="hint">One tap in “more” of a set; a second tap says that it is gone.</p>
      <ul class="library-cues">
        {SHIPPED_FAULTS.map((fault) => (
          <li key={fault}>
            {FAULTS[fault]} <span class="hint">{all.filter((cue) => cue.fault === fault).length} cues</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Places() {
  const { log, views } = useApp();
  useWatch(['kind:kit']);
  const [open, setOpen] = useState<string>();
  const done = () => setOpen(undefined);
  return (
    <>
      {views.places(log).map((place) => (
        <section key={place.id} class="card" aria-label={place.name}>
          <h2 dir="auto">{place.name}</h2>
          {open === place.id ? (
            <PlaceForm edited={place} onKept={done} />
          ) : (
            <>
              {kitLines(place).map((line) => (
                <p key={line}>{line}</p>
              ))}
              <button
                type="button"
                class="button"
                aria-label={`change ${place.name}`}
                onClick={() => setOpen(place.id)}
              >
                Change
              </button>
            </>
          )}
        </section>
      ))}
      {open === 'new' ? (
        <section class="card" aria-label="a new place">
          <h2>A new place</h2>
          <PlaceForm edited={undefined} onKept={done} />
        </section>
      ) : (
        <button type="button" class="button" onClick={() => setOpen('new')}>
          Add a place
        </button>
      )}
    </>
  );
}
