import { type Exercise, setUpFor } from '../../domain/exercise';
import { LANDING_RANGES, landingsIn } from '../../domain/landings';
import type { Item } from '../../domain/session';
import { countedOf, countField } from '../../domain/tally';
import { useApp } from '../app';
import { leftOut } from '../blockWords';
import { cuesOf, cueWords } from '../cueWords';
import { countOf, dayShort } from '../format';
import { later } from '../parts/later';
import { go } from '../routes';
import { countText, loadText, planText, setUpText } from '../sentence';
import { effortText } from '../setWords';
import { linesOf, SetLine, setNumber } from './SetLine';
import type { Pad } from './usePad';

const PainAsk = later(() => import('./PainAsk').then((file) => file.PainAsk));

type CardProps = {
  readonly id: string;
  readonly pad: Pad;
  readonly resting: string | null;
  readonly cardRef: { current: HTMLElement | null } | undefined;
};

/** One exercise of today: last time, and every set of it that stands in no block. */
export function ExerciseCard({ id, pad, resting, cardRef }: CardProps) {
  const app = useApp();
  const { log, views } = app;
  const { place, session } = pad;
  const exercise = views.exercise(log, id);
  const inBlock = new Set(session.blocks.map((block) => block.id));
  const sets = session.sets.filter((set) => set.exercise === id && !(set.in && inBlock.has(set.in.block)));
  const item = session.items.find((one) => one.id === id);
  const ownSetUp = views.client(log, place.stream)?.setUps[id];
  const setUp = setUpText(exercise ? setUpFor(exercise, ownSetUp) : (ownSetUp ?? {}));
  const inHand = pad.exercise?.id === id && !pad.block;
  const rows = views.sessionRows(log, place.stream, place.session).map((row) => `${row.stream}/${row.id}`);
  const isSaved = (set: string) => rows.every((row) => log.isSaved(row, `sets/${set}`));
  const failing = log.status().saveFault !== null;
  const cues = cuesOf(app);
  return (
    <section
      class={`card exercise-card${inHand ? ' exercise-card-in-hand' : ''}`}
      ref={cardRef ?? null}
      aria-label={exercise?.name ?? 'exercise'}
    >
      <div class="exercise-head">
        <button
          type="button"
          class={`exercise-name${inHand ? ' exercise-name-in-hand' : ''}`}
          onClick={() =>
            inHand ? go({ page: 'session', ...place, sheet: { name: 'trend', exercise: id } }) : pad.choose(id)
          }
        >
          <span dir="auto">{exercise?.name ?? 'An exercise that is not in this library'}</span>
          {inHand ? <span class="exercise-trend"> trend</span> : null}
        </button>
        {inHand ? (
          <button
            type="button"
            class="exercise-set-up"
            onClick={() => go({ page: 'session', ...place, sheet: { name: 'set-up', exercise: id } })}
            dir="auto"
          >
            {setUp === '' ? '+ set-up' : `${ownSetUp ? '' : 'usual '}set-up: ${setUp}`}
          </button>
        ) : null}
      </div>
      {inHand ? <LastTime pad={pad} /> : null}
      {sets.length > 0 || session.end || item?.skipped || item?.swappedFor ? null : (
        <PainAsk place={place} exercise={id} dated={inHand} />
      )}
      {item ? <ItemLine pad={pad} item={item} exercise={exercise} /> : null}
      {exercise?.holds === 'landings' ? <LandingsLine pad={pad} exercise={id} /> : null}
      {sets.length > 0 ? (
        <ol>
          {linesOf(sets).map((line) => {
            const [first] = line;
            const label =
              line.length > 1 ? 'ramp' : first && first.kind !== 'warm-up' ? String(setNumber(sets, first)) : '';
            return (
              <SetLine
                key={first?.id}
                place={place}
                sets={line}
                exercise={exercise}
                label={label}
                current={line.some((set) => set.id === resting)}
                saved={line.every((set) => isSaved(set.id))}
                failed={failing && !line.every((set) => isSaved(set.id))}
                cues={cues}
              />
            );
          })}
        </ol>
      ) : null}
    </section>
  );
}

/** What today's list says of an exercise: planned, counted over the session, left out, or swapped. */
function ItemLine({ pad, item, exercise }: { pad: Pad; item: Item; exercise: Exercise | undefined }) {
  const { log, views, acts } = useApp();
  const thing = { type: 'exercise', id: item.id } as const;
  const field = exercise && item.tally !== undefined ? countField(exercise.holds) : undefined;
  const plan = item.plan && planText(item.plan, exercise);
  const gone = item.skipped
    ? leftOut(item.skipped.why)
    : item.swappedFor
      ? `Swapped for ${views.exercise(log, item.swappedFor.exercise)?.name ?? 'another exercise'}.`
      : undefined;
  return (
    <>
      {plan && !gone ? <p class="hint">Plan: {plan}</p> : null}
      {field && item.tally !== undefined ? (
        <p class="hint">
          <b>{countedOf(pad.session.sets, item.id, field)}</b> of {item.tally}, spread over the session
        </p>
      ) : null}
      {gone ? (
        <p class="left-out">
          {gone}{' '}
          <button type="button" class="button" onClick={() => acts.takeUp(log, pad.place, thing)}>
            Take it up
          </button>
        </p>
      ) : null}
    </>
  );
}

/** Landings of this exercise and of the whole session, beside the published range for the client's level. */
function LandingsLine({ pad, exercise }: { pad: Pad; exercise: string }) {
  const { log, views } = useApp();
  const own = landingsIn(pad.session.sets.filter((set) => set.exercise === exercise));
  const level = views.client(log, pad.place.stream)?.landings;
  const range = level && LANDING_RANGES[level];
  return (
    <p class="hint">
      {countOf(own, 'landing')} here · <b>{landingsIn(pad.session.sets)} today</b>
      {range ? `, range ${range.from}–${range.to}` : '; a level on the client’s page gives the range'}
    </p>
  );
}

/** What the last session of the exercise held: the sets that count, said once where they are alike. */
function LastTime({ pad }: { pad: Pad }) {
  const app = useApp();
  const { log } = app;
  const { place, exercise } = pad;
  if (!exercise) return null;
  const times = log.lastTimes(place.stream, exercise.id, place.session);
  const [last] = times ?? [];
  if (!times) return <p class="hint">Last time: reading…</p>;
  if (!last) return <p class="hint">First time with this client.</p>;
  const sets = last.sets.filter((set) => set.kind !== 'warm-up');
  const groups: { load: string; counts: string[] }[] = [];
  for (const set of sets) {
    const load = [loadText(set, exercise), set.side].filter((text) => text).join(' ');
    const group = groups.find((one) => one.load === load);
    if (group) group.counts.push(countText(set));
    else groups.push({ load, counts: [countText(set)] });
  }
  const effort = sets.at(-1)?.effort;
  const worked = last.sets
    .flatMap((set) => set.cues)
    .filter((use) => use.answer === 'better')
    .at(-1);
  const words = cueWords(app, worked?.cue);
  return (
    <p class="hint last-time">
      Last time, {dayShort(last.day)}:{' '}
      {groups.map(({ load, counts }) => `${load ? `${load}: ` : ''}${counts.join(' · ')}`).join('; ')}
      {effort ? `, ${effortText(effort)}` : ''}.
      {words ? (
        <>
          {' '}
          Better with <b dir="auto">“{words}”</b>
        </>
      ) : null}
    </p>
  );
}
