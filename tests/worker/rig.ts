import { vi } from 'vitest';
import { demoRows } from '../../fixtures/demo/studio';
import { createAnalysing } from '../../src/analysing';
import { type Answers, answersOf } from '../../src/analysis/answers';
import { usesOf, whole } from '../../src/analysis/others';
import { knownBy, readStudio } from '../../src/analysis/studio';
import { beginImport } from '../../src/log/absorb';
import { scanRows } from '../../src/log/scan';
import type { Row } from '../../src/merge/row';
import { shown } from '../../src/merge/shown';
import type { Analysing } from '../../src/ui/analysing';
import { createAnalyst } from '../../src/worker/analyst';
import type { FromWorker, ToWorker } from '../../src/worker/messages';
import { type App, createDevice } from '../log/fakes/device';
import { launched } from '../log/floor';
import { REAL } from '../log/room';

/* A studio of four clients on a phone, and a browser's Worker as far as an analyst needs one. */

/** The day after the last one that the studio was invented for. */
export const TODAY = '2026-03-03';

/** Its last five weeks: enough for every method to have something to say. */
export const ROWS: readonly Row[] = demoRows({ seed: 7, today: TODAY, zone: 'Europe/Vienna' }).filter(
  ({ kind, body }) => kind !== 'session' || startDay(body) >= '2026-01-26',
);
export const STREAMS = [...new Set(ROWS.map(({ stream }) => stream))].filter((one) => one !== 'main').sort();

function startDay(body: Row['body']): string {
  const start = body['start']?.[0].value;
  return typeof start === 'object' && start !== null && 'day' in start ? String(start['day']) : '';
}

/** A worker that was started: what it was told, and whether it was ended. */
export type Started = {
  readonly told: ToWorker[];
  ended: boolean;
  /** Breaks it, as a browser does that runs out of memory. */
  readonly breakDown: () => void;
};

/** What a worker does with a question in place of answering it; undefined: it answers. */
export type Fate = (asked: Extract<ToWorker, { type: 'ask' }>, worker: Started) => 'silent' | 'failed' | undefined;

/** Gives the page workers, and returns those that were started. */
export function withWorkers(fate: Fate = () => undefined): Started[] {
  const started: Started[] = [];
  class FakeWorker {
    onmessage?: (event: { data: FromWorker }) => void;
    onerror?: (event: { preventDefault: () => void }) => void;
    onmessageerror?: () => void;
    readonly #analyst = createAnalyst();
    readonly #own: Started = {
      told: [],
      ended: false,
      breakDown: () => this.onerror?.({ preventDefault: () => undefined }),
    };
    constructor() {
      started.push(this.#own);
    }
    postMessage(given: ToWorker) {
      const message = structuredClone(given);
      this.#own.told.push(message);
      if (message.type !== 'ask') return this.#analyst.take(message);
      const what = fate(message, this.#own);
      if (what === 'silent') return;
      setTimeout(() => {
        if (this.#own.ended) return;
        const reply = what === 'failed' ? ({ type: 'failed' } as const) : whole(this.#analyst.reply(message.question));
        this.onmessage?.({ data: structuredClone({ n: message.n, reply }) });
      }, 0);
    }
    terminate() {
      this.#own.ended = true;
    }
  }
  vi.stubGlobal('Worker', FakeWorker);
  return started;
}

/** Returns whose rows a worker was handed from one question to the next, a text each: `uses a`, `answers b`. */
export function worked({ told }: Started): readonly string[] {
  let streams = new Set<string>();
  return told.flatMap((one) => {
    if (one.type === 'client') streams = new Set();
    if (one.type === 'rows') for (const { stream } of one.rows) streams.add(stream);
    return one.type === 'ask' ? [`${one.question.type} ${[...streams].join(' and ')}`] : [];
  });
}

/** Launches the app on a new device that holds the studio. */
export async function studio(rows: readonly Row[] = ROWS) {
  const device = createDevice(1);
  const app = await launched(REAL, device);
  await taken(app, rows);
  const made = app.run(() => createAnalysing(app.log));
  const analysing: Analysing = {
    client: (...given) => app.run(() => made.client(...given)),
    alone: (...given) => app.run(() => made.alone(...given)),
    studio: (...given) => app.run(() => made.studio(...given)),
  };
  return { device, app, analysing };
}

/** Takes rows in, as an import does. */
export async function taken(app: App, rows: readonly Row[]): Promise<void> {
  const prepared = app.run(() => beginImport(app.log));
  await app.run(() => prepared.take(rows));
  const saved = await app.run(() => prepared.commit());
  if (!saved.ok) throw new Error(saved.error.type);
}

/** Returns what is to be said of every client, worked out of all rows of the log at once. */
export async function expected(app: App, asOf = TODAY): Promise<readonly Answers[]> {
  const rows: Row[] = [];
  await app.run(() => scanRows(app.log, (some) => void rows.push(...some)));
  const all = readStudio(rows.map((row) => ({ ...row, values: shown(row) })));
  const known = all.clients.map((client) => knownBy(client, asOf));
  return known.map((client) => answersOf(client, known.filter((other) => other !== client).map(usesOf), all, asOf));
}
