/** A session as far as its likeness to others goes. */
export type Likeness = { readonly session: string; readonly exercises?: readonly string[] };

/**
 * Returns the session to do again: one of two or more alike among the latest (newest first), where alike means the same exercises in whatever order.
 * With two kinds in turn it is the one whose turn it is, the kind that was not done last. Undefined where no two are alike.
 */
export function usualOf<T extends Likeness>(latest: readonly T[]): T | undefined {
  const kinds = new Map<string, T[]>();
  for (const one of latest) {
    const held = [...new Set(one.exercises ?? [])].sort();
    if (held.length === 0) continue;
    const key = held.join('\n');
    kinds.set(key, [...(kinds.get(key) ?? []), one]);
  }
  // in the order of their latest session, the newest first
  const usual = [...kinds.values()].filter((alike) => alike.length >= 2);
  const [last, other] = usual;
  return (other && last?.[0] === latest[0] ? other : last)?.[0];
}
