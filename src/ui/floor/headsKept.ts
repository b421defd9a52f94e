import type { OtherFinding } from '../../analysis/otherFindings';
import { weekOf } from '../../analysis/weeks';
import type { Day } from '../../domain/day';
import type { App } from '../app';

/*
 * What presses most of each client, of all that the methods beside the trend engine found, kept on this device from start to start. A client's records are
 * read again for it only after something was done with them, in another week, or by another version of the app: a start must not go through the whole log.
 */

export type HeadsKept = {
  /** What was found last; null for nothing that presses, undefined where it was not looked for this week. */
  readonly top: (stream: string, day: Day) => OtherFinding | null | undefined;
  /** Returns whether it is to be looked for again. */
  readonly isDue: (stream: string, day: Day) => boolean;
  /** Returns what the records are like now: handed back with what is found in them. */
  readonly mark: (stream: string, day: Day) => string;
  readonly keep: (stream: string, mark: string, top: OtherFinding | null) => void;
};

const PLACE = 'heads';

type Stored = Readonly<Record<string, { readonly mark: string; readonly top: OtherFinding | null }>>;

/** Returns what this device keeps for the log that is shown. */
export function headsKept({ log, kept, views, update }: App): HeadsKept {
  let held = read(kept.get(PLACE), update.build);

  const weekIn = (day: Day): Day => weekOf(day, views.settings(log).firstDay);

  function mark(stream: string, day: Day): string {
    // what was done last with this client, or with what is everybody's
    const last = log.inside(({ undo }) =>
      undo.findLast(({ rows }) => rows.some(({ name: row }) => row.stream === stream || row.stream === 'main')),
    );
    return [weekIn(day), last?.n ?? 0, last?.at ?? 0].join(' ');
  }

  function put(next: Stored): void {
    held = next;
    kept.set(PLACE, JSON.stringify({ build: update.build, clients: held }));
  }

  // of a client who is gone nothing is kept here either [M10]
  const clients = new Set(views.clients(log).map(({ id }) => id));
  if (Object.keys(held).some((id) => !clients.has(id)))
    put(Object.fromEntries(Object.entries(held).filter(([id]) => clients.has(id))));

  return {
    top: (stream, day) => (held[stream]?.mark.startsWith(`${weekIn(day)} `) ? held[stream].top : undefined),
    isDue: (stream, day) => held[stream]?.mark !== mark(stream, day),
    mark,
    keep: (stream, of, top) => put({ ...held, [stream]: { mark: of, top } }),
  };
}

/** What another build kept may be of another shape. */
function read(text: string | undefined, build: string): Stored {
  try {
    const stored = JSON.parse(text ?? '') as { readonly build?: unknown; readonly clients?: Stored };
    return stored.build === build ? (stored.clients ?? {}) : {};
  } catch {
    return {};
  }
}
