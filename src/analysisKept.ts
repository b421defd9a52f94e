import type { Answers } from './analysis/answers';
import type { CueUses } from './analysis/cueUses';
import type { Day } from './domain/day';
import type { RowKey } from './log/keys';
import { keyOf } from './log/keys';
import type { Log } from './log/log';
import { client, settings } from './log/views';
import { kindTopic } from './log/watch';
import type { Row } from './merge/row';

/*
 * What was worked out, kept until what it rests on changes: the client's own rows, the library, the first day of the week, how the cues of the others worked.
 * A row that is read again and is as it was changes nothing. What is stale is made anew only when it is asked for.
 */

export type Uses = readonly CueUses[];
export type Pool = readonly Uses[];

/** One reading of a client's rows. */
export type Reading = {
  /** Notes rows as they were read. */
  readonly note: (rows: readonly Row[]) => void;
  /** All were read; any that was changed meanwhile makes what comes of this reading stale. */
  readonly end: () => void;
  /** Keeps what came of it, if it is not stale by now; returns it (cues as they were kept before, where they are the same). */
  readonly keepUses: (asOf: Day, uses: Uses) => Uses;
  readonly keepAnswers: (asOf: Day, answers: Answers, pool: Pool) => void;
};

export type Kept = {
  /** Looks at what is in memory now: a change is told of a frame after it was made. */
  readonly look: () => void;
  /** The clients there are, in the order of their streams. */
  readonly streams: () => readonly string[];
  /** Of what state the library is. */
  readonly library: () => string;
  readonly uses: (stream: string, asOf: Day) => Uses | undefined;
  readonly answers: (stream: string, asOf: Day, pool: Pool) => Answers | undefined;
  readonly begin: (stream: string) => Reading;
};

/** Days that answers are kept of: a screen may look at one beside today. */
const MOST_DAYS = 2;

/** The kinds of a client's rows that answers are made of. */
export const KINDS: readonly string[] = ['client', 'session', 'role', 'result', 'otherWork'];

type OfVersion<T> = T & { readonly version: number };
type OfDay = {
  readonly uses: Map<string, OfVersion<{ readonly uses: Uses }>>;
  readonly answers: Map<
    string,
    OfVersion<{ readonly answers: Answers; readonly pool: Pool; readonly library: string }>
  >;
};

/** Returns an empty keep over a log, which hears of its changes from here on. */
export function createKept(log: Log): Kept {
  const days = new Map<Day, OfDay>();
  const versions = new Map<string, number>();
  /** The rows a client's records were read from: what each included. */
  const marks = new Map<string, ReadonlyMap<RowKey, string>>();
  const looked = new WeakSet<Row>();
  let reading: { readonly stream: string; readonly told: Set<Row> } | undefined;

  // what is let go of again was told of before
  for (const kind of KINDS) log.watch([kindTopic(kind)], () => lookAt(kind));
  log.watch([kindTopic('erased')], forgetErased);

  const versionOf = (stream: string): number => versions.get(stream) ?? 0;
  const isErased = (stream: string): boolean => log.inside(({ memory }) => memory.isErased(stream));

  function stale(stream: string): void {
    versions.set(stream, versionOf(stream) + 1);
    marks.delete(stream);
  }

  const look = (): void => KINDS.forEach(lookAt);

  function lookAt(kind: string): void {
    // nothing rests on anything yet
    if (marks.size === 0 && !reading) return;
    if (log.inside(({ importing }) => importing)) {
      // the rows of an import may be out of memory again before they can be looked at
      for (const stream of [...marks.keys(), ...(reading ? [reading.stream] : [])]) stale(stream);
      return;
    }
    for (const row of log.ofKind(kind)) {
      if (looked.has(row)) continue;
      looked.add(row);
      if (row.stream === reading?.stream) reading.told.add(row);
      const known = marks.get(row.stream);
      if (known && known.get(keyOf(row)) !== markOf(row)) stale(row.stream);
    }
  }

  /** [M10] */
  function forgetErased(): void {
    for (const stream of [...versions.keys(), ...marks.keys()]) if (isErased(stream)) forget(stream);
  }

  function forget(stream: string): void {
    stale(stream);
    for (const day of days.values()) {
      day.uses.delete(stream);
      day.answers.delete(stream);
    }
  }

  function dayOf(asOf: Day): OfDay {
    const known = days.get(asOf);
    if (known) return known;
    const made: OfDay = { uses: new Map(), answers: new Map() };
    days.set(asOf, made);
    for (const oldest of [...days.keys()].slice(0, -MOST_DAYS)) days.delete(oldest);
    return made;
  }

  function library(): string {
    const exercises = log.ofKind('exercise').map((row) => `${keyOf(row)} ${markOf(row)}`);
    return [settings(log).firstDay, ...exercises.sort()].join('\n');
  }

  return {
    look,
    library,
    streams: () =>
      log
        .ofKind('client')
        .flatMap(({ id, stream }) => (id === stream && client(log, stream) ? [stream] : []))
        .sort(),
    uses(stream, asOf) {
      const known = days.get(asOf)?.uses.get(stream);
      return known?.version === versionOf(stream) ? known.uses : undefined;
    },
    answers(stream, asOf, pool) {
      const known = days.get(asOf)?.answers.get(stream);
      if (known?.version !== versionOf(stream) || known.library !== library()) return undefined;
      const isSame = known.pool.length === pool.length && known.pool.every((uses, n) => uses === pool[n]);
      return isSame ? known.answers : undefined;
    },
    begin(stream) {
      const read = new Map<RowKey, string>();
      const told = new Set<Row>();
      const version = versionOf(stream);
      const of = library();
      versions.set(stream, version);
      reading = { stream, told };
      const isFresh = (): boolean => {
        look();
        return versionOf(stream) === version && !isErased(stream);
      };
      return {
        note(rows) {
          for (const row of rows) if (KINDS.includes(row.kind)) read.set(keyOf(row), markOf(row));
        },
        end() {
          look();
          reading = undefined;
          const isChanged = [...told].some((row) => read.get(keyOf(row)) !== markOf(row));
          if (isChanged) stale(stream);
          else if (isFresh()) marks.set(stream, read);
        },
        keepUses(asOf, uses) {
          const day = dayOf(asOf);
          const before = day.uses.get(stream)?.uses;
          const same = before && JSON.stringify(before) === JSON.stringify(uses) ? before : uses;
          if (isFresh()) day.uses.set(stream, { uses: same, version });
          return same;
        },
        keepAnswers(asOf, answers, pool) {
          if (isFresh()) dayOf(asOf).answers.set(stream, { answers, pool, library: of, version });
        },
      };
    },
  };
}

/** What a row includes: two states of it that include the same are the same. */
const markOf = ({ seen }: Row): string =>
  Object.entries(seen)
    .map(([writer, l]) => `${writer} ${l}`)
    .sort()
    .join();
