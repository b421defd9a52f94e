import { addDays, type Day } from '../../src/domain/day';
import { erasedMark } from '../../src/merge/erased';
import { emptyRow, type Json, type Row } from '../../src/merge/row';
import { nextStamp } from '../../src/merge/stamp';
import { writeRow } from '../../src/merge/write';

/* An export written by hand: rows as the app writes them, a line each. */

export const written = (row: Row, changes: Readonly<Record<string, Json>>, writer = 'phone'): Row =>
  writeRow(row, changes, nextStamp(row, writer, 0, 0));

export const client = (stream: string, alias: string): Row =>
  written(emptyRow({ stream, id: stream, kind: 'client' }), { alias });

export const dayAt = (n: number): Day => addDays('2026-01-05', n);

/** Returns the registers of a set of front squats with two reps left. */
export const squat = (id: string, kg: number, day: Day): Readonly<Record<string, Json>> => ({
  [`sets/${id}/exercise`]: 'lib-front-squat',
  [`sets/${id}/kind`]: 'working',
  [`sets/${id}/load`]: { value: kg, unit: 'kg' },
  [`sets/${id}/reps`]: 5,
  [`sets/${id}/effort`]: { value: 2, as: 'left' },
  [`sets/${id}/at`]: { at: Date.parse(`${day}T12:05Z`), day, zone: 'UTC' },
});

/** Returns a session with one set of front squats, so many days from a Monday. */
export function session(stream: string, n: number, kg: number): Row {
  const day = dayAt(n);
  const row = emptyRow({ stream, id: `r${n}`, kind: 'session' });
  return written(row, { start: { at: Date.parse(`${day}T12:00Z`), day, zone: 'UTC' }, ...squat('s1', kg, day) });
}

export const erased = (stream: string): Row => erasedMark(stream);

/** Returns an export of rows; `says` is the number that its first line tells. */
export const exported = (rows: readonly unknown[], { says = rows.length, log = 'cuewright' } = {}): string =>
  [{ format: 'cuewright-rows/1', log, at: 1, rows: says, databaseRead: true }, ...rows]
    .map((line) => `${JSON.stringify(line)}\n`)
    .join('');
