import type { Local } from './local';

/** What a start finds: a first start, a log as it was left, or a log that held rows and is empty now. */
export type Found = 'first-start' | 'as-left' | 'wiped';

const NAME = 'holds-rows';

/**
 * Returns what the start found. A browser can hand back an empty database with no error (seen after a torn profile), so a mark outside the
 * database says that it once held rows. Without the mark an empty database is a first start.
 */
export function lookForWipe(local: Local, rowsInStore: number): Found {
  const marked = local.get(NAME) !== undefined;
  if (rowsInStore > 0) return 'as-left';
  return marked ? 'wiped' : 'first-start';
}

/** Marks that the log holds rows, with the day the mark was made. */
export function markKept(local: Local, day: string): void {
  if (local.get(NAME) === undefined) local.set(NAME, day);
}
