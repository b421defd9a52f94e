import { canonical } from '../../src/merge/canonical';
import type { Row } from '../../src/merge/row';
import { isAbove } from '../laws/rows';

/*
 * What truly happened, beside what the log says: every value that was ever written is a deed, and knows which deeds its author was looking at
 * when he wrote over them. It is kept without `seen` and without merging, so it can judge both.
 */

export class Fault extends Error {
  override name = 'Fault';
}

/** Throws where something that is promised is not so. */
export function must(so: boolean, otherwise: () => string): asserts so {
  if (!so) throw new Fault(otherwise());
}

export type Deed = {
  readonly path: string;
  /** Its stamp in one text, which names it. */
  readonly name: string;
  readonly value: string;
  /** What stood at the path in its author's eyes. */
  readonly over: ReadonlySet<Deed>;
};
export type Deeds = ReadonlySet<Deed>;

/** One book a life: all devices write into it. */
export type Book = Map<string, Deed>;

const nameOf = (row: Row, path: string, stamp: { l: number; writer: string }): string =>
  `${row.stream}/${row.id} ${path} ${stamp.l} ${stamp.writer}`;

/** Returns what is known with a row as it is now: the deeds known before, and those that are new in it, written down with what their author knew. */
export function deedsIn(book: Book, row: Row, known: Deeds, isForeign = false): Deeds {
  const fresh: Deed[] = [];
  for (const [path, register] of Object.entries(row.body)) {
    for (const { value, stamp } of register) {
      const name = nameOf(row, path, stamp);
      const text = canonical(value);
      const deed = book.get(name);
      must(!deed || deed.value === text, () => `a stamp names two values: ${name} is ${deed?.value} and ${text}`);
      if (deed && known.has(deed)) continue;
      must(!deed, () => `a value came from nowhere: ${name}`);
      const over = isForeign ? new Set<Deed>() : new Set(standing(known, path));
      for (const older of over) must(isNewer(name, older.name), () => `[M3] ${name} is not above ${older.name}`);
      const made = { path, name, value: text, over };
      book.set(name, made);
      fresh.push(made);
    }
  }
  return fresh.length === 0 ? known : new Set([...known, ...fresh]);
}

function isNewer(name: string, older: string): boolean {
  const [a, b] = [stampIn(name), stampIn(older)];
  return isAbove(a, b);
}

function stampIn(name: string): { l: number; writer: string } {
  const [, , l, writer] = name.split(' ');
  return { l: Number(l), writer: writer ?? '' };
}

/** The deeds at a path that no other known deed was written over. */
function standing(known: Deeds, path: string): Deed[] {
  const here = [...known].filter((deed) => deed.path === path);
  return here.filter((deed) => !here.some((other) => other.over.has(deed)));
}

/** Throws where a row is not what those who know these deeds must see: at every path what stands and nothing else, the highest stamp first. */
export function judge(row: Row, known: Deeds, where: string): void {
  const over = new Set([...known].flatMap((deed) => [...deed.over]));
  const stands = new Map<string, Deed[]>();
  for (const deed of known) if (!over.has(deed)) stands.set(deed.path, [...(stands.get(deed.path) ?? []), deed]);
  for (const path of new Set([...stands.keys(), ...Object.keys(row.body)])) {
    const held = Object.hasOwn(row.body, path) ? (row.body[path] ?? []) : [];
    const names = held.map(({ stamp }) => nameOf(row, path, stamp));
    const wanted = (stands.get(path) ?? []).map(({ name }) => name).sort((a, b) => (isNewer(a, b) ? -1 : 1));
    must(
      names.join('\n') === wanted.join('\n'),
      () => `${where}: ${path} of ${row.stream}/${row.id} holds [${names.join(', ')}], not [${wanted.join(', ')}]`,
    );
  }
}
