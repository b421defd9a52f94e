import { unwrap } from 'idb';
import { fail, ok, type Result } from '../domain/result';
import { readSession } from '../domain/session';
import type { Row } from '../merge/row';
import { packRow } from './encode';
import { storeOf } from './keys';
import { type Database, type OpenFault, openDatabase } from './open';
import { buildSeries, type SeriesRow } from './series';
import { shownOf } from './views';

/** More than this in one transaction holds up whatever else wants to write. */
const BATCH = 2000;

/**
 * Fills a log that is empty, and that nobody shows yet, with rows and what is derived from them: so it opens with its series made. No row
 * is a continuation. Resolves when all of it is in the store; rejects where the browser will not write.
 */
export async function fillLog(name: string, rows: readonly Row[]): Promise<Result<void, OpenFault>> {
  const opened = await openDatabase(name, () => undefined);
  if (!opened.ok) return fail(opened.error);
  const db = opened.value;
  try {
    for (let from = 0; from < rows.length; from += BATCH) await put(db, rows.slice(from, from + BATCH), []);
    // what is in the store when this is, is all there
    await put(db, [], seriesOf(rows));
  } finally {
    db.close();
  }
  return ok(undefined);
}

function seriesOf(rows: readonly Row[]): readonly SeriesRow[] {
  const sessions = rows.filter((row) => row.kind === 'session');
  const streams = [...new Set(sessions.map((row) => row.stream))];
  return streams.flatMap((stream) => {
    const own = sessions.filter((row) => row.stream === stream);
    return buildSeries(
      stream,
      own.flatMap((row) => readSession(row.id, [{ id: row.id, values: shownOf(row) }]) ?? []),
    );
  });
}

function put(db: Database, rows: readonly Row[], series: readonly SeriesRow[]): Promise<void> {
  return new Promise((resolve, reject) => {
    const stores = ['rows', 'sessions', 'results', 'series'];
    const durability = series.length > 0 ? 'strict' : 'relaxed';
    const tx = unwrap(db).transaction(stores, 'readwrite', { durability });
    tx.oncomplete = () => resolve();
    tx.onabort = () => reject(tx.error ?? new DOMException('the transaction was aborted', 'AbortError'));
    for (const row of rows) tx.objectStore(storeOf(row.kind)).put(packRow(row));
    for (const row of series) tx.objectStore('series').put(row);
    tx.commit();
  });
}
