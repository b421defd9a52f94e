import { fail, ok, type Result } from '../domain/result';

/* Exports as text: a first line that says what it is, then a row a line (the format is in DEVELOPERS.md). */

export const EXPORT_FORMAT = 'cuewright-rows/1';

/** Why a file is no export. `truncated`: it holds other than the number of rows that its first line tells. */
export type ExportFault =
  | { readonly type: 'not-an-export' }
  /** It is of the log that was not wanted: the demo's, since what is invented never mixes with real records. */
  | { readonly type: 'invented' }
  | { readonly type: 'newer-format'; readonly format: string }
  | { readonly type: 'bad-line'; readonly line: number }
  | { readonly type: 'truncated'; readonly says: number; readonly has: number }
  | { readonly type: 'cancelled' };

/** No row comes near it: a file without line breaks is not taken into memory whole. */
const MOST_LINE = 32 * 1024 * 1024;
const BATCH_ROWS = 500;

/**
 * Reads an export, as its text comes in pieces: `take` gets its rows a few hundred at a time, as they stand in it and unchecked
 * (`beginImport` does that). Nothing is read of the log `notOf`. Returns how many there were, or why the file is refused as a whole: that shows at its end, so nothing may be kept before.
 * What an export holds that is no row stays behind: only the app that could read it can do anything with it.
 */
export async function readExport(
  pieces: AsyncIterable<string>,
  take: (rows: readonly unknown[]) => void | Promise<void>,
  { signal, notOf }: { readonly signal?: { readonly aborted: boolean }; readonly notOf?: string } = {},
): Promise<Result<number, ExportFault>> {
  let [n, rows, says] = [0, 0, -1];
  let batch: unknown[] = [];
  for await (const { text, whole } of linesIn(pieces)) {
    n += 1;
    const line = text === undefined ? undefined : jsonOf(text);
    if (n === 1) {
      const head = headOf(line, notOf);
      if (!head.ok) return head;
      says = head.value;
    }
    // every line ends with a break: what follows the last one was cut off in the middle
    if (!whole) return fail({ type: 'truncated', says, has: rows });
    if (n === 1) continue;
    if (!isRecord(line)) return fail({ type: 'bad-line', line: n });
    if ('unreadable' in line) continue;
    rows += 1;
    batch.push(line);
    if (batch.length < BATCH_ROWS) continue;
    await take(batch);
    batch = [];
    if (signal?.aborted) return fail({ type: 'cancelled' });
  }
  if (n === 0) return fail({ type: 'not-an-export' });
  if (rows !== says) return fail({ type: 'truncated', says, has: rows });
  if (batch.length > 0) await take(batch);
  return ok(rows);
}

/** Returns how many rows a first line announces, -1 where it does not say. */
function headOf(head: unknown, notOf: string | undefined): Result<number, ExportFault> {
  if (!isRecord(head) || typeof head['format'] !== 'string') return fail({ type: 'not-an-export' });
  if (head['format'] !== EXPORT_FORMAT) {
    const isNewer = head['format'].startsWith('cuewright-rows/');
    return fail(isNewer ? { type: 'newer-format', format: head['format'] } : { type: 'not-an-export' });
  }
  if (notOf !== undefined && head['log'] === notOf) return fail({ type: 'invented' });
  return ok(typeof head['rows'] === 'number' ? head['rows'] : -1);
}

/** One line: undefined where it is too long to be one; `whole` where a break ends it. */
type Line = { readonly text: string | undefined; readonly whole: boolean };

async function* linesIn(pieces: AsyncIterable<string>): AsyncGenerator<Line> {
  let open = '';
  for await (const piece of pieces) {
    const lines = (open + piece).split('\n');
    open = lines.pop() ?? '';
    for (const text of lines) yield { text, whole: true };
    if (open.length > MOST_LINE) return yield { text: undefined, whole: true };
  }
  if (open !== '') yield { text: open, whole: false };
}

function jsonOf(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
