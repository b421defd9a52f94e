import { signal } from '@preact/signals';
import type { Records } from '../../log/recordActs';
import type { App } from '../app';
import type { Names } from '../recordWords';

/** How much waits on the Records page, as it was last gathered; undefined where nobody has looked yet. */
export const waiting = signal<{ beside: number; both: number; mending: number } | undefined>(undefined);

/** Goes through the log, notes how much waits, and returns what was found; undefined where the store could not be read. */
export async function gather({ log, acts, world }: App): Promise<Records | undefined> {
  const found = await acts.gatherRecords(log, world.now());
  if (found) waiting.value = { beside: found.beside.count, both: found.both.count, mending: found.mending.count };
  return found;
}

/** Returns what the words need to know of clients and exercises. */
export const namesIn = ({ log, views }: Pick<App, 'log' | 'views'>): Names => ({
  client: (stream) => views.client(log, stream)?.alias,
  exercise: (id) => views.exercise(log, id),
});
