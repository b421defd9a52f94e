import { fullRounds, letterOf } from '../../domain/block';
import { landingsIn } from '../../domain/landings';
import { pausedMs } from '../../domain/pause';
import type { SetRecord } from '../../domain/set';
import { useApp, useWatch } from '../app';
import { blockWords } from '../blockWords';
import { countOf } from '../format';
import { heldText } from '../sentence';
import { gridNow } from './rounds';
import type { Pad } from './usePad';

/** What a session came to, beside the last time and what was planned. */
export function SessionSummary({ pad }: { pad: Pad }) {
  const app = useApp();
  const { log, views, world } = app;
  const { place, session } = pad;
  useWatch([`series:${place.stream}`]);
  const landings = landingsIn(session.sets);
  const until = session.end?.at ?? world.now();
  const paused = Math.floor(pausedMs(session.pauses, session.start?.at ?? until, until) / 60_000);
  const counts = session.exercises.flatMap((id) => {
    const sets = session.sets.filter((set) => set.exercise === id && set.kind !== 'warm-up');
    const exercise = views.exercise(log, id);
    if (sets.length === 0 || !exercise) return [];
    const before = log.lastTimes(place.stream, id, session.id)?.[0]?.sets.filter((set) => set.kind !== 'warm-up');
    const planned = session.items.find((item) => item.id === id)?.plan?.sets;
    return [{ exercise, sets, before: before ?? [], planned }];
  });
  return (
    <section aria-label="summary" class="summary">
      {counts.map(({ exercise, sets, before, planned }) => (
        <p key={exercise.id}>
          <b dir="auto">{exercise.name}</b>: {countOf(sets.length, 'set')}
          {planned === undefined ? '' : ` of ${planned} planned`}, last {heldText(last(sets), exercise)}
          {before.length > 0
            ? `; last time ${countOf(before.length, 'set')}, last ${heldText(last(before), exercise)}`
            : ''}
          .
        </p>
      ))}
      {session.blocks.map((block, index) => (
        <p key={block.id}>
          <b>Block {letterOf(index)}</b>, {blockWords(block)}:{' '}
          {block.kind === 'mobility'
            ? block.done
              ? 'done'
              : 'not ticked'
            : `${countOf(fullRounds(gridNow(app, session, block)), 'round')} done`}
          .
        </p>
      ))}
      {landings > 0 ? <p>{countOf(landings, 'landing')} in all.</p> : null}
      {paused > 0 ? <p>{paused} min paused.</p> : null}
    </section>
  );
}

function last(sets: readonly SetRecord[]): SetRecord {
  const set = sets.at(-1);
  if (!set) throw new Error('no sets');
  return set;
}
