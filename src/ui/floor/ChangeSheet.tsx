import { useState } from 'preact/hooks';
import { letterOf } from '../../domain/block';
import { cutTo, stillToDo, type ToDo } from '../../domain/cut';
import { addDays, dayOfWeek, instantAt } from '../../domain/day';
import type { Exercise } from '../../domain/exercise';
import { listedThings } from '../../domain/session';
import { suggestionsFor } from '../../domain/suggest';
import { type App, useApp, useWatch } from '../app';
import { lackSentence, WHY_NOT } from '../blockWords';
import { dayShort } from '../format';
import { Chip, ChipRow } from '../parts/Chip';
import { Sheet } from '../parts/Sheet';
import { say } from '../parts/say';
import { go } from '../routes';
import { PATTERNS } from '../setWords';
import { closedFor } from './closed';
import type { Pad } from './usePad';

type ChangeSheetProps = { readonly pad: Pad; readonly close: () => void };

/** Change today: what is in hand first, then the whole list, then the time that is left. */
export function ChangeSheet({ pad, close }: ChangeSheetProps) {
  return (
    <Sheet title="Change today" onClose={close}>
      <InHand pad={pad} close={close} />
      <TheList pad={pad} />
      <CutTo pad={pad} />
    </Sheet>
  );
}

/** The exercise or station in hand: another in its place, left out, or later. */
function InHand({ pad, close }: ChangeSheetProps) {
  const app = useApp();
  const { log, acts, views, world } = app;
  const { place, session, exercise, block, cell } = pad;
  const [why, setWhy] = useState('');
  const [lacks, setLacks] = useState<string>();
  if (!exercise) return null;
  const isOpen = (id: string) => !closedFor(app, place, session, id);
  const suggested = suggestionsFor(exercise, views.exercises(log), isOpen, 5);
  const thing =
    block && cell
      ? ({ type: 'station', block: block.id, id: cell.station.id } as const)
      : ({ type: 'exercise', id: exercise.id } as const);
  const swapFor = (by: string) => {
    const at = block && cell ? { in: { block: block.id, station: cell.station.id, round: cell.round } } : {};
    const draft = { key: acts.padDraft(place), value: { exercise: by, ...at } };
    void acts.swap(log, place, thing, by, why, world, draft);
    close();
  };
  const skip = () => {
    void acts.skip(log, place, [thing], why);
    setLacks(lackOf(app, pad, exercise));
    say(`${exercise.name} left out today.`);
  };
  const later = () => {
    void acts.listExercise(log, place, exercise.id, world);
    close();
  };
  return (
    <section class="card" aria-label="in hand">
      <h3 dir="auto">{exercise.name}</h3>
      <ChipRow label="why" of="many">
        {WHY_NOT.map((one) => (
          <Chip key={one} chosen={why === one} onTap={() => setWhy(why === one ? '' : one)}>
            {one}
          </Chip>
        ))}
      </ChipRow>
      <ul class="pick-list">
        {suggested.map((one) => (
          <li key={one.id}>
            <button type="button" class="button pick" onClick={() => swapFor(one.id)}>
              {one.id === exercise.easier ? 'Easier step: ' : 'Swap for '}
              <span dir="auto">{one.name}</span>
            </button>
          </li>
        ))}
      </ul>
      <div class="chips chips-wrap">
        <button
          type="button"
          class="button"
          onClick={() =>
            go({
              page: 'session',
              ...place,
              sheet: {
                name: 'exercise',
                to:
                  thing.type === 'station'
                    ? { as: 'instead-at', block: thing.block, station: thing.id }
                    : { as: 'instead', exercise: thing.id },
              },
            })
          }
        >
          Swap for another…
        </button>
        <button type="button" class="button" onClick={skip}>
          Skip today
        </button>
        {thing.type === 'exercise' ? (
          <>
            <button type="button" class="button" onClick={later}>
              Do it later
            </button>
            <button
              type="button"
              class="button"
              onClick={() =>
                go({ page: 'session', ...place, sheet: { name: 'exercise', to: { as: 'behind', id: exercise.id } } })
              }
            >
              Insert behind it
            </button>
          </>
        ) : null}
      </div>
      {lacks ? <p class="strip">{lacks}</p> : null}
    </section>
  );
}

/** What the week then lacks: whether its kind of work was done on another day since the week began. */
function lackOf({ log, views, world }: App, { place, session }: Pad, exercise: Exercise): string | undefined {
  if (exercise.pattern === undefined) return undefined;
  const today = instantAt(world.now(), world.zone()).day;
  const monday = addDays(today, -dayOfWeek(today));
  const alike = views.exercises(log).filter((one) => one.pattern === exercise.pattern);
  const days = alike.flatMap((one) => (log.lastTimes(place.stream, one.id, session.id) ?? []).map((time) => time.day));
  const here = session.sets.some((set) => alike.some((one) => one.id === set.exercise));
  const last = [...days.filter((day) => day >= monday), ...(here ? [today] : [])].sort().at(-1);
  return lackSentence(PATTERNS[exercise.pattern], last === undefined ? null : dayShort(last));
}

function TheList({ pad }: { pad: Pad }) {
  const app = useApp();
  const { log, acts, world } = app;
  const { place, session } = pad;
  const list = listedThings(session).filter((thing) => thing.order !== undefined);
  if (list.length === 0) return null;
  return (
    <section aria-label="today’s list">
      <h3>Today’s list</h3>
      <ol>
        {list.map((thing, index) => {
          const name = nameOf(app, pad, thing);
          const gone = isGone(pad, thing);
          return (
            <li key={thing.id} class="list-line">
              <span dir="auto">
                {name}
                {gone ? <span class="hint"> left out</span> : null}
              </span>
              {gone ? (
                <button type="button" class="button" onClick={() => acts.takeUp(log, place, thing)}>
                  Take up {name}
                </button>
              ) : null}
              <button
                type="button"
                class="button"
                disabled={index === 0}
                aria-label={`${name} up`}
                onClick={() => acts.moveItem(log, place, thing.id, -1, world)}
              >
                up
              </button>
              <button
                type="button"
                class="button"
                disabled={index === list.length - 1}
                aria-label={`${name} down`}
                onClick={() => acts.moveItem(log, place, thing.id, 1, world)}
              >
                down
              </button>
            </li>
          );
        })}
      </ol>
    </section>
  );
}

const MINUTES = [10, 15, 20, 30, 45] as const;

/** What fits into the minutes that are left; shown before it is kept. */
function CutTo({ pad }: { pad: Pad }) {
  const app = useApp();
  const { log, acts, views } = app;
  const { place, session } = pad;
  useWatch([`${place.stream}/${place.session}`]);
  const [minutes, setMinutes] = useState<number>();
  const todo = stillToDo(session.items, session.blocks, session.sets, (id) => views.exercise(log, id));
  if (todo.length === 0) return null;
  const cut = minutes === undefined ? undefined : cutTo(todo, minutes);
  const names = (some: readonly ToDo[]) => some.map((one) => nameOf(app, pad, one)).join(', ');
  return (
    <section aria-label="cut to the time left">
      <h3>Minutes left</h3>
      <ChipRow label="minutes left">
        {MINUTES.map((one) => (
          <Chip key={one} chosen={minutes === one} onTap={() => setMinutes(minutes === one ? undefined : one)}>
            {one}
          </Chip>
        ))}
      </ChipRow>
      {cut ? (
        <>
          <p>
            {cut.keeps.length > 0 ? `Keeps ${names(cut.keeps)}. ` : 'Nothing fits whole. '}
            {cut.leavesOut.length > 0 ? `Leaves out ${names(cut.leavesOut)}.` : 'All of it fits.'}
          </p>
          <p class="hint">Rough: 40 s a set and its rest.</p>
          {cut.leavesOut.length > 0 ? (
            <button
              type="button"
              class="button button-act"
              onClick={() => {
                void acts.skip(log, place, cut.leavesOut, 'no time');
                setMinutes(undefined);
              }}
            >
              Cut to {minutes} minutes
            </button>
          ) : null}
        </>
      ) : null}
    </section>
  );
}

type Listed = { readonly type: 'exercise' | 'block'; readonly id: string };

/** Returns what something on the list is called. */
function nameOf({ log, views }: App, pad: Pad, thing: Listed): string {
  if (thing.type === 'exercise')
    return views.exercise(log, thing.id)?.name ?? 'An exercise that is not in this library';
  return `Block ${letterOf(pad.session.blocks.findIndex((block) => block.id === thing.id))}`;
}

function isGone({ session }: Pad, thing: Listed): boolean {
  if (thing.type === 'block') return session.blocks.find((block) => block.id === thing.id)?.skipped !== undefined;
  const item = session.items.find((one) => one.id === thing.id);
  return item?.skipped !== undefined || item?.swappedFor !== undefined;
}
