import { sameValue } from './canonical';
import { standing } from './removal';
import { type Held, type Json, type Row, registerAt } from './row';

/**
 * Returns what a row says now: for every path the value with the highest stamp [M3], without what is removed [M5]. An empty object
 * where the row itself is removed. Cleared values stay as `null`.
 */
export function shown(row: Row): Readonly<Record<string, Json>> {
  if (standing(row, '') === 'removed') return {};
  const removed = removedThings(row);
  const values: Record<string, Json> = {};
  for (const [path, register] of Object.entries(row.body)) {
    if (!isUnder(path, removed)) values[path] = register[0].value;
  }
  return values;
}

/** Returns the things inside a row that are removed [M5], as the paths they stand under. */
export function removedThings(row: Row): ReadonlySet<string> {
  const things = Object.keys(row.body).flatMap((path) =>
    path.endsWith('/removed') ? [path.slice(0, -'/removed'.length)] : [],
  );
  return new Set(things.filter((thing) => standing(row, thing) === 'removed'));
}

/**
 * [M6] Returns the values that stand beside the winner of a path, the highest stamp first, equal ones folded into one and those equal
 * to the winner left out: what a screen shows beside it. The data keep them all until a write settles them.
 */
export function beside(row: Row, path: string): readonly Held[] {
  const folded: Held[] = [];
  const [winner, ...others] = registerAt(row, path) ?? [];
  for (const held of others) {
    if (winner && ![winner, ...folded].some((kept) => sameValue(kept.value, held.value))) folded.push(held);
  }
  return folded;
}

function isUnder(path: string, things: ReadonlySet<string>): boolean {
  if (things.size === 0) return false;
  for (let slash = path.indexOf('/'); slash !== -1; slash = path.indexOf('/', slash + 1)) {
    if (things.has(path.slice(0, slash))) return true;
  }
  return false;
}
