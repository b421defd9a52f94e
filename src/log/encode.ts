import { fail, type Result } from '../domain/result';
import { admitRow, type DoorFault } from '../merge/door';
import type { Json, Register, Row } from '../merge/row';

/*
 * How a row lies in the store. The same five fields, with every stamp packed: a writer's name is long and stands at every register,
 * so it is written once, in `seen`, and registers name its place there. Stores and the second copy use this; bundles and exports
 * use the row itself.
 */

export type StoredRow = {
  readonly id: string;
  readonly kind: string;
  readonly stream: string;
  /** `[writer, l]` each. */
  readonly seen: readonly (readonly [string, number])[];
  /** Per path one flat list of `l, writer, value`, the winner first. A writer that `seen` lacks stands there by name. */
  readonly body: Readonly<Record<string, readonly Json[]>>;
};

/** Returns the row as it is stored. */
export function packRow(row: Row): StoredRow {
  const seen = Object.entries(row.seen);
  const places = new Map(seen.map(([writer], place) => [writer, place]));
  const body: Record<string, readonly Json[]> = {};
  for (const [path, register] of Object.entries(row.body)) body[path] = packRegister(register, places);
  return { id: row.id, kind: row.kind, stream: row.stream, seen, body };
}

/** A register never changes, and at a tap all but a few are those of the tap before: each is packed once for the places it names. */
const packedOnce = new WeakMap<Register, readonly Json[]>();

function packRegister(register: Register, places: ReadonlyMap<string, number>): readonly Json[] {
  const known = packedOnce.get(register);
  if (known && register.every(({ stamp }, n) => known[3 * n + 1] === (places.get(stamp.writer) ?? stamp.writer)))
    return known;
  const packed: Json[] = [];
  for (const { value, stamp } of register) packed.push(stamp.l, places.get(stamp.writer) ?? stamp.writer, value);
  packedOnce.set(register, packed);
  return packed;
}

/** Returns the row that was stored, or why what lies there is none. */
export function unpackRow(stored: unknown): Result<Row, DoorFault> {
  if (!isStored(stored)) return fail({ type: 'not-a-row', why: 'shape' });
  const writers = stored.seen.map(([writer]) => writer);
  const body: Record<string, unknown> = {};
  for (const [path, packed] of Object.entries(stored.body)) body[path] = unpackRegister(packed, writers);
  return admitRow({ ...stored, seen: Object.fromEntries(stored.seen), body });
}

function unpackRegister(packed: readonly Json[], writers: readonly string[]): unknown {
  // a torn list unpacks to something the door refuses
  if (packed.length % 3 !== 0) return null;
  const register: unknown[] = [];
  for (let i = 0; i < packed.length; i += 3) {
    const writer = packed[i + 1];
    register.push({
      value: packed[i + 2],
      stamp: { l: packed[i], writer: typeof writer === 'number' ? writers[writer] : writer },
    });
  }
  return register;
}

function isStored(stored: unknown): stored is StoredRow {
  if (typeof stored !== 'object' || stored === null || !('seen' in stored) || !('body' in stored)) return false;
  const { seen, body } = stored;
  if (!Array.isArray(seen) || !seen.every((entry) => Array.isArray(entry) && entry.length === 2)) return false;
  return typeof body === 'object' && body !== null && Object.values(body).every(Array.isArray);
}
