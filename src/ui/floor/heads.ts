import { headsUp, isOther, rankedAll } from '../../analysis/findings';
import { type Day, instantAt } from '../../domain/day';
import type { App } from '../app';
import { RECORDS } from '../askedAnew';
import { pressingOf } from '../desk/pressing';
import { tellingOf } from '../people/telling';
import { headsKept } from './headsKept';
import type { Head, HeadOf } from './todayLines';

/*
 * The one thing that matters of each client today, of all that is found. What the trend engine says is at hand; the other answers are worked out behind
 * the screen once nothing has happened for a while, never beside a running session, and of a client only after something was done with them.
 */

export type Heads = { readonly of: HeadOf; readonly stop: () => void };

/** Logging comes first: acts that follow each other are waited out. */
const QUIET_MS = 1500;
/** A session that was left open since yesterday is nobody’s on the floor. */
const LONGEST_MS = 12 * 3_600_000;

/** Returns what tells each client's head, and calls `redraw` when one may be another. */
export function watchHeads(app: App, redraw: () => void): Heads {
  const { log, acts, views, world, analysing } = app;
  const kept = headsKept(app);
  const today = (): Day => instantAt(world.now(), world.zone()).day;
  const isRunning = (): boolean =>
    views
      .sessionsInMemory(log)
      .some(({ session }) => !session.end && world.now() - (session.start?.at ?? 0) < LONGEST_MS);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let call = new AbortController();
  let lookedFor = today();

  async function look(): Promise<void> {
    const own = new AbortController();
    call = own;
    const day = today();
    for (const { id } of views.clients(log)) {
      if (own.signal.aborted || isRunning()) return;
      if (!kept.isDue(id, day)) continue;
      const mark = kept.mark(id, day);
      const answers = await analysing()
        .then((ask) => ask.alone(id, day, own.signal))
        .catch(() => undefined);
      // what could not be worked out is due again at the next look
      if (!answers || own.signal.aborted) continue;
      // how cues work leans on the other clients, who are not read here
      const found = answers.found.filter(({ topic }) => topic !== 'cues');
      const one = headsUp(rankedAll([], found, acts.targets(log, id), day));
      kept.keep(id, mark, one && isOther(one) ? one : null);
      redraw();
    }
  }
  const lookSoon = (): void => {
    call.abort();
    clearTimeout(timer);
    timer = setTimeout(() => void look(), QUIET_MS);
  };
  const off = log.watch(RECORDS, lookSoon);
  lookSoon();

  return {
    of(_app, stream, day) {
      // the screen was left open into another day, on which nothing has happened yet
      if (day !== lookedFor) {
        lookedFor = day;
        lookSoon();
      }
      const top = kept.top(stream, day);
      const pressing = pressingOf(app, { stream, asOf: day, today: day }, top ? [top] : [], tellingOf(app, day));
      return pressing && headFrom(pressing, day);
    },
    stop() {
      off();
      clearTimeout(timer);
      call.abort();
    },
  };
}

const headFrom = ({ tone, text }: { readonly tone: string; readonly text: string }, day: Day): Head | null =>
  tone === 'plain' ? null : { text, isHeadsUp: tone === 'look', day };
