import type { Row } from './row';

/**
 * Returns a row of a client under another stream, and any other row as it is: where the client was erased here [M10], what comes back lands as
 * a new one. The client's own row bears the stream's name as its id.
 */
export function inNewStream(row: Row, from: string, to: string): Row {
  if (row.stream !== from) return row;
  return { ...row, stream: to, id: row.id === from ? to : row.id };
}
