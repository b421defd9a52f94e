import { fail, ok } from '../domain/result';
import type { Json } from '../merge/row';
import type { Log, Saving } from './log';
import { putMeta } from './queue';

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

/**
 * Keeps something under a name, in the place of what was there. Resolves when it is in the store; or tells why it is not, and then it is not put there
 * later either: a key that was told as refused must not take the place of one that somebody has on paper.
 */
export async function keepHere(log: Log, name: string, value: Json): Saving {
  const saved = await log.inside(async (core): Saving => {
    if (core.tabs?.seat() !== 'writer') return fail({ type: 'not-the-writer' });
    const db = core.connection.database();
    return db ? putMeta(db, `kept/${name}`, value) : fail({ type: 'connection-lost' });
  });
  if (saved.ok) return saved;
  // a lost connection does not say what became of it
  const now = await keptHere(log, name);
  return JSON.stringify(now) === JSON.stringify(value) ? ok(undefined) : saved;
}
