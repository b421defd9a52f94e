import type { Row, RowName } from '../merge/row';

/** A row's identity in one text: `stream/id`. */
export type RowKey = string;

export const keyOf = (row: Pick<RowName, 'stream' | 'id'>): RowKey => `${row.stream}/${row.id}`;

/** Returns the stream and id of a key; neither may hold a slash. */
export function nameOf(key: RowKey): [stream: string, id: string] {
  const slash = key.indexOf('/');
  return [key.slice(0, slash), key.slice(slash + 1)];
}

/** The stores that hold rows. Small things are read whole at start; sessions and results, which grow for ever, only when asked for. */
export const ROW_STORES = ['rows', 'sessions', 'results'] as const;
export type RowStore = (typeof ROW_STORES)[number];

/** Returns the store a kind lives in; an unknown kind is a small thing. */
export function storeOf(kind: Row['kind']): RowStore {
  if (kind === 'session') return 'sessions';
  return kind === 'result' || kind === 'otherWork' ? 'results' : 'rows';
}
