import { useEffect, useRef } from 'preact/hooks';
import { instantAt } from '../../domain/day';
import { useApp, useUpdate, useWatch } from '../app';
import { countOf, dayLong, dayShort } from '../format';
import { useTicking } from '../parts/useTicking';
import { WeekLine } from '../parts/WeekLine';
import { go } from '../routes';
import { APP, CAUTION, daysTo } from '../words';
import { NotSaved } from './NotSaved';
import { Pill } from './Pill';
import { readSnapshot, snapshotOf, type TodayLine, todayLines } from './todayLines';

/** Today: everyone, stacked from the bottom, the running sessions nearest the thumb. */
export function Today() {
  const app = useApp();
  const { log, views, world, snapshot } = app;
  const clients = views.clients(log);
  useWatch(['status', 'kind:client', 'kind:session', ...clients.map((client) => `series:${client.id}`)]);
  const day = useTicking(() => instantAt(world.now(), world.zone()).day);
  const waiting = useUpdate();
  const bottom = useRef<HTMLDivElement>(null);
  const open = log.status().phase !== 'opening';
  const fresh = open ? todayLines(app, instantAt(world.now(), world.zone())) : undefined;
  const lines = fresh ?? readSnapshot(snapshot.read()) ?? [];
  const text = fresh && log.status().phase === 'open' ? snapshotOf(fresh) : undefined;
  useEffect(() => {
    if (text !== undefined) snapshot.write(text);
  }, [snapshot, text]);
  useEffect(() => bottom.current?.scrollIntoView({ block: 'end' }), [lines.length]);

  const running = lines.filter((line) => line.state === 'running');
  const main = running.at(-1) ?? null;
  return (
    <main class="today">
      <header class="today-head">
        <h1>{dayLong(day)}</h1>
        <Pill />
      </header>
      <div class="today-lines">
        <NotSaved />
        {waiting && running.length === 0 ? <UpdateCard /> : null}
        {lines.length === 0 && open ? <FirstStart /> : null}
        <div class="today-acts">
          <button
            type="button"
            class={`button${lines.length === 0 ? ' button-act' : ''}`}
            onClick={() => go({ page: 'client', stream: null })}
          >
            + client
          </button>
        </div>
        <ul>
          {lines.map((line) => (
            <Line key={line.stream} line={line} day={day} main={line === main} />
          ))}
        </ul>
        <div ref={bottom} />
      </div>
    </main>
  );
}

function FirstStart() {
  return (
    <section class="card">
      <h2>{APP}</h2>
      <p>
        Add the first client under any name you like; an alias such as “Client K” is enough. Then start a session, and
        log each set with one tap.
      </p>
      <p class="hint">{CAUTION}</p>
    </section>
  );
}

function UpdateCard() {
  const { update } = useApp();
  return (
    <section class="card">
      <p>A new version of the app is ready. What you logged stays as it is.</p>
      <button type="button" class="button" onClick={update.use}>
        Use the new version
      </button>
    </section>
  );
}

function Line({ line, day, main }: { line: TodayLine; day: string; main: boolean }) {
  const { log, acts, world } = useApp();
  const minutes = useTicking(() =>
    line.startedAt === null ? null : Math.max(0, Math.floor((world.now() - line.startedAt) / 60_000)),
  );
  const { stream, session } = line;
  const follower = log.status().phase === 'open' && log.status().seat === 'follower';
  // a tap on a line of the snapshot is kept until the log is open
  const start = () =>
    void log.ready.then(() => {
      if (log.status().seat !== 'writer') return;
      const started = acts.startSession(log, stream, world);
      go({ page: 'session', stream, session: started.session });
    });
  return (
    <li class={`card today-line${main ? ' today-line-main' : ''}`}>
      <div class="today-line-head">
        <button type="button" class="today-name" onClick={() => go({ page: 'client', stream })} dir="auto">
          {line.alias}
        </button>
        {line.state === 'running' && session !== null ? (
          <button
            type="button"
            class={`button${main ? ' button-act' : ''}`}
            onClick={() => go({ page: 'session', stream, session })}
          >
            Resume <span dir="auto">{line.short}</span>
          </button>
        ) : (
          <button type="button" class="button" disabled={follower} onClick={start}>
            Start <span dir="auto">{line.short}</span>
          </button>
        )}
      </div>
      {line.since && line.date ? <WeekLine from={line.since} today={day} end={line.date.day} /> : null}
      <p class="hint">
        {stateText(line, minutes)}
        {line.days !== null && line.date ? <span class="days-to"> {daysTo(line.days, line.date.name)}</span> : null}
      </p>
      {line.state === 'done-today' && session !== null ? (
        <button type="button" class="button button-plain" onClick={() => go({ page: 'session', stream, session })}>
          Look at today’s session
        </button>
      ) : null}
      {follower ? <p class="hint">Another tab of this app is logging; open a session here to take over.</p> : null}
    </li>
  );
}

function stateText(line: TodayLine, minutes: number | null): string {
  const sets = countOf(line.sets, 'set');
  if (line.state === 'running') return `Running${minutes === null ? '' : ` · ${minutes} min`} · ${sets}. `;
  if (line.state === 'done-today') return line.sets > 0 ? `Done today · ${sets}. ` : 'Done today. ';
  return line.lastDay ? `Last session ${dayShort(line.lastDay)}. ` : 'No session yet. ';
}
