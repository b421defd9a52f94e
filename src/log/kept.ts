import type { Json } from '../merge/row';
import type { Log, Saving } from './log';

/*
 * What this device keeps in its database and is no row: its keys, and what it has sealed. It is this device's alone: no bundle and no export
 * carries it, and no other device merges it.
 */

/** Returns what is kept under a name; undefined for nothing, `unread` where the store could not be read. */
export async function keptHere(log: Log, name: string): Promise<Json | undefined | 'unread'> {
  const read = await log.inside((core) =>
    core.connection.read(async (db) => ({ value: await db.get('meta', `kept/${name}`) })),
  );
  return read ? (read.value as Json | undefined) : 'unread';
}

/** Keeps something under a name, in the place of what was there. Resolves when it is in the store. */
export const keepHere = (log: Log, name: string, value: Json): Saving =>
  log.inside((core) => core.queue.push({ meta: new Map([[`kept/${name}`, value]]) }));
