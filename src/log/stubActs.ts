import { MOST_ALIAS } from '../domain/client';
import { instantAt } from '../domain/day';
import { newId } from '../domain/ids';
import type { World } from '../domain/world';
import { removing } from '../merge/removal';
import type { Row } from '../merge/row';
import { keyOf } from './keys';
import type { Log, Saving } from './log';
import { shownOf } from './views';

/*
 * What stays of a client who was handed over and then erased here: what they were called, to whom, and when. It is a row of `main` that nobody erases
 * with the client, and holds nothing else of them.
 */

const STUB = 'stub';

export type Stub = {
  readonly id: string;
  readonly alias: string;
  readonly to: string;
  readonly day: string;
};

/** Keeps a stub of a client. Throws for more text than a stub holds: the page refuses that where it is typed. */
export function keepStub(log: Log, alias: string, to: string, world: World): Saving {
  if (to.length > MOST_ALIAS) throw new Error(`a stub of ${to.length} characters`);
  const name = { stream: 'main', id: newId(world.random, 16), kind: STUB };
  const changes = { alias, to, at: instantAt(world.now(), world.zone()) };
  return log.commit({ act: { type: 'keep-stub' }, rows: [{ name, changes, fresh: true }] });
}

/** Returns the stubs that are kept, the latest first. */
export const stubs = (log: Pick<Log, 'ofKind'>): readonly Stub[] =>
  log
    .ofKind(STUB)
    .flatMap((row) => stubOf(row) ?? [])
    .sort((a, b) => (a.day > b.day || (a.day === b.day && a.id < b.id) ? -1 : 1));

function stubOf(row: Row): Stub | undefined {
  // of one that was removed nothing is shown
  const { alias, to, at } = shownOf(row);
  const day = typeof at === 'object' && at !== null && 'day' in at ? at.day : undefined;
  if (typeof alias !== 'string' || typeof to !== 'string' || typeof day !== 'string') return undefined;
  return { id: row.id, alias, to, day };
}

/** Removes a stub [M5]. */
export function removeStub(log: Log, id: string): Saving {
  const row = log.get(keyOf({ stream: 'main', id }));
  if (!row) throw new Error(`stub ${id} is not in memory`);
  return log.commit({ act: { type: 'remove-stub' }, rows: [{ name: row, changes: removing(row, '') }] });
}
