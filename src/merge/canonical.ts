import type { Json, Row } from './row';

/**
 * Returns the one text of a JSON value: members sorted by code units, no spaces, numbers and strings as ECMAScript writes them.
 * RFC 8785 (JSON Canonicalization Scheme). Throws for what JSON cannot say (NaN, infinities): such a value is a bug, not data.
 */
export function canonical(value: Json): string {
  if (value === null || typeof value !== 'object') {
    if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`not a JSON number: ${value}`);
    return JSON.stringify(value);
  }
  if (isList(value)) return `[${value.map(canonical).join(',')}]`;
  const members = Object.keys(value).sort();
  return `{${members.map((name) => `${JSON.stringify(name)}:${canonical(value[name] ?? null)}`).join(',')}}`;
}

/** Returns the one text of a row: equal exactly where two devices hold the same. */
export function canonicalRow(row: Row): string {
  return canonical(row as unknown as Json);
}

/** Returns whether two values are the same JSON. */
export function sameValue(a: Json, b: Json): boolean {
  if (a === b) return true;
  // most values are plain: only two containers need their texts compared
  return typeof a === 'object' && typeof b === 'object' && canonical(a) === canonical(b);
}

/** `Array.isArray` does not narrow a read-only list. */
function isList(value: Json): value is readonly Json[] {
  return Array.isArray(value);
}
