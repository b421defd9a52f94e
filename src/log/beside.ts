import type { Held, Json, Row, RowName } from '../merge/row';
import { beside } from '../merge/shown';
import { keyOf } from './keys';
import type { Log, Saving } from './log';

/* [M6] Values that were written without seeing each other. Pure readings of rows; `scanRows` has them all. */

/** A path where several values stand: the one shown, and those beside it, the highest stamp first, equal ones folded. */
export type Beside = {
  readonly name: RowName;
  readonly path: string;
  readonly shown: Held;
  readonly others: readonly Held[];
};

/** Returns every path of a row where values stand beside each other. Removals made apart are one removal, and no question [M5]. */
export function besideIn(row: Row): readonly Beside[] {
  const { stream, id, kind } = row;
  return Object.entries(row.body).flatMap(([path, [shown]]) => {
    const others = path === 'removed' || path.endsWith('/removed') ? [] : beside(row, path);
    return others.length > 0 ? [{ name: { stream, id, kind }, path, shown, others }] : [];
  });
}

/** Settles what stands beside each other: the value chosen is written, by one who has seen them all. */
export function settle(log: Log, { name, path }: Pick<Beside, 'name' | 'path'>, value: Json): Saving {
  if (!log.get(keyOf(name))) throw new Error(`row ${keyOf(name)} is not in memory`);
  return log.commit({ act: { type: 'settle', stream: name.stream }, rows: [{ name, changes: { [path]: value } }] });
}
