import { useState } from 'preact/hooks';
import { bodyShare } from '../../domain/bodyShare';
import { type Exercise, SIDE_RULES } from '../../domain/exercise';
import { musclesOf } from '../../domain/muscles';
import { libraryParts } from '../../domain/recent';
import { useApp, useWatch } from '../app';
import { type AnyFault, faultSentence } from '../faultWords';
import { areaLine, exerciseLine, nothingFound, PART } from '../libraryWords';
import { Chip, ChipRow } from '../parts/Chip';
import { NewExercise } from '../parts/NewExercise';
import { search } from '../parts/search';
import { TextField } from '../parts/TextField';
import { setUpText } from '../sentence';
import { HOLDS, PATTERNS, SIDES } from '../setWords';

const PART_TITLE = { ...PATTERNS, ...PART } as const;

/** In place of an id: the exercise that is being added. */
const NEW = 'new';

/** Every exercise by its pattern, with what a set of it holds and what it works; each can be changed. */
export function LibraryExercises() {
  const { log, views, world } = useApp();
  useWatch(['kind:exercise']);
  const [text, setText] = useState('');
  const [open, setOpen] = useState<string>();
  const all = views.exercises(log);
  const parts =
    text.trim() === ''
      ? libraryParts(all, new Set(), [], world.now())
      : [{ title: undefined, exercises: search(all, text, (one) => one.name) }];
  return (
    <>
      <TextField label="Find, or name a new one" value={text} onText={setText} />
      {open === NEW ? (
        <NewExercise name={text} act="Add it" onAdded={() => setOpen(undefined)} />
      ) : (
        <button type="button" class="button" onClick={() => setOpen(NEW)}>
          {text.trim() === '' ? 'Add a new exercise' : `Add “${text.trim()}”`}
        </button>
      )}
      {parts.map(({ title, exercises }) => (
        <section key={title ?? 'found'} class="card" aria-label={title ? PART_TITLE[title] : 'found'}>
          {title ? <h2>{PART_TITLE[title]}</h2> : null}
          <ul>
            {exercises.map((one) => (
              <li key={one.id} aria-label={one.name} class="library-line">
                {open === one.id ? (
                  <ExerciseForm exercise={one} done={() => setOpen(undefined)} />
                ) : (
                  <Line
                    exercise={one}
                    onChange={() => setOpen(one.id)}
                    easier={all.find(({ id }) => id === one.easier)}
                  />
                )}
              </li>
            ))}
          </ul>
          {exercises.length === 0 ? <p class="hint">{nothingFound(text, [])}</p> : null}
        </section>
      ))}
    </>
  );
}

type LineProps = { readonly exercise: Exercise; readonly easier: Exercise | undefined; readonly onChange: () => void };

function Line({ exercise, easier, onChange }: LineProps) {
  const areas = areaLine(musclesOf(exercise.id));
  const share = bodyShare(exercise.id, undefined);
  const setUp = exercise.setUp ? setUpText(exercise.setUp) : '';
  return (
    <>
      <div class="list-line">
        <b dir="auto">{exercise.name}</b>
        <button type="button" class="button" aria-label={`change ${exercise.name}`} onClick={onChange}>
          change
        </button>
      </div>
      <p class="hint">
        {exerciseLine(exercise, HOLDS[exercise.holds], SIDES[exercise.sides])}
        {areas === '' ? '' : ` Works ${areas}.`}
        {share === undefined ? '' : ` ${Math.round(share * 100)} % of body mass is moved.`}
        {setUp === '' ? '' : ` Usual set-up: ${setUp}.`}
        {easier ? ` Easier: ${easier.name}.` : ''}
      </p>
    </>
  );
}

function ExerciseForm({ exercise, done }: { exercise: Exercise; done: () => void }) {
  const { log, acts } = useApp();
  const [texts, setTexts] = useState(() => acts.exerciseTexts(exercise));
  const [fault, setFault] = useState<AnyFault>();
  const at = (field: string) => (fault?.field === field ? faultSentence(fault) : undefined);
  const keep = () => {
    const kept = acts.editExercise(log, exercise, texts);
    if (kept.ok) done();
    else setFault(kept.error);
  };
  return (
    <div class="library-form">
      <TextField label="Name" value={texts.name} onText={(name) => setTexts({ ...texts, name })} fault={at('name')} />
      <TextField
        label="Smallest step of what it holds"
        value={texts.step}
        onText={(step) => setTexts({ ...texts, step })}
        mode="decimal"
        fault={at('step')}
      />
      <TextField
        label="Rest after a set, seconds"
        value={texts.rest}
        onText={(rest) => setTexts({ ...texts, rest })}
        mode="numeric"
        fault={at('rest')}
      />
      <ChipRow label="sides" of="many">
        {SIDE_RULES.map((sides) => (
          <Chip key={sides} chosen={texts.sides === sides} onTap={() => setTexts({ ...texts, sides })}>
            {SIDES[sides]}
          </Chip>
        ))}
      </ChipRow>
      <p class="hint">From now on, for every client. Sets already logged keep what they hold.</p>
      <div class="chips">
        <button type="button" class="button button-act" onClick={keep}>
          Keep
        </button>
        <button type="button" class="button button-plain" onClick={done}>
          Leave it as it was
        </button>
      </div>
    </div>
  );
}
