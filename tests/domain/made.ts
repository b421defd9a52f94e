import { type Block, type GridCell, readBlocks } from '../../src/domain/block';
import { cellDraft } from '../../src/domain/cellEntry';
import { type Entry, NO_TEXTS } from '../../src/domain/entry';
import type { Exercise } from '../../src/domain/exercise';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import { type Past, prefill, type Units } from '../../src/domain/prefill';
import { readSession, type SessionRecord } from '../../src/domain/session';
import type { SetRecord, Side } from '../../src/domain/set';
import { type SetUpTexts, setUpTexts } from '../../src/domain/setUp';

/** A Tuesday evening, 16:00 at Greenwich. */
export const T = Date.UTC(2026, 10, 24, 16, 0, 0);

/** Returns an instant so many seconds after `T`. */
export const instantIn = (seconds: number) => ({ at: T + seconds * 1000, day: '2026-11-24', zone: 'UTC' });

/** Returns an exercise that ships, or undefined. */
export const exerciseOf = (id: string): Exercise | undefined => SHIPPED_EXERCISES.find((one) => one.id === id);

/** Returns an exercise that ships. */
export function shipped(id: string): Exercise {
  const found = exerciseOf(id);
  if (!found) throw new Error(`no ${id}`);
  return found;
}

let made = 0;

/** Returns a working set, a minute later than the one made before. */
export const set = (held: Partial<SetRecord>): SetRecord => ({
  id: `s${String(++made).padStart(4, '0')}`,
  exercise: 'lib-back-squat',
  kind: 'working',
  at: instantIn(made * 60),
  parts: [],
  cues: [],
  marks: [],
  faults: [],
  unread: [],
  ...held,
});

/** Returns a load register in kilograms. */
export const kg = (value: number) => ({ load: { value, unit: 'kg' as const } });

/** Returns a set done in a cell of the block `b`. */
export const inCell = (station: string, round: number, held: Partial<SetRecord> = {}): SetRecord =>
  set({ in: { block: 'b', station, round }, ...held });

/** Returns the block `b` of these registers; stations are named by their exercises, in their order. */
export function block(registers: Record<string, unknown>, stations: Readonly<Record<string, string>> = {}): Block {
  const values: Record<string, unknown> = {};
  for (const [name, value] of Object.entries({ kind: 'rounds', ...registers })) values[`blocks/b/${name}`] = value;
  for (const [index, [id, exercise]] of Object.entries(stations).entries()) {
    values[`blocks/b/stations/${id}/order`] = `h${index}`;
    values[`blocks/b/stations/${id}/exercise`] = exercise;
  }
  const [read] = readBlocks(values).blocks;
  if (!read) throw new Error('no block');
  return read;
}

/** Returns the session of these shown values. */
export function sessionOf(values: Record<string, unknown>): SessionRecord {
  const read = readSession('r1', [{ id: 'r1', values: { start: instantIn(0), ...values } }]);
  if (!read) throw new Error('no session');
  return read;
}

export const NO_SET_UP = setUpTexts({});
/** Returns the pad's texts for a working set of an exercise in which nothing is said yet, but for `more`. */
export const workingEntry = (exercise: string, more: Partial<Entry> = {}): Entry => ({
  ...NO_TEXTS,
  exercise,
  kind: 'working',
  side: null,
  unit: 'kg',
  distanceUnit: 'm',
  body: 'alone',
  direction: null,
  marks: [],
  smooth: null,
  parts: [],
  setUp: NO_SET_UP,
  in: null,
  ...more,
});
export const METRIC: Units = { load: 'kg', distance: 'm' };

/** Returns the entry a cell begins with. */
export const cellEntry = (
  of: Block,
  cell: GridCell,
  side: Side | null,
  exercise: Exercise,
  past: Past,
  setUp: SetUpTexts,
  units: Units,
): Entry => prefill(exercise, cellDraft(of, cell, side), past, setUp, units);
