import { signal } from '@preact/signals';
import type { Records } from '../../log/recordActs';
import type { App } from '../app';
import type { Names } from '../recordWords';

/** How much waits on the Records page, and what it was gathered after: the import that came last (its place among the acts), and the app's build. */
export type Waiting = {
  readonly beside: number;
  readonly both: number;
  readonly mending: number;
  readonly after: number | null;
  readonly build: string;
};

/** What was gathered in this launch last. */
export const waiting = signal<Waiting | undefined>(undefined);

const NOTE = 'records-waiting';

/**
 * Returns how much waits as it was gathered last, in whatever launch; undefined where nobody has looked since rows came in from outside, or this
 * build of the app came: own acts on this device leave nothing to settle, so a start need not go through the log again.
 */
export function gatheredLast(app: App): Waiting | undefined {
  const known = waiting.value ?? noted(app);
  return known?.after === lastImport(app) && known.build === app.update.build ? known : undefined;
}

/** Goes through the log, notes how much waits, and returns what was found; undefined where the store could not be read. */
export async function gather(app: App): Promise<Records | undefined> {
  const after = lastImport(app);
  const found = await app.acts.gatherRecords(app.log, app.world.now());
  if (!found) return undefined;
  const { beside, both, mending } = found;
  waiting.value = {
    beside: beside.count,
    both: both.count,
    mending: mending.count,
    after,
    build: app.update.build,
  };
  // the notes are the device's own, and outlive the demo
  if (!app.demo.shown) app.notes.set(NOTE, JSON.stringify(waiting.value));
  return found;
}

/** The import that came last, by its place among the acts that can be taken back; `null` for none. */
function lastImport({ log }: App): number | null {
  return log.inside((core) => core.undo.findLast((entry) => entry.act.type === 'import')?.n ?? null);
}

function noted({ notes, demo }: App): Waiting | undefined {
  if (demo.shown) return undefined;
  try {
    const read = JSON.parse(notes.get(NOTE) ?? '') as Waiting;
    return [read.beside, read.both, read.mending].every(Number.isInteger) ? read : undefined;
  } catch {
    return undefined;
  }
}

/** Returns what the words need to know of clients and exercises. */
export const namesIn = ({ log, views }: Pick<App, 'log' | 'views'>): Names => ({
  client: (stream) => views.client(log, stream)?.alias,
  exercise: (id) => views.exercise(log, id),
});
