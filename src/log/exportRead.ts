import { fail, ok, type Result } from '../domain/result';
import { EXPORT_FORMAT } from './export';
import { DEMO_LOG } from './showing';

/** Why a file is no export. `truncated`: it holds other than the number of rows that its first line tells. */
export type ExportFault =
  | { readonly type: 'not-an-export' }
  /** It is the demo's: what is invented never mixes with real records. */
  | { readonly type: 'invented' }
  | { readonly type: 'newer-format'; readonly format: string }
  | { readonly type: 'bad-line'; readonly line: number }
  | { readonly type: 'truncated'; readonly says: number; readonly has: number };

/**
 * Returns the rows of an export, as they stand in it and unchecked (`beginImport` does that), or why it is refused as a whole. What an export holds
 * that is no row stays behind: only the app that could read it can do anything with it.
 */
export function rowsInExport(text: string): Result<readonly unknown[], ExportFault> {
  const [first = '', ...rest] = text.split('\n');
  const head = jsonOf(first);
  if (!isRecord(head) || typeof head['format'] !== 'string') return fail({ type: 'not-an-export' });
  if (head['format'] !== EXPORT_FORMAT) {
    const isNewer = head['format'].startsWith('cuewright-rows/');
    return fail(isNewer ? { type: 'newer-format', format: head['format'] } : { type: 'not-an-export' });
  }
  if (head['log'] === DEMO_LOG) return fail({ type: 'invented' });
  // every line ends with a break: what follows the last one was cut off in the middle
  const tail = rest.pop();
  const rows: unknown[] = [];
  for (const [index, line] of rest.entries()) {
    const one = jsonOf(line);
    if (!isRecord(one)) return fail({ type: 'bad-line', line: index + 2 });
    if (!('unreadable' in one)) rows.push(one);
  }
  const says = typeof head['rows'] === 'number' ? head['rows'] : -1;
  if (tail !== '' || rows.length !== says) return fail({ type: 'truncated', says, has: rows.length });
  return ok(rows);
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
