import { readSession } from '../../src/domain/session';
import { sessionIdOf } from '../../src/log/openSessions';
import type { SeriesRow } from '../../src/log/series';
import { shown } from '../../src/merge/shown';
import { runningOn } from './acts';
import { type Deed, type Deeds, judge, must } from './book';
import { bundleOf, importsWhole } from './bundle';
import type { Life, Phone } from './kinds';
import { does, nothingLeft } from './phone';
import { recordsIn, rowsOn, textIn } from './snapshot';
import { keepsNothingErased } from './started';
import { turns } from './timers';

/** Lets all phones write what waits, and meet until everyone has heard everything; then all must hold the same, and nothing may be missing. */
export async function heal(life: Life, phones: readonly Phone[]): Promise<void> {
  for (const phone of phones) {
    phone.device.disk.fate = undefined;
    const saved = await phone.app.log.retry();
    must(saved.ok, () => `${phone.name} cannot save: ${JSON.stringify(saved)}`);
  }
  await life.time.pass(5000);
  const marks = new Set(phones.flatMap((phone) => [...phone.marks]));
  const [first, ...others] = phones;
  if (!first) return;
  for (const other of others) await importsWhole(life, first, await bundleOf(life, other));
  await endsAll(life, first);
  const told = whatIsKnown(phones);
  const all = await bundleOf(life, first);
  for (const other of others) await importsWhole(life, other, all);
  await life.time.pass(5000);
  for (const phone of phones) {
    await phone.app.log.inside((core) => core.folding);
    await turns(2);
    for (const stream of marks) {
      const isTold = rowsOn(phone.device.disk).has(`main/${stream}`);
      must(isTold, () => `[M10] ${phone.name} never heard that ${stream} is erased`);
      nothingLeft(phone, stream);
    }
    keepsNothingErased(life, phone);
  }
  // what all hold alike is judged once
  const texts = phones.map((phone) => textOf(rowsOn(phone.device.disk)));
  must(new Set(texts).size === 1, () => `[M1] the phones do not hold the same: ${texts.join('\n')}`);
  const rows = rowsOn(first.device.disk);
  sameAsTold(first, rows, told, marks);
  const series = rebuiltSeries(life, rows);
  for (const phone of phones) seriesAre(phone, series);
}

/** Ends every running session: a phone that has taken in everything holds them all in memory. */
async function endsAll(life: Life, phone: Phone): Promise<void> {
  for (const place of runningOn(life.room, phone)) {
    const ended = () => life.room.endSession(phone.app.log, place, SAID, phone.device.world);
    await does(life, phone, () => {
      const saving = ended();
      return saving.ok ? saving.value : undefined;
    });
  }
}

const SAID = { effort: '', minutes: '', attendance: null, why: '', note: '' };

/** Everything that anyone knows, by row. */
function whatIsKnown(phones: readonly Phone[]): Map<string, Deeds> {
  const told = new Map<string, Set<Deed>>();
  for (const phone of phones) {
    for (const [key, versions] of phone.held) {
      const known = told.get(key) ?? new Set();
      for (const deed of versions.at(-1)?.knows ?? []) known.add(deed);
      told.set(key, known);
    }
  }
  return told;
}

function sameAsTold(
  phone: Phone,
  rows: ReturnType<typeof rowsOn>,
  told: ReadonlyMap<string, Deeds>,
  marks: ReadonlySet<string>,
): void {
  for (const [key, known] of told) {
    const [stream = ''] = key.split('/');
    if (marks.has(stream)) continue;
    const row = rows.get(key);
    must(row !== undefined, () => `${phone.name} lacks ${key} after everyone met`);
    judge(row, known, `${phone.name}, healed`);
  }
}

/** [M7] What the series of each client must be, as the sessions tell. */
function rebuiltSeries({ room }: Life, rows: ReturnType<typeof rowsOn>): ReadonlyMap<string, string> {
  const parts = new Map<
    string,
    { stream: string; id: string; rows: { id: string; values: ReturnType<typeof shown> }[] }
  >();
  for (const row of rows.values()) {
    if (row.kind !== 'session') continue;
    const id = sessionIdOf(row);
    const key = `${row.stream}/${id}`;
    const own = parts.get(key) ?? { stream: row.stream, id, rows: [] };
    own.rows.push({ id: row.id, values: shown(row) });
    parts.set(key, own);
  }
  const streams = new Set([...parts.values()].map(({ stream }) => stream));
  return new Map(
    [...streams].map((stream) => {
      const own = [...parts.values()].filter((one) => one.stream === stream);
      const sessions = own.flatMap((one) => readSession(one.id, one.rows) ?? []).filter((one) => one.end);
      return [stream, meant(room.buildSeries(stream, sessions))];
    }),
  );
}

function seriesAre(phone: Phone, wanted: ReadonlyMap<string, string>): void {
  const stored = recordsIn(phone.device.disk, 'series').map(({ value }) => value as SeriesRow);
  for (const [stream, made] of wanted) {
    const kept = meant(stored.filter((row) => row.stream === stream));
    must(made === kept, () => `[M7] ${phone.name}: the series of ${stream} are\n${kept}\nnot\n${made}`);
  }
}

/** A series row without a session says nothing; how exercises stand is worked out behind it, and tried by itself. */
const meant = (rows: readonly SeriesRow[]): string =>
  JSON.stringify(
    rows
      .filter(({ last }) => last.length > 0)
      .map(({ ends: _, due: __, ...row }) => row)
      .sort((a, b) => (a.exercise < b.exercise ? -1 : 1)),
  );

const textOf = (rows: ReturnType<typeof rowsOn>): string => [...rows.values()].map(textIn).sort().join('\n');
