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

/** Returns the key range of everything in a stream, in the stores of rows and series. */
export const streamRange = (stream: string): IDBKeyRange => IDBKeyRange.bound([stream], [stream, []]);

/** Returns the key in `meta` of a row that was refused for its kind and is kept aside. */
export const asideKey = (row: RowName): string => `aside/${keyOf(row)}/${row.kind}`;

/** Returns the key range in `meta` of what is kept aside of a stream; of every stream where none is named. */
export const asideRange = (stream?: string): IDBKeyRange => {
  const from = stream === undefined ? 'aside/' : `aside/${stream}/`;
  return IDBKeyRange.bound(from, `${from}\uffff`);
};

/** The key of a series row in memory and in the queue: `stream/exercise`. */
export const seriesKey = (stream: string, exercise: string): string => `${stream}/${exercise}`;
