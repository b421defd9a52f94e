import { useEffect } from 'preact/hooks';
import { instantAt } from '../../domain/day';
import type { SetRecord } from '../../domain/set';
import { useApp, useWatch } from '../app';
import { countOf } from '../format';
import { DaysToGo } from '../parts/DaysToGo';
import { back } from '../routes';
import { heldText, saidText } from '../sentence';
import { goodText, SIDE } from '../setWords';
import { type Place, usePad } from './usePad';

/** What the client may see over the shoulder: their own numbers, days and next. No notes, no pain, no effort, no other names. */
export function ClientView({ place }: { place: Place }) {
  const { log, views, world } = useApp();
  const pad = usePad(place);
  useWatch(['status']);
  const { stream, session } = place;
  useEffect(() => {
    void log.ready.then(() => log.loadSession(stream, session));
    return () => log.releaseSession(stream, session);
  }, [log, stream, session]);
  const home = { page: 'session', ...place } as const;
  const client = views.client(log, stream);
  const today = instantAt(world.now(), world.zone()).day;
  const next = pad?.entry && pad.exercise && !pad.session.end ? pad.entry : undefined;
  return (
    <main class="page client-view">
      <header class="page-head">
        <button type="button" class="button button-plain" onClick={() => back(home)}>
          ‹ Back
        </button>
        <h1 dir="auto">{client?.alias ?? ''}</h1>
      </header>
      <DaysToGo client={client} today={today} />
      {next && pad?.exercise ? (
        <section class="card" aria-label="next">
          <p class="hint">Next</p>
          <h2 dir="auto">{pad.exercise.name}</h2>
          <p class="client-next">
            {saidText(next, pad.exercise)}
            {next.side ? ` ${SIDE[next.side]}` : ''}
          </p>
        </section>
      ) : null}
      <section class="card" aria-label="today">
        <h2>Today</h2>
        {(pad?.session.exercises ?? []).map((id) => {
          const exercise = views.exercise(log, id);
          const sets = pad?.session.sets.filter((set) => set.exercise === id && set.kind !== 'warm-up') ?? [];
          if (sets.length === 0) return null;
          return (
            <div key={id}>
              <h3 dir="auto">{exercise?.name ?? ''}</h3>
              <ul>
                {sets.map((set) => (
                  <li key={set.id}>
                    {heldText(set, exercise)}
                    {set.side ? ` ${SIDE[set.side]}` : ''}
                    {goodPart(set)}
                  </li>
                ))}
              </ul>
            </div>
          );
        })}
        {pad && pad.session.sets.length === 0 ? <p class="hint">Nothing yet.</p> : null}
        {pad && pad.session.sets.length > 0 ? <p class="hint">{countOf(counted(pad.session.sets), 'set')}.</p> : null}
      </section>
    </main>
  );
}

const counted = (sets: readonly SetRecord[]): number => sets.filter((set) => set.kind !== 'warm-up').length;

const goodPart = (set: SetRecord): string => {
  const text = goodText(set);
  return text === undefined ? '' : `, ${text}`;
};
