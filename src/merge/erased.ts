import type { Row, RowName } from './row';

/*
 * [M10] Erasing a client is absorbing: one row of kind `erased` in `main`, its id the client's stream, beats every row of that stream, and every
 * later edit and bundle. Its being there is all that it says: the body is empty, so that it is the same on every device, whoever erased first,
 * and nothing written into it takes it back.
 */

/** Returns the row that says that a stream is erased. */
export const erasedMark = (stream: string): Row => ({ id: stream, kind: 'erased', stream: 'main', seen: {}, body: {} });

/** Returns the stream that a row erases; undefined for every other row. What belongs to no client cannot be erased. */
export function erasedStream(row: RowName): string | undefined {
  return row.kind === 'erased' && row.stream === 'main' && row.id !== 'main' ? row.id : undefined;
}
