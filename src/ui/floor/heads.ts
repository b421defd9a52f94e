import type { Answers } from '../../analysis/answers';
import { type Day, instantAt } from '../../domain/day';
import type { App } from '../app';
import { pressingOf } from '../desk/pressing';
import { tellingOf } from '../people/telling';
import { type Head, type HeadOf, readSnapshot } from './todayLines';

/*
 * The one thing that matters of each client today, of all that is found. What the trend engine says is at hand; the other answers are worked out behind
 * the screen once nothing has happened for a while, and never beside a running session.
 */

export type Heads = { readonly of: HeadOf; readonly stop: () => void };

/** Logging comes first: acts that follow each other are waited out. */
const QUIET_MS = 1500;
/** Where all was said earlier today, it is most likely so still. */
const UNHURRIED_MS = 20_000;
const CHANGES = ['kind:session', 'kind:otherWork', 'kind:role', 'kind:client', 'kind:result', 'kind:exercise'];

/** What was worked out of each app's clients since it was opened, and whether anything has changed since it was first asked. */
type Worked = { readonly known: Map<string, Answers>; changed: boolean };
const worked = new WeakMap<App, Worked>();

function workedOf(app: App): Worked {
  const before = worked.get(app);
  if (before) return before;
  const made: Worked = { known: new Map(), changed: false };
  worked.set(app, made);
  // for as long as the app is open: what happens in a session happens while nobody looks at Today
  app.log.watch(CHANGES, () => {
    made.changed = true;
  });
  return made;
}

/** Returns what tells each client's head, and calls `redraw` when one may be another. */
export function watchHeads(app: App, redraw: () => void): Heads {
  const { log, views, world, snapshot, analysing } = app;
  const work = workedOf(app);
  const { known } = work;
  // said earlier today, by all that was known then: it stands until all is known again
  const said = new Map((readSnapshot(snapshot.read()) ?? []).map(({ stream, head }) => [stream, head?.day]));
  const today = (): Day => instantAt(world.now(), world.zone()).day;
  const isRunning = (): boolean => views.sessionsInMemory(log).some(({ session }) => !session.end);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let call = new AbortController();
  let isOver = false;
  let lookedFor = today();

  async function look(): Promise<void> {
    if (isRunning()) return;
    const own = new AbortController();
    call = own;
    const each = (answers: Answers): void => {
      if (known.get(answers.stream) === answers) return;
      known.set(answers.stream, answers);
      redraw();
    };
    const all = await analysing()
      .then((ask) => ask.studio(today(), each, own.signal))
      .catch(() => undefined);
    if (all || own.signal.aborted) return;
    // it cannot be worked out: then what is at hand is said
    isOver = true;
    redraw();
  }
  const lookIn = (ms: number): void => {
    call.abort();
    clearTimeout(timer);
    timer = setTimeout(() => void look(), ms);
  };
  const off = log.watch(CHANGES, () => lookIn(QUIET_MS));
  lookIn(!work.changed && [...said.values()].includes(lookedFor) ? UNHURRIED_MS : QUIET_MS);

  return {
    of(_app, stream, day) {
      // the screen was left open into another day, on which nothing has happened yet
      if (day !== lookedFor) {
        lookedFor = day;
        lookIn(QUIET_MS);
      }
      const answers = known.get(stream);
      const isKnown = answers?.asOf === day;
      if (!isKnown && !isOver && said.get(stream) === day) return undefined;
      return headFrom(app, stream, day, isKnown ? answers : undefined);
    },
    stop() {
      off();
      clearTimeout(timer);
      call.abort();
    },
  };
}

function headFrom(app: App, stream: string, day: Day, answers: Answers | undefined): Head | null | undefined {
  const pressing = pressingOf(app, { stream, asOf: day, today: day }, answers?.found ?? [], tellingOf(app, day));
  if (!pressing) return undefined;
  return pressing.tone === 'plain' ? null : { text: pressing.text, isHeadsUp: pressing.tone === 'look', day };
}
