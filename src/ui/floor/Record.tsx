import { useEffect, useRef } from 'preact/hooks';
import { useApp, useWatch } from '../app';
import { dayShort } from '../format';
import { go } from '../routes';
import { countText, loadText } from '../sentence';
import { effortText } from '../words';
import { linesOf, SetLine, setNumber } from './SetLine';
import type { Pad } from './usePad';

/** The record of a session: its exercises with what was done, the one in hand last seen. */
export function Record({ pad, resting }: { pad: Pad; resting: string | null }) {
  const { log } = useApp();
  useWatch(['status', 'kind:cue']);
  const inHand = useRef<HTMLElement>(null);
  const record = useRef<HTMLElement>(null);
  const { session, exercise, place } = pad;
  const listed = [...new Set([...session.exercises, ...(exercise ? [exercise.id] : [])])];
  const count = session.sets.length;
  // the newest line is what was just done: it must be seen, also when the pad takes more room
  const showNewest = () => inHand.current?.scrollIntoView({ block: 'end' });
  useEffect(showNewest, [exercise?.id, count, resting]);
  useEffect(() => {
    const sizes = new ResizeObserver(showNewest);
    if (record.current) sizes.observe(record.current);
    return () => sizes.disconnect();
  }, []);
  return (
    <section class="record" aria-label="record" ref={record}>
      {listed.map((id) => (
        <ExerciseCard key={id} id={id} pad={pad} resting={resting} cardRef={id === exercise?.id ? inHand : undefined} />
      ))}
      <div class="record-acts">
        <button
          type="button"
          class="button"
          onClick={() => go({ page: 'session', ...place, sheet: { name: 'exercise' } })}
        >
          + exercise
        </button>
        <button type="button" class="button" onClick={() => go({ page: 'session', ...place, sheet: { name: 'end' } })}>
          {session.end ? 'Change end' : 'End'}
        </button>
      </div>
      {log.status().unreadable > 0 ? (
        <p class="hint">{log.status().unreadable} records cannot be read; a backup carries them.</p>
      ) : null}
    </section>
  );
}

type CardProps = {
  readonly id: string;
  readonly pad: Pad;
  readonly resting: string | null;
  readonly cardRef: { current: HTMLElement | null } | undefined;
};

function ExerciseCard({ id, pad, resting, cardRef }: CardProps) {
  const { log, views } = useApp();
  const { place, session } = pad;
  const exercise = views.exercise(log, id);
  const sets = session.sets.filter((set) => set.exercise === id);
  const setUp = views.client(log, place.stream)?.setUps[id];
  const inHand = pad.exercise?.id === id;
  const rows = views.sessionRows(log, place.stream, place.session).map((row) => `${row.stream}/${row.id}`);
  const isSaved = (set: string) => rows.every((row) => log.isSaved(row, `sets/${set}`));
  const failing = log.status().saveFault !== null;
  const cues = views.cues(log);
  return (
    <section
      class={`card exercise-card${inHand ? ' exercise-card-in-hand' : ''}`}
      ref={cardRef ?? null}
      aria-label={exercise?.name ?? 'exercise'}
    >
      <div class="exercise-head">
        <button type="button" class="exercise-name" aria-pressed={inHand} onClick={() => pad.choose(id)} dir="auto">
          {exercise?.name ?? 'An exercise that is not in this library'}
        </button>
        {inHand ? (
          <button
            type="button"
            class="exercise-set-up"
            onClick={() => go({ page: 'session', ...place, sheet: { name: 'set-up', exercise: id } })}
            dir="auto"
          >
            {setUp ? `set-up: ${setUp}` : '+ set-up'}
          </button>
        ) : null}
      </div>
      {inHand ? <LastTime pad={pad} /> : null}
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

/** What the last session of the exercise held: the sets that count, said once where they are alike. */
function LastTime({ pad }: { pad: Pad }) {
  const { log, views } = useApp();
  const { place, exercise } = pad;
  if (!exercise) return null;
  const times = log.lastTimes(place.stream, exercise.id, place.session);
  const [last] = times ?? [];
  if (!times) return <p class="hint">Last time: reading…</p>;
  if (!last) return <p class="hint">First time with this client.</p>;
  const sets = last.sets.filter((set) => set.kind !== 'warm-up');
  const groups: { load: string; counts: string[] }[] = [];
  for (const set of sets) {
    const load = `${loadText(set, exercise)}${set.side ? ` ${set.side}` : ''}`;
    const group = groups.find((one) => one.load === load);
    if (group) group.counts.push(countText(set));
    else groups.push({ load, counts: [countText(set)] });
  }
  const effort = sets.at(-1)?.effort;
  const worked = last.sets
    .flatMap((set) => set.cues)
    .filter((use) => use.answer === 'better')
    .at(-1);
  const words = worked && views.cues(log).find((cue) => cue.id === worked.cue)?.words;
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
