import { createReadStream } from 'node:fs';
import { argv, stderr, stdout } from 'node:process';
import { answersOf } from '../analysis/answers';
import { findingsOf } from '../analysis/findings';
import { usesOf } from '../analysis/others';
import { hitIn, seriesOf } from '../analysis/series';
import { type ClientRecord, exercisesOf, knownBy, readStudio, type Studio } from '../analysis/studio';
import { addDays, type Day, instantAt, isDay } from '../domain/day';
import { dayOf } from '../domain/exposure';
import { admitRow } from '../merge/door';
import { erasedStream } from '../merge/erased';
import { type ExportFault, readExport } from '../merge/exportLines';
import { mergeRows } from '../merge/merge';
import type { Row } from '../merge/row';
import { shown } from '../merge/shown';

/*
 * `analyse EXPORT.jsonl [--as-of DAY]`: what the app finds in an export, by the app's own code, as JSON on the standard output. Without a day it is as
 * of the last session in the file: no clock is read.
 */

async function main(): Promise<number> {
  const [file, ...rest] = argv.slice(2);
  const asked = rest[0] === '--as-of' ? rest[1] : undefined;
  if (file === undefined || (rest.length > 0 && (asked === undefined || rest.length > 2)))
    return refuse('one file is needed: analyse EXPORT.jsonl [--as-of 2027-02-28]');
  if (asked !== undefined && !isDay(asked))
    return refuse(`--as-of must be a day that exists, such as 2027-02-28; this is ${asked}`);
  const rows = new Map<string, Row>();
  let refused = 0;
  try {
    const read = await readExport(createReadStream(file, 'utf8') as AsyncIterable<string>, (some) => {
      for (const raw of some) if (!take(rows, raw)) refused += 1;
    });
    if (!read.ok) return refuse(`${file}: ${said(read.error)}`);
  } catch (error) {
    return refuse(`${file} cannot be read: ${error instanceof Error ? error.message : String(error)}`);
  }
  // [M10] what was erased is not looked at
  const erased = new Set([...rows.values()].flatMap((row) => erasedStream(row) ?? []));
  const kept = [...rows.values()].filter((row) => !erased.has(row.stream));
  const studio = readStudio(
    kept.map((row) => ({ stream: row.stream, id: row.id, kind: row.kind, values: shown(row) })),
  );
  const asOf = asked ?? lastDay(studio) ?? instantAt(0, 'UTC').day;
  const known = studio.clients.map((client) => knownBy(client, asOf));
  const clients = known.map((client) => analysed(client, known, studio, asOf));
  stdout.write(`${JSON.stringify({ format: 'cuewright-analysis/1', asOf, refused, clients })}\n`);
  return 0;
}

/** Merges a row with what was read of it before; returns whether it was one. */
function take(rows: Map<string, Row>, raw: unknown): boolean {
  const row = admitRow(raw);
  if (!row.ok) return false;
  const key = `${row.value.stream}/${row.value.id}`;
  const known = rows.get(key);
  const merged = known ? mergeRows(known, row.value) : row;
  if (!merged.ok) return false;
  rows.set(key, merged.value);
  return true;
}

function analysed(client: ClientRecord, all: readonly ClientRecord[], studio: Studio, asOf: Day) {
  const { stream, alias, targets } = client;
  const fanDays = ({ day }: { readonly day: Day }) => AHEAD_WEEKS.map((weeks) => addDays(day, 7 * weeks));
  const series = exercisesOf(client, studio).flatMap((one) =>
    seriesOf(one, { targets, today: asOf, fanDays }).map((side) => ({
      exercise: one.exercise.id,
      name: one.exercise.name,
      ...side,
    })),
  );
  const ends = series.map(({ end }) => end);
  const pool = all.filter((one) => one !== client).map(usesOf);
  const { others, week, found } = answersOf(client, pool, studio, asOf);
  const findings = findingsOf(ends, targets, asOf, hitIn(series));
  // `week` among the others is the latest that is over
  return { stream, alias, targets, findings, found, series, ...others, thisWeek: week };
}

const AHEAD_WEEKS = [0, 2, 4, 8];

/** The day of the last session in the file; of one whose start is not told, that of its first set. */
const lastDay = ({ clients }: Studio): Day | undefined =>
  clients
    .flatMap(({ sessions }) => sessions.flatMap(({ start, sets }) => start ?? sets[0]?.at ?? []))
    .map(dayOf)
    .sort()
    .at(-1);

function said(fault: ExportFault): string {
  switch (fault.type) {
    case 'not-an-export':
    case 'invented':
      return 'this is no export of this app';
    case 'newer-format':
      return `it was written by a newer app (${fault.format})`;
    case 'bad-line':
      return `line ${fault.line} is no row`;
    case 'truncated':
      return `it says ${fault.says} rows and has ${fault.has}: it was cut off`;
    case 'cancelled':
      return 'reading was called off';
  }
}

function refuse(text: string): number {
  stderr.write(`analyse: ${text}\n`);
  return 1;
}

process.exitCode = await main();
