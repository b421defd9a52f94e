import type { SessionRecord } from '../../src/domain/session';
import { readSession } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { admitRow } from '../../src/merge/door';
import { mergeRows } from '../../src/merge/merge';
import type { Json, Row } from '../../src/merge/row';
import { shown } from '../../src/merge/shown';

/** What a backup file says, read as an import would read it. */
export type Stored = {
  readonly head: Readonly<Record<string, Json>>;
  readonly lines: readonly string[];
  readonly rows: readonly Row[];
  /** The stream of a client, by alias. */
  readonly stream: (alias: string) => string;
  /** What the rows of a kind show. */
  readonly ofKind: (kind: string) => readonly Readonly<Record<string, Json>>[];
  /** The sessions of a client in the order of their starts, each read with its continuations. */
  readonly sessions: (alias: string) => readonly SessionRecord[];
  /** The sets of a client's sessions, in order. */
  readonly sets: (alias: string) => readonly SetRecord[];
};

/** Returns what the text of a backup file says; throws where a line of it is no row. */
export function storedFrom(text: string): Stored {
  const [head = '', ...lines] = text.split('\n').filter((line) => line !== '');
  const merged = new Map<string, Row>();
  for (const line of lines) {
    const row = admitRow(JSON.parse(line));
    if (!row.ok) throw new Error(`no row: ${line}`);
    const key = `${row.value.stream}/${row.value.id}`;
    const known = merged.get(key);
    const both = known ? mergeRows(known, row.value) : row;
    if (!both.ok) throw new Error(`two rows that do not merge: ${key}`);
    merged.set(key, both.value);
  }
  const rows = [...merged.values()];
  const stream = (alias: string): string => {
    const found = rows.find((row) => row.kind === 'client' && shown(row)['alias'] === alias);
    if (!found) throw new Error(`no client ${alias} in the file`);
    return found.stream;
  };
  const sessions = (alias: string): readonly SessionRecord[] => {
    const own = rows.filter((row) => row.kind === 'session' && row.stream === stream(alias));
    return own
      .filter((row) => shown(row)['of'] === undefined)
      .flatMap((row) => {
        const parts = own.filter((part) => part === row || shown(part)['of'] === row.id);
        return (
          readSession(
            row.id,
            parts.map((part) => ({ id: part.id, values: shown(part) })),
          ) ?? []
        );
      })
      .sort((a, b) => (a.start?.at ?? 0) - (b.start?.at ?? 0));
  };
  return {
    head: JSON.parse(head),
    lines,
    rows,
    stream,
    ofKind: (kind) => rows.filter((row) => row.kind === kind).map((row) => shown(row)),
    sessions,
    sets: (alias) => sessions(alias).flatMap((session) => session.sets),
  };
}
