import { useEffect, useState } from 'preact/hooks';
import { instantAt } from '../../domain/day';
import { type OtherWork as Noted, REST_DAY, WORK_KINDS, type WorkKind } from '../../domain/otherWork';
import { weekDayOf } from '../../domain/template';
import { useApp, useWatch } from '../app';
import { WEEK_DAY } from '../blockWords';
import { faultSentence } from '../faultWords';
import { countOf, dayLong, dayShort, number, timeOfDay } from '../format';
import { Chip, ChipRow } from '../parts/Chip';
import { NoClient } from '../parts/NoClient';
import { PageHead } from '../parts/PageHead';
import { say } from '../parts/say';
import { TextField } from '../parts/TextField';
import { go, replace } from '../routes';
import { ATTENDANCE } from '../setWords';

/** One client's day: its sessions, what can be started, what was not trained, and other work. */
export function DayPage({ stream }: { stream: string }) {
  const { log, views, world } = useApp();
  useWatch(['status', 'kind:client', 'kind:session', 'kind:template', 'kind:otherWork', `series:${stream}`]);
  useEffect(() => void log.ready.then(() => log.loadResults(stream)), [log, stream]);
  const client = views.client(log, stream);
  const today = instantAt(world.now(), world.zone()).day;
  if (!client) return <NoClient />;
  return (
    <main class="page">
      <PageHead title={client.alias} />
      <p class="hint">{dayLong(today)}</p>
      <OtherWork stream={stream} today={today} />
      <Sessions stream={stream} today={today} short={client.short} />
      <NotTrained stream={stream} />
    </main>
  );
}

const HOURS = [0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 8, 10, 12] as const;

/** Rehearsal, shoot day, class, travel: kind, hours and effort are a tap each, and the third keeps it. A day of rest has neither: the second does. */
function OtherWork({ stream, today }: { stream: string; today: string }) {
  const { log, acts, views, world } = useApp();
  useWatch(['kind:otherWork']);
  const [work, setWork] = useState<WorkKind>();
  const [hours, setHours] = useState<number | null>(null);
  const [day, setDay] = useState(today);
  const [fault, setFault] = useState<string>();
  const keep = (effort: number | null) => {
    if (!work) return;
    const kept = acts.noteOtherWork(log, stream, { work, day, hours, effort }, world);
    if (!kept.ok) return setFault(faultSentence(kept.error));
    say(work === REST_DAY ? 'Rest day noted.' : 'Other work noted.');
    setWork(undefined);
    setHours(null);
    setDay(today);
    setFault(undefined);
  };
  const noted = views.otherWork(log, stream).slice(0, 8);
  return (
    <section class="card" aria-label="other work">
      <h2>Other work</h2>
      <ChipRow label="kind of other work" of="many">
        {WORK_KINDS.map((one) => (
          <Chip key={one} chosen={work === one} onTap={() => setWork(work === one ? undefined : one)}>
            {one}
          </Chip>
        ))}
      </ChipRow>
      {work === REST_DAY ? (
        <>
          <TextField label="Day" value={day} onText={setDay} type="date" fault={fault} />
          <p class="hint">A day nothing is noted of may have been one or not: only a noted one counts as rest.</p>
          <button type="button" class="button" onClick={() => keep(null)}>
            Keep the rest day
          </button>
        </>
      ) : work ? (
        <>
          <p class="hint">Hours</p>
          <ChipRow label="hours" of="many">
            {HOURS.map((one) => (
              <Chip
                key={one}
                chosen={hours === one}
                label={countOf(one, 'hour')}
                onTap={() => setHours(hours === one ? null : one)}
              >
                {one}
              </Chip>
            ))}
          </ChipRow>
          <TextField label="Day" value={day} onText={setDay} type="date" fault={fault} />
          <p class="hint">Effort of all of it, 0 to 10, as the client tells it. This tap keeps it.</p>
          <ChipRow label="effort of the other work" of="many">
            {Array.from({ length: 11 }, (_, effort) => (
              <Chip key={effort} label={`keep with effort ${effort}`} onTap={() => keep(effort)}>
                {effort}
              </Chip>
            ))}
          </ChipRow>
          <button type="button" class="button" onClick={() => keep(null)}>
            Keep, effort not noted
          </button>
        </>
      ) : null}
      {noted.length > 0 ? (
        <ul>
          {noted.map((one) => (
            <li key={one.id} class="list-line">
              <span>
                {dayShort(one.day)}: {one.work}
                {workTold(one)}
              </span>
              <button
                type="button"
                class="button"
                aria-label={`remove ${one.work} of ${dayShort(one.day)}`}
                onClick={() => acts.removeOtherWork(log, stream, one.id)}
              >
                remove
              </button>
            </li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}

function workTold({ work, hours, effort }: Noted): string {
  if (work === REST_DAY) return '';
  return `${hours === undefined ? '' : `, ${number(hours)} h`}, ${
    effort === undefined ? 'effort not noted' : `effort ${number(effort)}`
  }`;
}

/** Today's sessions, and what can be started: a plain one, or one from a template. */
function Sessions({ stream, today, short }: { stream: string; today: string; short: string }) {
  const { log, acts, views, world } = useApp();
  const own = views
    .sessionsInMemory(log)
    .filter((one) => one.stream === stream && (!one.session.end || one.session.start?.day === today));
  const last = (log.lastTimes(stream, '', '') ?? []).filter(
    (time) => !own.some((one) => one.session.id === time.session),
  );
  const start = () => {
    const started = acts.startSession(log, stream, world);
    replace({ page: 'session', stream, session: started.session });
  };
  const templates = views.templates(log, stream);
  const todays = weekDayOf(today);
  return (
    <section class="card" aria-label="sessions">
      <h2>Sessions</h2>
      <ul>
        {own.map(({ session }) => (
          <li key={session.id} class="list-line">
            <span>
              {session.start ? timeOfDay(session.start.at, session.start.zone) : ''}
              {session.end ? ', ended' : ', running'}, {countOf(session.sets.length, 'set')}
              {session.attendance && session.attendance !== 'done' ? `, ${ATTENDANCE[session.attendance]}` : ''}
              {session.effort ? `, effort ${number(session.effort.value)}` : session.end ? ', effort not noted' : ''}
            </span>
            <button type="button" class="button" onClick={() => go({ page: 'session', stream, session: session.id })}>
              {session.end ? 'Look' : 'Resume'}
            </button>
            {session.end ? (
              <button
                type="button"
                class="button"
                onClick={() => go({ page: 'session', stream, session: session.id, sheet: { name: 'end' } })}
              >
                Effort
              </button>
            ) : null}
          </li>
        ))}
        {last.slice(0, 3).map((time) => (
          <li key={time.session} class="list-line">
            <span>{dayShort(time.day)}</span>
            <button type="button" class="button" onClick={() => go({ page: 'session', stream, session: time.session })}>
              Look
            </button>
          </li>
        ))}
      </ul>
      <button type="button" class={`button${own.some((one) => !one.session.end) ? '' : ' button-act'}`} onClick={start}>
        Start <span dir="auto">{short}</span>
      </button>
      {templates.map((template) => (
        <div key={template.id} class="list-line">
          <span>
            <span dir="auto">{template.name}</span>{' '}
            <span class="hint">
              {template.days.map((day) => (day === todays ? 'today' : WEEK_DAY[day])).join(', ')}
            </span>
          </span>
          <button
            type="button"
            class="button"
            onClick={() =>
              void acts
                .startFromTemplate(log, stream, template.id, world)
                .then(({ session }) => replace({ page: 'session', stream, session }))
            }
          >
            Start <span dir="auto">{template.name}</span>
          </button>
          <button
            type="button"
            class="button"
            aria-label={`remove the template ${template.name}`}
            onClick={() => acts.removeTemplate(log, stream, template.id)}
          >
            remove
          </button>
        </div>
      ))}
      <p class="hint">Several short sessions a day are normal.</p>
    </section>
  );
}

/** A session that was agreed on and did not happen. */
function NotTrained({ stream }: { stream: string }) {
  const { log, acts, world } = useApp();
  const [how, setHow] = useState<'cancelled' | 'no-show'>();
  const [why, setWhy] = useState('');
  const [fault, setFault] = useState<string>();
  const keep = () => {
    if (!how) return;
    const kept = acts.noteMissedSession(log, stream, how, why, world);
    if (!kept.ok) return setFault(faultSentence(kept.error));
    say('Noted.');
    setHow(undefined);
    setWhy('');
    setFault(undefined);
  };
  return (
    <section class="card" aria-label="not trained">
      <h2>A session that did not happen</h2>
      <ChipRow label="what happened">
        {(['cancelled', 'no-show'] as const).map((one) => (
          <Chip key={one} chosen={how === one} onTap={() => setHow(how === one ? undefined : one)}>
            {ATTENDANCE[one]}
          </Chip>
        ))}
      </ChipRow>
      {how ? (
        <>
          <TextField label="Why" value={why} onText={setWhy} fault={fault} hint="Optional." />
          <button type="button" class="button" onClick={keep}>
            Note it
          </button>
        </>
      ) : null}
    </section>
  );
}
