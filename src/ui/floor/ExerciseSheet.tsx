import { useState } from 'preact/hooks';
import { cellDraft } from '../../domain/cellEntry';
import type { Exercise } from '../../domain/exercise';
import { planOfEntry } from '../../domain/planOf';
import { useApp, useWatch } from '../app';
import { type AnyFault, faultSentence } from '../faultWords';
import { countOf } from '../format';
import { nothingFound, PART } from '../libraryWords';
import { NewExercise } from '../parts/NewExercise';
import { Sheet } from '../parts/Sheet';
import { TextField } from '../parts/TextField';
import type { ExerciseTo } from '../routes';
import { PATTERNS } from '../setWords';
import { choiceFor, closedNames, findExercises } from './findExercises';
import { entryOf, type Pad, pastOf } from './usePad';

type ExerciseSheetProps = { readonly pad: Pad; readonly to?: ExerciseTo | undefined; readonly close: () => void };

const PART_TITLE = { ...PATTERNS, ...PART } as const;
const TITLES: Readonly<Record<ExerciseTo['as'] | 'end', string>> = {
  end: 'Exercise',
  behind: 'Exercise behind this one',
  station: 'Station of the block',
  instead: 'Instead, for today',
  'instead-at': 'Instead, for today',
};

/** The library to choose from: today's exercises first. A name that is not there can be added as it is typed. */
export function ExerciseSheet({ pad, to, close }: ExerciseSheetProps) {
  const app = useApp();
  useWatch(['kind:exercise', 'kind:restriction', `series:${pad.place.stream}`]);
  const [text, setText] = useState('');
  const [adding, setAdding] = useState(false);
  const [fault, setFault] = useState<AnyFault>();
  const typed = text.trim() !== '';
  const choice = choiceFor(app, pad);
  const parts = typed ? [{ title: undefined, exercises: findExercises(choice, text) }] : choice.parts;
  const take = useTake(pad, to);
  const choose = (id: string) => {
    const refused = take(id);
    if (refused) setFault(refused);
    else close();
  };
  // what is there already stands before what could be made anew
  const isKnown = typed && !adding && (parts[0]?.exercises.length ?? 0) > 0;
  const adds = adding ? (
    <NewExercise name={text} act="Add and use it" onAdded={choose} />
  ) : (
    <button type="button" class="button" onClick={() => setAdding(true)}>
      {typed ? `Add “${text.trim()}”` : 'Add a new exercise'}
    </button>
  );
  return (
    <Sheet title={TITLES[to?.as ?? 'end']} onClose={close} tall>
      {fault ? (
        <p class="fault" role="alert">
          {faultSentence(fault)}
        </p>
      ) : null}
      <TextField label="Find, or name a new one" value={text} onText={setText} />
      {isKnown ? null : adds}
      {choice.closed.length > 0 ? (
        <p class="hint">{countOf(choice.closed.length, 'exercise')} closed by a restriction or by pain.</p>
      ) : null}
      {parts.map(({ title, exercises }) => (
        <section key={title ?? 'found'} aria-label={title ? PART_TITLE[title] : 'found'}>
          {title ? <h3 class="pick-head">{PART_TITLE[title]}</h3> : null}
          <ul class="pick-list">
            {exercises.map((exercise) => (
              <li key={exercise.id}>
                <button type="button" class="button pick" onClick={() => choose(exercise.id)} dir="auto">
                  {exercise.name}
                </button>
              </li>
            ))}
          </ul>
        </section>
      ))}
      {typed && parts[0]?.exercises.length === 0 ? (
        <p class="hint">{nothingFound(text, closedNames(choice, text))}</p>
      ) : null}
      {isKnown ? adds : null}
    </Sheet>
  );
}

/** Returns what a chosen exercise becomes: on the list and in hand, a station, or the one done instead. */
function useTake(pad: Pad, to: ExerciseTo | undefined): (id: string) => AnyFault | undefined {
  const app = useApp();
  const { log, acts, views, world } = app;
  const { place, session } = pad;
  return (id) => {
    if (!to || to.as === 'behind') {
      const item = session.items.find((one) => one.id === id);
      const isListed = item?.order !== undefined && !item.skipped && !item.swappedFor;
      if (!isListed) void acts.listExercise(log, place, id, world, to?.id);
      pad.choose(id);
      return undefined;
    }
    if (to.as === 'station') {
      const block = session.blocks.find((one) => one.id === to.block);
      const exercise = views.exercise(log, id);
      if (!block || !exercise) return undefined;
      const added = acts.addStation(log, place, block, id, planFor(exercise), world);
      return added.ok ? undefined : added.error;
    }
    const key = acts.padDraft(place);
    if (to.as === 'instead') {
      const draft = { key, value: { exercise: id } };
      void acts.swap(log, place, { type: 'exercise', id: to.exercise }, id, '', world, draft);
      return undefined;
    }
    const block = session.blocks.find((one) => one.id === to.block);
    const station = block?.stations.find((one) => one.id === to.station);
    if (!block || !station) return undefined;
    const round = pad.cell?.round ?? 1;
    const { in: cell } = cellDraft(block, { station, round, done: [], missing: [] }, null);
    const draft = { key, value: { exercise: id, ...(cell ? { in: { ...cell } } : {}) } };
    void acts.swap(log, place, { type: 'station', block: block.id, id: station.id }, id, '', world, draft);
    return undefined;
  };
  /** What was done last is what a new station begins with. */
  function planFor(exercise: Exercise) {
    const past = pastOf(app, place, session, exercise.id);
    return planOfEntry(entryOf(app, place.stream, session, exercise, { exercise: exercise.id, kind: 'working' }, past));
  }
}
