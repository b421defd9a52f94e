import { type Answers, answersInSteps } from '../analysis/answers';
import type { CueUses } from '../analysis/cueUses';
import { usesOf } from '../analysis/others';
import { type ClientRecord, knownBy, readStudio, type ShownRow, type Studio } from '../analysis/studio';
import type { Day } from '../domain/day';

/*
 * Who works out the answers: handed the library once, and then the rows of one client at a time, so that never two clients' records are held at once. The same
 * in a worker and in a page.
 */

/** What an analyst is given; it answers nothing to it. */
export type Handed =
  | { readonly type: 'library'; readonly rows: readonly ShownRow[] }
  /** The client that rows and questions are about from here on; whoever was before is let go. */
  | { readonly type: 'client' }
  | { readonly type: 'rows'; readonly rows: readonly ShownRow[] }
  /** Nobody any more. */
  | { readonly type: 'let-go' };

/** What an analyst is asked of the client whose rows it has. */
export type Question =
  /** How often each cue was used and worked: what other clients' cues are pooled with. */
  | { readonly type: 'uses'; readonly asOf: Day }
  | { readonly type: 'answers'; readonly asOf: Day; readonly pool: readonly (readonly CueUses[])[] };

/** `nobody`: the rows tell of no client. */
export type Reply =
  | { readonly type: 'uses'; readonly uses: readonly CueUses[] }
  | { readonly type: 'answers'; readonly uses: readonly CueUses[]; readonly answers: Answers }
  | { readonly type: 'nobody' };

export type Analyst = {
  readonly take: (handed: Handed) => void;
  /** Works out a reply in steps, with room between them. */
  readonly reply: (question: Question) => Generator<undefined, Reply>;
};

/** Sessions read in one step. */
const STEP = 50;

/** Returns an analyst who knows nothing yet. */
export function createAnalyst(): Analyst {
  let library: readonly ShownRow[] = [];
  let studio: Pick<Studio, 'exercises' | 'firstDay'> | undefined;
  let rows: ShownRow[] = [];
  let record: ClientRecord | undefined;

  function* read(): Generator<undefined, ClientRecord | undefined> {
    if (record) return record;
    // rows come from memory and from the store, in no order to rely on
    const own = rows.toSorted((a, b) => (a.id < b.id ? -1 : 1));
    rows = [];
    const [client] = readStudio(own.filter(({ kind }) => kind !== 'session')).clients;
    const self = own.find(({ kind, id, stream }) => kind === 'client' && id === stream);
    if (!client || !self) return undefined;
    const sessions = [];
    for (const some of slicesOf(own.filter(({ kind }) => kind === 'session'))) {
      sessions.push(...(readStudio([self, ...some]).clients[0]?.sessions ?? []));
      yield;
    }
    record = { ...client, sessions };
    return record;
  }

  return {
    take(handed) {
      // nothing is read yet, so that nothing can go wrong before a question is asked
      if (handed.type === 'library') {
        library = handed.rows;
        studio = undefined;
      } else if (handed.type === 'rows') rows.push(...handed.rows);
      else {
        rows = [];
        record = undefined;
      }
    },
    *reply(question) {
      const found = yield* read();
      if (!found) return { type: 'nobody' };
      const client = knownBy(found, question.asOf);
      yield;
      const uses = usesOf(client);
      if (question.type === 'uses') return { type: 'uses', uses };
      yield;
      studio ??= readStudio(library);
      return { type: 'answers', uses, answers: yield* answersInSteps(client, question.pool, studio, question.asOf) };
    },
  };
}

/** Some sessions at a time, each with its continuations: these are read together. */
function slicesOf(rows: readonly ShownRow[]): readonly (readonly ShownRow[])[] {
  const sessions = new Map<string, ShownRow[]>();
  for (const row of rows) {
    const of = row.values['of'];
    const id = typeof of === 'string' ? of : row.id;
    const own = sessions.get(id);
    if (own) own.push(row);
    else sessions.set(id, [row]);
  }
  const all = [...sessions.values()];
  return Array.from({ length: Math.ceil(all.length / STEP) }, (_, n) => all.slice(n * STEP, (n + 1) * STEP).flat());
}
