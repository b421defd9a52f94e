import type { Held, Json, Row, Seen, Stamp } from './row';
import { compareStamps, covers, mergeSeen, seenOf as seenBy } from './stamp';

/*
 * [M5] Removing is a write like any other: `<thing>/removed` gets a value that carries the `seen` it was made with. The thing, that
 * is everything under its path, is removed while that register shows it and every other stamp in the thing is covered by
 * that `seen`. What the remover had not seen keeps the thing alive. Values stay: a removal can be taken back.
 */

/** How a thing stands: there; removed; or removed by one and written to by another who had not seen it (the screen says both). */
export type Standing = 'there' | 'removed' | 'removed-and-written';

const LAST = 'removed';

/** Returns the path of a thing's removal register; the thing `''` is the whole row. */
export const removalPath = (thing: string): string => (thing === '' ? LAST : `${thing}/${LAST}`);

/**
 * Returns the change that removes a thing from a row as it stands. The remover has seen what the row's `seen` says, and all that it holds: of a
 * copy that something was left out of, the row holds values that its `seen` does not cover.
 */
export function removing(row: Row, thing: string): Record<string, Json> {
  const seen: Record<string, number> = { ...row.seen };
  for (const { l, writer } of stampsIn(row, thing, removalPath(thing)))
    seen[writer] = Math.max(seenBy(seen, writer), l);
  return { [removalPath(thing)]: { removed: true, seen } };
}

/** Returns the change that takes a removal back. */
export function restoring(thing: string): Record<string, Json> {
  return { [removalPath(thing)]: null };
}

/** Returns how a thing stands [M5]. Of several removals made apart, the union of what they had seen counts. */
export function standing(row: Row, thing: string): Standing {
  const register = row.body[removalPath(thing)];
  if (!register || !seenOf(register[0])) return 'there';
  return lastUnseenBy(row, thing) ? 'removed-and-written' : 'removed';
}

/** Returns the highest stamp in a thing that those who removed it had not seen; undefined where it is not removed, or they had seen all. */
export function lastUnseenBy(row: Row, thing: string): Stamp | undefined {
  const own = removalPath(thing);
  const register = row.body[own];
  if (!register || !seenOf(register[0])) return undefined;
  const seen = register.reduce<Seen>((all, held) => mergeSeen(all, seenOf(held) ?? {}), {});
  const unseen = stampsIn(row, thing, own).filter((stamp) => !covers(seen, stamp));
  return unseen.reduce<Stamp | undefined>(
    (last, one) => (last && compareStamps(last, one) > 0 ? last : one),
    undefined,
  );
}

/** Returns every thing of a row whose removal was ever written, taken back since or not; `''` is the row. */
export const removedIn = (row: Row): readonly string[] =>
  Object.keys(row.body).flatMap((path) => {
    if (path === LAST) return [''];
    return path.endsWith(`/${LAST}`) ? [path.slice(0, -LAST.length - 1)] : [];
  });

/** The `seen` a removal was made with, or undefined where the value is no removal. */
function seenOf(held: Held): Seen | undefined {
  const { value } = held;
  if (value === null || typeof value !== 'object' || !('removed' in value) || value.removed !== true) return undefined;
  const seen: Json = value.seen ?? {};
  if (seen === null || typeof seen !== 'object') return {};
  return Object.fromEntries(
    Object.entries(seen).filter((entry): entry is [string, number] => typeof entry[1] === 'number'),
  );
}

function stampsIn(row: Row, thing: string, own: string): Stamp[] {
  const prefix = thing === '' ? '' : `${thing}/`;
  return Object.entries(row.body)
    .filter(([path]) => path.startsWith(prefix) && path !== own)
    .flatMap(([, register]) => register.map((held) => held.stamp));
}
