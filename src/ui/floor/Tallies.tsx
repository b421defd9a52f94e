import { useState } from 'preact/hooks';
import type { SessionRecord } from '../../domain/session';
import { countedOf, countField } from '../../domain/tally';
import { useApp } from '../app';
import { faultSentence } from '../faultWords';
import { number } from '../format';
import { entryOf, type Place, pastOf } from './usePad';

/** Counts spread over the session: how far each is, and some more of it at a tap, whatever is in hand. */
export function Tallies({ place, session }: { place: Place; session: SessionRecord }) {
  const spread = session.items.filter((item) => item.tally !== undefined && !item.skipped && !item.swappedFor);
  if (spread.length === 0) return null;
  return (
    <>
      {spread.map((item) => (
        <Tally key={item.id} place={place} session={session} id={item.id} total={item.tally ?? 0} />
      ))}
    </>
  );
}

type TallyProps = {
  readonly place: Place;
  readonly session: SessionRecord;
  readonly id: string;
  readonly total: number;
};

function Tally({ place, session, id, total }: TallyProps) {
  const app = useApp();
  const { log, views, acts, world } = app;
  const [fault, setFault] = useState<string>();
  const exercise = views.exercise(log, id);
  const field = exercise && countField(exercise.holds);
  if (!exercise || !field) return null;
  const done = countedOf(session.sets, id, field);
  const left = Math.max(0, total - done);
  const add = (count: number) => {
    const past = pastOf(app, place, session, id);
    const entry = entryOf(app, place.stream, session, exercise, { exercise: id, [field]: String(count) }, past);
    const added = acts.addToTally(log, place, { entry: { ...entry, kind: 'working', parts: [] }, exercise }, world);
    setFault(added.ok ? undefined : faultSentence(added.error.fault));
  };
  const offered = [...new Set([1, 5, 10, left].filter((count) => count > 0 && count <= Math.max(left, 1)))].slice(-3);
  return (
    <div class="tally">
      <span class="tally-words">
        <span dir="auto">{exercise.name}</span> <b>{number(done)}</b> of {number(total)}
      </span>
      {offered.map((count) => (
        <button
          key={count}
          type="button"
          class="chip"
          aria-label={`${count} more of ${exercise.name}`}
          onClick={() => add(count)}
        >
          +{count}
        </button>
      ))}
      {fault ? (
        <p class="fault" role="alert">
          {fault}
        </p>
      ) : null}
    </div>
  );
}
