import type { Answers } from './analysis/answers';
import type { ShownRow } from './analysis/studio';
import { createKept, KINDS, type Reading, type Uses } from './analysisKept';
import type { Day } from './domain/day';
import type { Log } from './log/log';
import { batchesOf } from './log/scan';
import { SETTINGS, shownOf } from './log/views';
import type { Row } from './merge/row';
import { shown } from './merge/shown';
import type { Analysing, Told } from './ui/analysing';
import type { Question } from './worker/analyst';
import type { Desk, Heard } from './worker/desk';
import { createDesks } from './worker/desks';

/** Rows that are read, and handed over, in one go: a tap waits for no more than these. */
const BATCH = 10;

/** `unread`: the store could not be read. */
type Found = Heard | { readonly type: 'unread' };

/** Joins the log and the worker into what the screens ask of the analysis. */
export function createAnalysing(log: Log): Analysing {
  const kept = createKept(log);
  const desks = createDesks();
  /** What the desk in use has of the library. */
  const handed = new WeakMap<Desk, string>();
  let last: Promise<unknown> = Promise.resolve();

  function inTurn<T>(run: () => Promise<T>): Promise<T> {
    const next = last.then(run, run);
    last = next.catch(() => undefined);
    return next;
  }

  /** One client's answers: of what of the others they rest on is known, only the client is read. */
  async function answersFor(
    stream: string,
    asOf: Day,
    tell: (told: Told) => void,
    signal: AbortSignal | undefined,
  ): Promise<Found> {
    await log.ready;
    if (signal?.aborted) return { type: 'stopped' };
    kept.look();
    const streams = kept.streams();
    if (!streams.includes(stream)) return { type: 'nobody' };
    const others = streams.filter((one) => one !== stream);
    const missing = new Set(others.filter((one) => !kept.uses(one, asOf)));
    const pool: Uses[] = [];
    let done = 0;
    for (const one of others) {
      const known = missing.has(one) ? undefined : kept.uses(one, asOf);
      if (known) {
        pool.push(known);
        continue;
      }
      tell({ done, of: missing.size + 1 });
      const heard = await ask(one, { type: 'uses', asOf }, signal);
      if (heard.found.type === 'stopped' || heard.found.type === 'unread') return heard.found;
      // what cannot be worked out of another is no reason to say nothing of this one
      pool.push(heard.reading.keepUses(asOf, heard.found.type === 'uses' ? heard.found.uses : []));
      done += 1;
    }
    const known = kept.answers(stream, asOf, pool);
    if (known) return { type: 'answers', answers: known, uses: [] };
    tell({ done, of: missing.size + 1 });
    const { found, reading } = await ask(stream, { type: 'answers', asOf, pool }, signal);
    if (found.type !== 'answers') return found;
    // erased while it was worked out [M10]
    if (!kept.streams().includes(stream)) return { type: 'nobody' };
    reading.keepUses(asOf, found.uses);
    reading.keepAnswers(asOf, found.answers, pool);
    tell({ done: done + 1, of: missing.size + 1 });
    return found;
  }

  /** Reads a client for the desk in use and asks there; where the worker is lost with what it was handed, once more in the page. */
  async function ask(stream: string, question: Question, signal: AbortSignal | undefined) {
    const first = await askAt(await desks.open(), stream, question, signal);
    const heard = first.found.type === 'lost' ? await askAt(await desks.stay(), stream, question, signal) : first;
    if (heard.found.type === 'stopped' || heard.found.type === 'stuck') desks.close();
    else desks.rest();
    return heard;
  }

  async function askAt(
    desk: Desk,
    stream: string,
    question: Question,
    signal: AbortSignal | undefined,
  ): Promise<{ readonly found: Found; readonly reading: Reading }> {
    const reading = kept.begin(stream);
    const library = kept.library();
    if (handed.get(desk) !== library) desk.hand({ type: 'library', rows: libraryRows(log) });
    handed.set(desk, library);
    desk.hand({ type: 'client' });
    const unread = await handOver(desk, stream, reading, signal);
    reading.end();
    const found = unread ?? (await desk.ask(question, signal));
    desk.hand({ type: 'let-go' });
    return { found, reading };
  }

  async function handOver(
    desk: Desk,
    stream: string,
    reading: Reading,
    signal: AbortSignal | undefined,
  ): Promise<{ readonly type: 'stopped' | 'unread' } | undefined> {
    const batches = batchesOf(log, stream, BATCH);
    for (;;) {
      if (signal?.aborted) return { type: 'stopped' };
      const next = await batches.next();
      if (next.done) return next.value ? undefined : { type: 'unread' };
      reading.note(next.value);
      desk.hand({ type: 'rows', rows: next.value.filter(({ kind }) => KINDS.includes(kind)).map(shownRow) });
      await new Promise((turn) => setTimeout(turn, 0));
    }
  }

  return {
    async client(stream, asOf, tell = () => undefined, signal) {
      const found = await orStopped(
        inTurn(() => answersFor(stream, asOf, tell, signal)),
        signal,
      );
      return found.type === 'answers' ? found.answers : undefined;
    },
    async alone(stream, asOf, signal) {
      const read = async (): Promise<Found> => {
        await log.ready;
        if (signal?.aborted) return { type: 'stopped' };
        if (!kept.streams().includes(stream)) return { type: 'nobody' };
        return (await ask(stream, { type: 'answers', asOf, pool: [] }, signal)).found;
      };
      const found = await orStopped(inTurn(read), signal);
      return found.type === 'answers' && kept.streams().includes(stream) ? found.answers : undefined;
    },
    async studio(asOf, each, signal) {
      await log.ready;
      const streams = kept.streams();
      const all: Answers[] = [];
      // one in turn at a time, so that a client who is looked at comes in between
      for (const [n, stream] of streams.entries()) {
        const found = await orStopped(
          inTurn(() => answersFor(stream, asOf, () => undefined, signal)),
          signal,
        );
        if (found.type === 'stopped' || found.type === 'unread') return undefined;
        if (found.type !== 'answers') continue;
        all.push(found.answers);
        each(found.answers, { done: n + 1, of: streams.length });
      }
      return all;
    },
  };
}

/** What is called off is over at once, wherever it stands. */
function orStopped(found: Promise<Found>, signal: AbortSignal | undefined): Promise<Found> {
  if (!signal) return found;
  return new Promise((resolve, reject) => {
    const stop = (): void => resolve({ type: 'stopped' });
    if (signal.aborted) stop();
    signal.addEventListener('abort', stop, { once: true });
    void found.then(resolve, reject).finally(() => signal.removeEventListener('abort', stop));
  });
}

/** Own exercises and the first day of the week; they are always in memory. */
const libraryRows = (log: Log): readonly ShownRow[] =>
  [...log.ofKind('exercise'), ...log.ofKind(SETTINGS.kind)].map((row) => ({ ...named(row), values: shownOf(row) }));

const shownRow = (row: Row): ShownRow => ({ ...named(row), values: shown(row) });

const named = ({ stream, id, kind }: Row): Omit<ShownRow, 'values'> => ({ stream, id, kind });
