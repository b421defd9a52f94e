import type { Result } from '../domain/result';
import { type ExportFault, readExport as readLines } from '../merge/exportLines';
import { DEMO_LOG } from './showing';

/** Reads an export to be taken in (see `merge/exportLines`); the demo's is refused. */
export const readExport = (
  pieces: AsyncIterable<string>,
  take: (rows: readonly unknown[]) => void | Promise<void>,
  signal?: AbortSignal,
): Promise<Result<number, ExportFault>> => readLines(pieces, take, { ...(signal ? { signal } : {}), notOf: DEMO_LOG });

const PIECE = 1024 * 1024;

/** Yields the text of a file piece by piece; `tick` hears of the share read. */
export async function* textOf(file: Blob, tick: (done: number) => void = () => undefined): AsyncGenerator<string> {
  const decoder = new TextDecoder();
  for (let from = 0; from < file.size; from += PIECE) {
    yield decoder.decode(await file.slice(from, from + PIECE).arrayBuffer(), { stream: true });
    tick(Math.min(1, (from + PIECE) / file.size));
  }
  yield decoder.decode();
}
