import { type PrivateTopic, privateTopics } from '../domain/private';
import type { Json, Register, Row, Seen } from '../merge/row';

/*
 * A handover: one client's stream for another trainer, with the library rows it names, and without what is private and was not ticked.
 *
 * What is left out is *not known* to the copy, which is another thing than let go. [M2] drops a value where the other row's `seen` covers its
 * stamp and the other row does not hold it; so a copy that left a value out and kept its `seen` would erase it when it is handed back. The
 * copy's `seen` is therefore lowered, for each writer, to just below the lowest stamp of his that was left out. It then is a row that has heard
 * of less: merged into the whole one it changes nothing, and whatever is written on top of it is merged by the same laws.
 *
 * The price: of the writer in whose launch something private was noted, the copy holds what came later without having "seen" it. An edit of
 * such a value comes back beside the old one [M6], shown first [M3]: kept too much, never too little.
 */

/** Kinds of `main` that are library: what a client's rows may name. */
export const LIBRARY_KINDS: ReadonlySet<string> = new Set([
  'exercise',
  'cue',
  'fault',
  'kit',
  'template',
  'progression',
]);

/** Returns whether a row rules over a whole log (settings, erased clients, whatever a newer app keeps there): of a stranger none is taken. */
export const isRuling = (row: Pick<Row, 'stream' | 'kind'>): boolean =>
  row.stream === 'main' && !LIBRARY_KINDS.has(row.kind);

export type Handover = {
  readonly rows: readonly Row[];
  /** Topics that something was left out of. */
  readonly withheld: readonly PrivateTopic[];
  /** How many values were left out. */
  readonly leftOut: number;
};

/**
 * Returns what is handed over of a client: the stream's rows as copies without what is private but for the ticked topics, and the library
 * rows they name, with those that these name.
 */
export function handoverOf(
  stream: string,
  own: Iterable<Row>,
  main: Iterable<Row>,
  ticked: ReadonlySet<PrivateTopic>,
): Handover {
  const withheld = new Set<PrivateTopic>();
  let leftOut = 0;
  const copies = [...own]
    .filter((row) => row.stream === stream)
    .map((row) =>
      withoutValues(row, (path, value) => {
        // where a set went is another client's business: it names their record
        if (path.endsWith('/movedTo') && isElsewhere(value, stream)) return true;
        const missing = privateTopics(row.kind, path, value).filter((topic) => !ticked.has(topic));
        for (const topic of missing) withheld.add(topic);
        leftOut += missing.length > 0 ? 1 : 0;
        return missing.length > 0;
      }),
    );
  return { rows: [...copies, ...libraryOf(copies, main)], withheld: [...withheld].sort(), leftOut };
}

const isElsewhere = (value: Json, stream: string): boolean =>
  typeof value === 'object' && value !== null && 'stream' in value && value.stream !== stream;

/**
 * Returns a copy of a row that has never heard of the values `isLeftOut` names: they are absent (not `null`), and nothing in `seen` covers them.
 * A register goes as a whole: what stood beside a private value is the same thing, said by another device.
 */
export function withoutValues(row: Row, isLeftOut: (path: string, value: Json) => boolean): Row {
  const body: Record<string, Register> = {};
  const left: Register[] = [];
  for (const [path, register] of Object.entries(row.body)) {
    if (register.some(({ value }) => isLeftOut(path, value))) left.push(register);
    else body[path] = register;
  }
  return left.length === 0 ? row : { ...row, seen: below(row.seen, left), body };
}

/** For each writer the highest `l` that covers nothing of what was left out. */
function below(seen: Seen, left: readonly Register[]): Seen {
  const lowered = new Map(Object.entries(seen));
  for (const { stamp } of left.flat()) {
    if ((lowered.get(stamp.writer) ?? 0) >= stamp.l) lowered.set(stamp.writer, stamp.l - 1);
  }
  return Object.fromEntries([...lowered].filter(([, l]) => l > 0));
}

/** Returns the library rows of `main` that rows name anywhere, by a value or in a path, and those that these name in turn. */
export function libraryOf(rows: readonly Row[], main: Iterable<Row>): readonly Row[] {
  const library = new Map<string, Row>();
  for (const row of main) {
    if (row.stream === 'main' && LIBRARY_KINDS.has(row.kind)) library.set(row.id, row);
  }
  const named = new Map<string, Row>();
  for (let open: readonly Row[] = rows; open.length > 0; ) {
    const found: Row[] = [];
    for (const text of open.flatMap(textsIn)) {
      const row = library.get(text);
      if (row && !named.has(text)) {
        named.set(text, row);
        found.push(row);
      }
    }
    open = found;
  }
  return [...named.values()];
}

/** Every text that may be an id: the segments of paths, and the texts in values, those that lost included. */
function textsIn(row: Row): string[] {
  return Object.entries(row.body).flatMap(([path, register]) => [
    ...path.split('/'),
    ...register.flatMap(({ value }) => textsOf(value)),
  ]);
}

function textsOf(value: Json): string[] {
  if (typeof value === 'string') return [value];
  if (value === null || typeof value !== 'object') return [];
  return Object.values(value).flatMap(textsOf);
}
