import { useCallback, useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { instantAt } from '../../domain/day';
import { useApp, useRedraw, useUpdate, useWatch } from '../app';
import { countOf, dayLong, dayShort } from '../format';
import { later } from '../parts/later';
import { UndoLast } from '../parts/UndoLast';
import { useTicking } from '../parts/useTicking';
import { WeekLine } from '../parts/WeekLine';
import { go } from '../routes';
import { daysTo, updateSentence } from '../words';
import type { Heads } from './heads';
import { NotSaved } from './NotSaved';
import { Pill } from './Pill';
import { TodayActs } from './TodayActs';
import { type HeadOf, readSnapshot, snapshotOf, type TodayLine, todayLines } from './todayLines';

const FirstStart = later(() => import('./FirstStart').then((file) => file.FirstStart));
const RecordsLine = later(() => import('../desk/RecordsLine').then((file) => file.RecordsLine));
const BackupNudge = later(() => import('../desk/BackupNudge').then((file) => file.BackupNudge));
const InstallHint = later(() => import('../desk/InstallHint').then((file) => file.InstallHint));

/** Today: everyone, stacked from the bottom, the running sessions nearest the thumb. */
export function Today() {
  const app = useApp();
  const { log, views, world, snapshot, demo } = app;
  const clients = views.clients(log);
  useWatch([
    'status',
    'undo',
    'kind:client',
    'kind:session',
    'kind:template',
    'kind:otherWork',
    'kind:role',
    'kind:result',
    ...clients.map((client) => `series:${client.id}`),
  ]);
  const day = useTicking(() => instantAt(world.now(), world.zone()).day);
  const version = useUpdate();
  const bottom = useRef<HTMLDivElement>(null);
  const open = log.status().phase !== 'opening';
  // open and without a seat, the rows are still being read
  const reading = log.status().phase === 'open' && log.status().seat === null;
  const before = readSnapshot(snapshot.read());
  const headOf = useHeadOf(open && !reading);
  const fresh = open && !reading ? todayLines(app, instantAt(world.now(), world.zone()), before, headOf) : undefined;
  const lines = fresh ?? before ?? [];
  const text = fresh && log.status().phase === 'open' ? snapshotOf(fresh) : undefined;
  useEffect(() => {
    if (text !== undefined) snapshot.write(text);
  }, [snapshot, text]);
  // until someone takes hold of the screen: lines grow when what they tell is read
  const untouched = useRef(true);
  const toBottom = useCallback(() => {
    if (untouched.current) bottom.current?.scrollIntoView({ block: 'end' });
  }, []);
  const touch = () => {
    untouched.current = false;
  };
  useLayoutEffect(() => {
    if (lines.length > 0) toBottom();
  });

  const running = lines.filter((line) => line.state === 'running');
  const main = running.at(-1) ?? null;
  return (
    <main class="today" onPointerDown={touch} onWheel={touch} onKeyDown={touch}>
      <header class="today-head">
        <h1>{dayLong(day)}</h1>
        <Pill />
      </header>
      <div class="today-lines">
        <NotSaved />
        {version === 'old' || (version === 'ready' && open && running.length === 0) ? (
          <UpdateCard state={version} />
        ) : null}
        {open && !demo.shown && running.length === 0 && fresh?.some(isAfterFirst) ? (
          <InstallOnce drawn={toBottom} />
        ) : null}
        {open && running.length === 0 && lines.length > 0 ? <RecordsLine drawn={toBottom} /> : null}
        {open && !demo.shown && running.length === 0 && lines.length > 0 ? <BackupNudge drawn={toBottom} /> : null}
        {lines.length > 0 ? <TodayActs /> : null}
        <UndoLast of={OFFERED} />
        {lines.length === 0 && open && !reading ? <FirstStart above={<TodayActs />} /> : null}
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

/** Loads what says what matters, once the log is open: it comes with the trend engine, and the first screen does not wait for it. */
function useHeadOf(isOpen: boolean): HeadOf | undefined {
  const app = useApp();
  const redraw = useRedraw();
  const [heads, set] = useState<Heads>();
  useEffect(() => {
    let stop: (() => void) | null = ignore;
    if (isOpen)
      void Promise.all([import('./heads'), app.loadActs()]).then(([{ watchHeads }]) => {
        if (!stop) return;
        const made = watchHeads(app, redraw);
        stop = made.stop;
        set(made);
      }, ignore);
    return () => {
      stop?.();
      stop = null;
    };
  }, [isOpen, app, redraw]);
  return heads?.of;
}

// without it Today says all but that
const ignore = (): void => undefined;

/** What no session offers to take back: a client or other work that was removed, an end. */
const OFFERED = new Set([
  'remove-client',
  'remove-session',
  'missed-session',
  'other-work',
  'rest-day',
  'remove-other-work',
  'end-session',
  'remove-template',
  'remove-restriction',
]);

const isAfterFirst = (line: TodayLine): boolean => line.lastDay !== null || line.state === 'done-today';

/** The hint to install comes once, after the first kept session; “not now” is for good, as the Backup page has it always. */
function InstallOnce({ drawn }: { drawn: () => void }) {
  const { notes } = useApp();
  const redraw = useRedraw();
  if (notes.get('install-hint') !== undefined) return null;
  const dismiss = () => {
    notes.set('install-hint', 'dismissed');
    redraw();
  };
  return <InstallHint toBackup drawn={drawn} dismiss={dismiss} />;
}

function UpdateCard({ state }: { state: 'ready' | 'old' }) {
  const { update } = useApp();
  return (
    <section class="card">
      <p>{updateSentence(state)}</p>
      <button type="button" class="button" onClick={update.use}>
        Use the new version
      </button>
    </section>
  );
}

/** Reads today's session, where it is over and not in memory: the line tells what it held. */
function useTodays({ state, stream, session }: TodayLine): void {
  const { log, views } = useApp();
  const isMissing = state === 'done-today' && session !== null && !views.session(log, stream, session);
  useEffect(() => {
    if (isMissing && session !== null) void log.ready.then(() => log.loadSession(stream, session));
  }, [isMissing, log, stream, session]);
}

function Line({ line, day, main }: { line: TodayLine; day: string; main: boolean }) {
  useTodays(line);
  const { log, acts, loadActs, world } = useApp();
  const minutes = useTicking(() =>
    line.startedAt === null ? null : Math.max(0, Math.floor((world.now() - line.startedAt) / 60_000)),
  );
  const { stream, session } = line;
  const follower = log.status().phase === 'open' && log.status().seat === 'follower';
  // a tap on a line of the snapshot is kept until the log is open
  const start = () =>
    void Promise.all([log.ready, loadActs()]).then(() => {
      if (log.status().seat !== 'writer') return;
      if (line.template) {
        void acts
          .startFromTemplate(log, stream, line.template.id, world)
          .then((started) => go({ page: 'session', stream, session: started.session }));
        return;
      }
      if (line.usual) {
        void acts
          .startLike(log, stream, line.usual.session, world)
          .then((started) => go({ page: 'session', stream, session: started.session }));
        return;
      }
      const started = acts.startSession(log, stream, world);
      go({ page: 'session', stream, session: started.session });
    });
  return (
    <li class={`card today-line${main ? ' today-line-main' : ''}`}>
      <div class="today-line-head">
        <button
          type="button"
          class="today-name"
          disabled={line.alias === ''}
          onClick={() => go({ page: 'client', stream })}
          dir="auto"
        >
          {line.alias === '' ? 'A client who was removed' : line.alias}
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
            {line.template ? (
              <>
                {' · '}
                <span dir="auto">{line.template.name}</span>
              </>
            ) : line.usual ? (
              ' · the usual'
            ) : null}
          </button>
        )}
      </div>
      {line.since && line.date ? <WeekLine from={line.since} today={day} end={line.date.day} /> : null}
      <p class="hint">
        {stateText(line, minutes)}
        {line.days !== null && line.date ? <span class="days-to"> {daysTo(line.days, line.date.name)}</span> : null}
      </p>
      {line.head ? (
        <p class={`today-head-up${line.head.isHeadsUp ? ' today-look' : ''}`} dir="auto">
          {line.head.text}
        </p>
      ) : null}
      {line.usual && line.state !== 'running' ? (
        <p class="hint" dir="auto">
          The usual: {line.usual.names.join(', ')}.
        </p>
      ) : null}
      <div class="today-line-acts">
        {line.state === 'done-today' && session !== null ? (
          <button type="button" class="button button-plain" onClick={() => go({ page: 'session', stream, session })}>
            Look at today’s session
          </button>
        ) : null}
        {line.effortOpen && session !== null ? (
          <button
            type="button"
            class="button button-plain"
            onClick={() => go({ page: 'session', stream, session, sheet: { name: 'end' } })}
          >
            Add its effort
          </button>
        ) : null}
        {line.alias === '' ? null : (
          <button
            type="button"
            class="button button-plain"
            aria-label={`Other work, more of ${line.short}`}
            onClick={() => go({ page: 'day', stream })}
          >
            Other work, more
          </button>
        )}
      </div>
      {follower ? <p class="hint">Another tab of this app is logging; open a session here to take over.</p> : null}
    </li>
  );
}

/** A day of rest is one by being told: beside a session or other work it is not. */
function workText({ work, sessions }: TodayLine): string {
  const done = work.filter((one) => one !== 'rest day');
  if (done.length > 0) return `Today also ${done.join(', ')}. `;
  return work.length > 0 && sessions === 0 ? 'A rest day today. ' : '';
}

function stateText(line: TodayLine, minutes: number | null): string {
  const sets = countOf(line.sets, 'set');
  if (line.state === 'running') return `Running${minutes === null ? '' : ` · ${minutes} min`} · ${sets}. `;
  const work = workText(line);
  const more = line.sessions > 1 ? ` · ${line.sessions} sessions` : '';
  if (line.state === 'done-today') return `Done today${line.sets > 0 ? ` · ${sets}` : ''}${more}. ${work}`;
  if (work !== '') return work;
  return line.lastDay ? `Last session ${dayShort(line.lastDay)}. ` : 'No session yet. ';
}
