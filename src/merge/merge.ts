import { fail, ok, type Result } from '../domain/result';
import { canonical, sameValue } from './canonical';
import { type Held, type Register, type Row, registerAt, type Seen } from './row';
import { compareStamps, covers, mergeSeen } from './stamp';

export type MergeFault = { readonly type: 'not-the-same-row'; readonly differs: 'id' | 'kind' | 'stream' };

/**
 * The one merge. Returns a row that includes everything both rows include; it knows no kinds, reads no values and no clock.
 *
 * - [M1] Commutative, associative, idempotent, for every two rows of one identity. Why it holds: for one (path, stamp, value) a row is
 *   in one of four states: never heard of it < holds it, unseen < holds it, seen < has seen it and let it go. Merging
 *   takes the highest, and taking the highest of a chain is all three.
 * - [M2] A value is dropped only if the other row's `seen` covers its stamp and the other row no longer holds it: the same path,
 *   stamp **and value**, since two values that came to bear one stamp are two values. `seen` merges by maximum.
 * - [M6] Values written without seeing each other are all kept, the highest stamp first, until a write settles them. Equal
 *   values under different stamps stay two in the data; folding them is for the screen.
 * - [M8] Paths and values that this version does not know are merged like any other.
 * - [M9] What is valid on each side may be invalid together. That is not decided here: nothing is refused, nothing repaired.
 *
 * Fails where id, kind or stream differ: a row's identity and kind are fixed at birth.
 */
export function mergeRows(a: Row, b: Row): Result<Row, MergeFault> {
  for (const differs of ['id', 'kind', 'stream'] as const) {
    if (a[differs] !== b[differs]) return fail({ type: 'not-the-same-row', differs });
  }
  const body: Record<string, Register> = {};
  for (const path of new Set([...Object.keys(a.body), ...Object.keys(b.body)])) {
    const register = mergeRegisters(registerAt(a, path) ?? [], a.seen, registerAt(b, path) ?? [], b.seen);
    if (register) body[path] = register;
  }
  return ok({ id: a.id, kind: a.kind, stream: a.stream, seen: mergeSeen(a.seen, b.seen), body });
}

function mergeRegisters(a: readonly Held[], seenByA: Seen, b: readonly Held[], seenByB: Seen): Register | undefined {
  if (a === b) return a as Register;
  const kept = [
    ...a.filter((held) => holds(b, held) || !covers(seenByB, held.stamp)),
    ...b.filter((held) => !holds(a, held) && !covers(seenByA, held.stamp)),
  ];
  return registerOf(kept);
}

/**
 * Returns the values as a register: each (stamp, value) once, from the highest stamp down; values under one stamp by their canonical
 * text, so that every device shows the same one. Undefined for no values.
 */
export function registerOf(held: readonly Held[]): Register | undefined {
  const once = held.filter((one, index) => !holds(held.slice(0, index), one));
  const [first, ...rest] = once.sort(
    (x, y) => compareStamps(y.stamp, x.stamp) || (canonical(x.value) < canonical(y.value) ? -1 : 1),
  );
  return first && [first, ...rest];
}

function holds(register: readonly Held[], wanted: Held): boolean {
  return register.some((held) => compareStamps(held.stamp, wanted.stamp) === 0 && sameValue(held.value, wanted.value));
}
