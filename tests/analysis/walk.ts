/* What a screen or a file must never be handed. */

/** Returns where in a value something stands that JSON cannot say: NaN, Infinity, or a name with undefined behind it. */
export function unsayable(value: unknown, path = ''): readonly string[] {
  if (value === undefined) return [`${path}: undefined`];
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path}: ${value}`];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, inner]) => unsayable(inner, `${path}/${name}`));
}

/** Returns a value, frozen with all that is in it. */
export function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    for (const inner of Object.values(value)) frozen(inner);
    Object.freeze(value);
  }
  return value;
}
