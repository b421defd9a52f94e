import { useEffect, useRef, useState } from 'preact/hooks';
import { weekOf } from '../../analysis/weeks';
import { addDays, type Day, instantAt } from '../../domain/day';
import type { Told } from '../analysing';
import { useApp, useRedraw, useWatch } from '../app';
import { PageHead } from '../parts/PageHead';
import { useTicking } from '../parts/useTicking';
import { useWide } from '../parts/useWide';
import { tellingOf } from '../people/telling';
import { go } from '../routes';
import { asOfText, spanText, WEEK, workedOutText } from '../weekWords';
import { pressingOf } from './pressing';
import { workOutThen } from './seriesThen';
import { type StudioAsked, useStudioWeek } from './useStudioWeek';
import { WeekCards } from './WeekCards';
import { WeekTable } from './WeekTable';
import type { WeekLineOf } from './weekLine';
import '../charts/answers.css';
import './week.css';

/** All clients' week on one page, this one or an earlier one: who needs what, what was done, landings, dates. Usable while it is worked out. */
export function StudioWeek() {
  const { log, views, world } = useApp();
  useWatch(['status', 'kind:client', 'kind:settings']);
  const [weeksBack, setWeeksBack] = useWeeksBack();
  const today = useTicking(() => instantAt(world.now(), world.zone()).day);
  const { firstDay } = views.settings(log);
  const week = addDays(weekOf(today, firstDay), -7 * weeksBack);
  const last = addDays(week, 6);
  const asOf = weeksBack === 0 ? today : last;
  // by week: what is in hand stays where it is
  const touched = useRef<Day | undefined>(undefined);
  const touch = (): void => {
    touched.current = asOf;
  };
  const isRead = log.status().phase !== 'opening' && log.status().seat !== null;
  const isEmpty = isRead && views.clients(log).length === 0;
  return (
    <main class="page week-page" onPointerDown={touch} onKeyDown={touch}>
      <PageHead title={WEEK.title} />
      {isEmpty ? (
        <section class="card">
          <p>{WEEK.noClient}</p>
          <button type="button" class="button button-act" onClick={() => go({ page: 'client', stream: null })}>
            {WEEK.addClient}
          </button>
        </section>
      ) : (
        <>
          <nav class="week-which" aria-label={WEEK.weeks}>
            <button type="button" class="button" onClick={() => setWeeksBack(weeksBack + 1)}>
              {WEEK.earlier}
            </button>
            <h2 aria-live="polite">{spanText(week, last, today)}</h2>
            <button
              type="button"
              class="button"
              disabled={weeksBack === 0}
              onClick={() => setWeeksBack(Math.max(0, weeksBack - 1))}
            >
              {WEEK.later}
            </button>
          </nav>
          {asOf === today ? null : (
            <div class="week-as-of">
              <p class="hint">{asOfText(asOf, today)}</p>
              <button type="button" class="button" onClick={() => setWeeksBack(0)}>
                {WEEK.current}
              </button>
            </div>
          )}
          <Clients asOf={asOf} today={today} week={week} isTouched={() => touched.current === asOf} />
        </>
      )}
    </main>
  );
}

/** Which week is shown is kept with the address: the way back from a client leads to that week, a new visit to this one. */
function useWeeksBack(): readonly [weeks: number, set: (weeks: number) => void] {
  const [weeksBack, put] = useState<number>(() => {
    const held: unknown = history.state?.weeksBack;
    return typeof held === 'number' && held > 0 ? held : 0;
  });
  const set = (weeks: number): void => {
    history.replaceState({ ...history.state, weeksBack: weeks }, '');
    put(weeks);
  };
  return [weeksBack, set];
}

type ClientsProps = { readonly asOf: Day; readonly today: Day; readonly week: Day; readonly isTouched: () => boolean };

function Clients({ asOf, today, week, isTouched }: ClientsProps) {
  const { log, views } = useApp();
  const isWide = useWide();
  const clients = views.clients(log);
  useWatch(['kind:exercise', 'kind:cue', 'kind:role', 'kind:result', ...clients.map(({ id }) => `series:${id}`)]);
  // loads added to a body are judged by its mass, on that day too
  useEffect(() => {
    if (asOf !== today) for (const { id } of views.clients(log)) void log.loadResults(id);
  }, [log, views, asOf, today]);
  const asked = useStudioWeek(asOf);
  useWorkedOut(asked, today);
  const lines = useLines(asked, today, isTouched);
  const days = Array.from({ length: 7 }, (_, n) => addDays(week, n));
  return (
    <>
      <p class="hint" role="status">
        {asked.state === 'failed' ? WEEK.failed : workedOutText(toldOf(asked, clients.length))}
      </p>
      {isWide ? <WeekTable lines={lines} days={days} today={today} /> : <WeekCards lines={lines} today={today} />}
      <p class="hint">{WEEK.order}</p>
    </>
  );
}

/** Works out how the exercises stood on an earlier day, of the clients that are there, and draws again with each client. */
function useWorkedOut({ asOf, answers }: StudioAsked, today: Day): void {
  const app = useApp();
  const redraw = useRedraw();
  // after every drawing: what is known is passed over
  useEffect(() => {
    if (asOf === today) return;
    const call = new AbortController();
    void (async () => {
      for (const stream of answers.keys()) {
        const isNew = await workOutThen(app, { stream, asOf }, call.signal);
        if (call.signal.aborted) return;
        if (isNew) redraw();
      }
    })();
    return () => call.abort();
  });
}

/** The last client of all may be one of whom nothing was told. */
const toldOf = ({ told, state }: StudioAsked, of: number): Told =>
  state === 'there' ? { done: of, of } : (told ?? { done: 0, of });

/**
 * Returns a line for each client that is worked out, and, once all are, for those that could not be. Who needs most comes first, then by name; once
 * someone has taken hold of the list, nothing in it changes its place.
 */
function useLines(asked: StudioAsked, today: Day, isTouched: () => boolean): readonly WeekLineOf[] {
  const app = useApp();
  const { log, views } = app;
  const order = useRef<readonly string[]>([]);
  const { asOf, answers, state } = asked;
  const telling = tellingOf(app, asOf);
  const lines = views.clients(log).flatMap((client): WeekLineOf[] => {
    const own = answers.get(client.id);
    if (!own) return state === 'there' ? [{ client }] : [];
    const pressing = pressingOf(app, { stream: client.id, asOf, today }, own.found, telling);
    return [{ client, week: own.week, ...(pressing ? { pressing } : {}) }];
  });
  // clients come by name, and a sort keeps that among equals
  lines.sort((a, b) => (b.pressing?.urgency ?? -1) - (a.pressing?.urgency ?? -1));
  if (isTouched()) {
    const place = ({ client: { id } }: WeekLineOf): number =>
      order.current.includes(id) ? order.current.indexOf(id) : order.current.length;
    lines.sort((a, b) => place(a) - place(b));
  }
  order.current = lines.map(({ client }) => client.id);
  return lines;
}
