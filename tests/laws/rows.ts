import * as fc from 'fast-check';
import type { Held, Json, Register, Row, Stamp } from '../../src/merge/row';

/*
 * Rows that no history need have made: values held and not in `seen`, `seen` of writers that hold nothing, two values under one
 * stamp. Whatever the door lets in may look like this, and the laws of merging hold for every row.
 */

const WRITERS = ['a-1', 'b-1', 'constructor'] as const;
const PATHS = ['reps', 'sets/s1/load', 'toString'] as const;
const VALUES: readonly Json[] = [1, 2, null, { unit: 'lb', value: 45 }];
const HIGHEST = 3;

/** Few stamps and values, so that rows meet often. */
const UNIVERSE: readonly Held[] = WRITERS.flatMap((writer) =>
  Array.from({ length: HIGHEST }, (_, l) => VALUES.map((value) => ({ value, stamp: { l: l + 1, writer } }))).flat(),
);

const register: fc.Arbitrary<readonly number[]> = fc.array(fc.nat(UNIVERSE.length - 1), { maxLength: 3 });
const seen = fc.tuple(...WRITERS.map(() => fc.nat(HIGHEST)));

/** Any row of one identity, its registers in their one order. */
export const anyRow: fc.Arbitrary<Row> = fc.tuple(fc.tuple(...PATHS.map(() => register)), seen).map(([held, ls]) => {
  const body: Record<string, Register> = {};
  for (const [index, path] of PATHS.entries()) {
    const [first, ...rest] = ordered([...new Set(held[index])].map((place) => UNIVERSE[place]!));
    if (first) body[path] = [first, ...rest];
  }
  const entries = WRITERS.flatMap((writer, index) => (ls[index]! > 0 ? [[writer, ls[index]!] as const] : []));
  return { id: 'r1', kind: 'session', stream: 'c1', seen: Object.fromEntries(entries), body };
});

/** Returns whether `a` stands above `b` in the law's order: L, then writer by code unit. */
export function isAbove(a: Stamp, b: Stamp): boolean {
  return a.l > b.l || (a.l === b.l && a.writer > b.writer);
}

/** Returns every value of a row as one text each: its path, stamp and value. */
export function facts(row: Row): Set<string> {
  return new Set(Object.entries(row.body).flatMap(([path, register]) => register.map((held) => fact(path, held))));
}

/** The pool's values are written with their members in order, so their plain text is their one text. */
export function fact(path: string, { stamp, value }: Held): string {
  return `${path} ${stamp.l} ${stamp.writer} ${JSON.stringify(value)}`;
}

export const covered = (row: Row, { l, writer }: Stamp): boolean =>
  Object.entries(row.seen).some(([by, highest]) => by === writer && highest >= l);

function ordered(held: readonly Held[]): Held[] {
  return [...held].sort((x, y) => {
    if (isAbove(x.stamp, y.stamp)) return -1;
    if (isAbove(y.stamp, x.stamp)) return 1;
    return JSON.stringify(x.value) < JSON.stringify(y.value) ? -1 : 1;
  });
}
