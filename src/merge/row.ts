/*
 * A row is the unit of storage, merge and sync, and this is the whole of it. It knows no kinds: what a path means is domain's.
 *
 * A body is a flat map from path to register (`sets/7f3k/reps`). "Not noted" is no register, or a `null` that was written to
 * clear it. A register is never dropped but by a write to the same path, so what a version does not know survives it [M8].
 */

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** Who wrote: a device part and a part that is new at every launch, so a phone restored from a copy is another writer. */
export type Writer = string;

/** When something was written, in the order that counts: by `l`, then by writer. Not a time, though `l` follows the clock. */
export type Stamp = { readonly l: number; readonly writer: Writer };

/** For each writer, the highest `l` of its writes that are included. */
export type Seen = Readonly<Record<Writer, number>>;

export type Held = { readonly value: Json; readonly stamp: Stamp };

/**
 * What stands at one path: the winner first, then what was written without seeing it [M6], by stamp from high to low.
 * [M3] The value shown is the first.
 */
export type Register = readonly [Held, ...Held[]];

export type Body = Readonly<Record<string, Register>>;

export type Row = {
  readonly id: string;
  readonly kind: string;
  /** `main`, or the client this row is about. A row's identity is (stream, id). */
  readonly stream: string;
  readonly seen: Seen;
  readonly body: Body;
};

export type RowName = Pick<Row, 'id' | 'kind' | 'stream'>;

/** Returns a row in which nothing is noted. */
export const emptyRow = ({ id, kind, stream }: RowName): Row => ({ id, kind, stream, seen: {}, body: {} });

/** Returns what stands at a path, or undefined. By own names only: a newer app may well name a path `constructor` [M8]. */
export const registerAt = (row: Row, path: string): Register | undefined =>
  Object.hasOwn(row.body, path) ? row.body[path] : undefined;

/** Returns the value shown at a path [M3], or undefined where nothing was ever noted. */
export const valueAt = (row: Row, path: string): Json | undefined => registerAt(row, path)?.[0].value;
