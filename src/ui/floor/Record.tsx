import { useEffect, useRef } from 'preact/hooks';
import { listedThings } from '../../domain/session';
import { useApp, useWatch } from '../app';
import { go } from '../routes';
import { BlockCard } from './BlockCard';
import { ExerciseCard } from './ExerciseCard';
import { SessionStrip } from './SessionStrip';
import type { Pad } from './usePad';

/** The record of a session: its exercises with what was done, the one in hand last seen. */
export function Record({ pad, resting }: { pad: Pad; resting: string | null }) {
  const { log } = useApp();
  useWatch(['status', 'kind:cue']);
  const inHand = useRef<HTMLElement>(null);
  const record = useRef<HTMLElement>(null);
  const { session, exercise, place } = pad;
  const listed = listedThings(session);
  const extra = exercise && !pad.block && !listed.some((one) => one.id === exercise.id) ? [exercise.id] : [];
  const inHandId = pad.block?.id ?? exercise?.id;
  const count = session.sets.length;
  // the newest line is what was just done: it must be seen, also when the pad takes more room
  const showNewest = () => {
    const cell = inHand.current?.querySelector('.cell-in-hand');
    // of a block, which may be taller than the record, the cell that is next
    if (cell) cell.scrollIntoView({ block: 'center' });
    else inHand.current?.scrollIntoView({ block: 'end' });
  };
  useEffect(showNewest, [inHandId, pad.cell?.station.id, pad.cell?.round, count, resting]);
  useEffect(() => {
    const sizes = new ResizeObserver(showNewest);
    if (record.current) sizes.observe(record.current);
    return () => sizes.disconnect();
  }, []);
  return (
    <section class="record" aria-label="record" ref={record}>
      <SessionStrip pad={pad} />
      {listed.map((thing) => {
        const block = session.blocks.findIndex((one) => one.id === thing.id);
        const ref = thing.id === inHandId ? inHand : undefined;
        const shown = session.blocks[block];
        return thing.type === 'block' && shown ? (
          <BlockCard key={thing.id} pad={pad} block={shown} place={block} resting={resting !== null} cardRef={ref} />
        ) : (
          <ExerciseCard key={thing.id} id={thing.id} pad={pad} resting={resting} cardRef={ref} />
        );
      })}
      {extra.map((id) => (
        <ExerciseCard key={id} id={id} pad={pad} resting={resting} cardRef={inHand} />
      ))}
      <div class="record-acts">
        <button
          type="button"
          class="button"
          onClick={() => go({ page: 'session', ...place, sheet: { name: 'exercise' } })}
        >
          + exercise
        </button>
        {session.end ? null : (
          <button
            type="button"
            class="button"
            onClick={() => go({ page: 'session', ...place, sheet: { name: 'change' } })}
          >
            Change today
          </button>
        )}
        <button type="button" class="button" onClick={() => go({ page: 'session', ...place, sheet: { name: 'more' } })}>
          More
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
