import { render } from '@testing-library/preact';
import { type Answers, answersOf } from '../../src/analysis/answers';
import { endsOf } from '../../src/analysis/ends';
import { bodyOf, type ClientRecord, knownBy } from '../../src/analysis/studio';
import type { FirstDay } from '../../src/analysis/weeks';
import type { Client } from '../../src/domain/client';
import { type Exposure, exposureOf } from '../../src/domain/exposure';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import { DEFAULT_SETTINGS } from '../../src/domain/settings';
import type { Told } from '../../src/ui/analysing';
import { type App, AppProvider } from '../../src/ui/app';
import { StudioWeek } from '../../src/ui/desk/StudioWeek';

/** A Thursday. */
export const TODAY = '2026-11-26';

const exercises = new Map(SHIPPED_EXERCISES.map((one) => [one.id, one]));

/** One call of the analysis, answered client by client as the test says. */
export type Call = {
  readonly asOf: string;
  readonly signal: AbortSignal | undefined;
  /** Hands out one client's answers. */
  readonly answer: (stream: string) => void;
  /** Ends it, with what was handed out; or without anything, as where the store cannot be read. */
  readonly end: (how?: 'unread') => void;
};

/** Opens the page over a log of these clients; whatever is asked of the analysis waits for the test. */
export function openWeek(records: readonly ClientRecord[], firstDay: FirstDay = 'mon') {
  const calls: Call[] = [];
  const watchers = new Map<() => void, readonly string[]>();
  const held = new Map<string, readonly Exposure[]>();
  const recordOf = (stream: string): ClientRecord => {
    const found = records.find((one) => one.stream === stream);
    if (!found) throw new Error(`no client ${stream}`);
    return found;
  };
  const exposures = (stream: string, id: string): readonly Exposure[] => {
    const key = `${stream} ${id}`;
    const known = held.get(key) ?? recordOf(stream).sessions.flatMap((session) => exposureOf(session, id) ?? []);
    held.set(key, known);
    return known;
  };
  const used = (stream: string): readonly string[] => [
    ...new Set(recordOf(stream).sessions.flatMap((session) => session.exercises)),
  ];
  const clients = records
    .map((one): Client => {
      const date = one.date ? { date: one.date } : {};
      return { id: one.stream, alias: one.alias, short: one.stream, setUps: {}, clearances: {}, ...date };
    })
    .sort((a, b) => (a.alias < b.alias ? -1 : 1));
  const studio = (asOf: string, each: (answers: Answers, told: Told) => void, signal?: AbortSignal) =>
    new Promise<readonly Answers[] | undefined>((resolve) => {
      const all: Answers[] = [];
      calls.push({
        asOf,
        signal,
        answer: (stream) => {
          const answers = answersOf(knownBy(recordOf(stream), asOf), [], { exercises, firstDay }, asOf);
          all.push(answers);
          each(answers, { done: all.length, of: records.length });
        },
        end: (how) => resolve(how === 'unread' ? undefined : all),
      });
    });
  // the page reads the log in these few ways alone
  const app = {
    log: {
      status: () => ({ phase: 'open', seat: 'writer' }),
      watch: (topics: readonly string[], fn: () => void) => {
        watchers.set(fn, topics);
        return () => watchers.delete(fn);
      },
      loadResults: () => Promise.resolve(),
      ends: (stream: string) =>
        used(stream).flatMap((id) => {
          const exercise = exercises.get(id);
          return exercise ? endsOf(exercise, exposures(stream, id), bodyOf(exercise, [])) : [];
        }),
      exposures,
      usedExercises: (stream: string) => used(stream).map((exercise) => ({ exercise })),
    },
    acts: { targets: (_log: unknown, stream: string) => recordOf(stream).targets, bodyMasses: () => [] },
    views: {
      clients: () => clients,
      settings: () => ({ ...DEFAULT_SETTINGS, firstDay }),
      exercise: (_log: unknown, id: string) => exercises.get(id),
      cues: () => [],
    },
    analysing: () => Promise.resolve({ studio, client: () => Promise.resolve(undefined) }),
    world: { now: () => Date.parse(`${TODAY}T12:00Z`), zone: () => 'UTC', random: (n: number) => new Uint8Array(n) },
  } as unknown as App;
  const view = render(
    <AppProvider value={app}>
      <StudioWeek />
    </AppProvider>,
  );
  const tell = (topic: string): void => {
    for (const [fn, topics] of watchers) if (topics.includes(topic)) fn();
  };
  return { ...view, calls, tell };
}
