import { describe, expect, test } from 'vitest';
import { DAYS, demoRows } from '../../fixtures/demo/studio';
import { readBodyMass } from '../../src/domain/bodyMass';
import { readClient } from '../../src/domain/client';
import { SHIPPED_CUES } from '../../src/domain/cues';
import { addDays, daysBetween, instantAt } from '../../src/domain/day';
import { readExercise } from '../../src/domain/exercise';
import { readPlace } from '../../src/domain/kit';
import { SHIPPED_EXERCISES, SHIPPED_FAULTS } from '../../src/domain/library';
import { readOtherWork } from '../../src/domain/otherWork';
import { readRestriction } from '../../src/domain/restriction';
import { readSession } from '../../src/domain/session';
import { readTargets } from '../../src/domain/target';
import { readTemplate } from '../../src/domain/template';
import { canonicalRow } from '../../src/merge/canonical';
import { admitRow } from '../../src/merge/door';
import type { Row } from '../../src/merge/row';
import { shown } from '../../src/merge/shown';

const OF = { seed: 7, today: '2026-11-25', zone: 'Europe/Vienna' };
const rows = demoRows(OF);
const ofKind = (kind: string, of: readonly Row[] = rows): readonly Row[] => of.filter((row) => row.kind === kind);
const text = (of: readonly Row[]): string => of.map(canonicalRow).join('\n');

/** Every path that may stand in a row, by its kind: those that DEVELOPERS.md and the schemas name. */
const PATHS: Readonly<Record<string, RegExp>> = {
  client: /^(alias|short|since|date|landings|question|setUps\/[^/]+\/(setUp|tempo|height|pause))$/,
  role: /^targets\/[^/]+\/(exercise|goal|reps|start|from|day)$/,
  restriction: /^(who|what|from|until|at|hides\/[^/]+)$/,
  template:
    /^(name|days\/(mon|tue|wed|thu|fri|sat|sun)|exercises\/[^/]+\/(order|plan)|blocks\/[^/]+\/(order|kind|rounds|rest|stations\/[^/]+\/(order|exercise|plan)))$/,
  session:
    /^(start|end|effort|attendance|why|note|template|plannedDay|place|exercises\/[^/]+\/(order|plan)|blocks\/[^/]+\/(order|kind|rounds|rest|stations\/[^/]+\/(order|exercise|plan))|pauses\/[^/]+\/(from|to)|arrival\/(sleep|energy|body|calm|mood|usual|pain|answer|sore\/[a-z-]+)|sets\/[^/]+\/(exercise|kind|side|load|band|pin|seconds|reps|distance|landings|tries|degrees|good|smooth|direction|marks\/[1-9]|in|effort|form|ended|cues\/[^/]+|faults\/[^/]+|at))$/,
  otherWork: /^(work|day|at|hours|effort)$/,
  result: /^(test|value|day|at)$/,
  kit: /^(name|bands|pins|unit|bars|plates|dumbbells)$/,
  exercise: /^(name|holds|sides|pattern|step|rest)$/,
  cue: /^words$/,
};

test('the same seed, day and zone give the same rows, another seed others', () => {
  expect(text(demoRows(OF))).toBe(text(rows));
  expect(text(demoRows({ ...OF, seed: 8 }))).not.toBe(text(rows));
});

test('every row passes the door, bears only known paths, and reads with nothing unread', () => {
  for (const row of rows) {
    const values = shown(row);
    const admitted = admitRow(JSON.parse(JSON.stringify(row)));
    expect(admitted.ok, row.kind).toBe(true);
    for (const path of Object.keys(values)) expect(path, row.kind).toMatch(PATHS[row.kind] ?? /^never$/);
  }
  for (const row of ofKind('session')) {
    const read = readSession(row.id, [{ id: row.id, values: shown(row) }]);
    expect(read?.unread).toEqual([]);
    // what was noted comes back: no register was passed over
    expect(read?.sets.length).toBe(Object.keys(row.body).filter((path) => /^sets\/[^/]+\/exercise$/.test(path)).length);
  }
  const readers: Readonly<Record<string, (row: Row) => unknown>> = {
    client: (row) => readClient(row.id, shown(row)),
    role: (row) => readTargets(shown(row))[0],
    restriction: (row) => readRestriction(row.id, shown(row)),
    template: (row) => readTemplate(row.id, shown(row)),
    otherWork: (row) => readOtherWork(row.id, shown(row)),
    result: (row) => readBodyMass(shown(row)),
    kit: (row) => readPlace(row.id, shown(row)),
    exercise: (row) => readExercise(row.id, shown(row)),
  };
  for (const row of rows) if (readers[row.kind]) expect(readers[row.kind]?.(row), row.kind).toBeDefined();
  expect(new Set(rows.map((row) => row.kind))).toEqual(new Set(Object.keys(PATHS)));
});

test('four clients, each with a day to come, and twelve weeks of three to five sessions', () => {
  const clients = ofKind('client').map((row) => readClient(row.id, shown(row)));
  expect(clients).toHaveLength(4);
  for (const client of clients) {
    expect(client?.alias).toMatch(/^Client [A-Z][a-z]+$/);
    expect(daysBetween(OF.today, client?.date?.day ?? '')).toBeGreaterThan(0);
    const sessions = ofKind('session').filter((row) => row.stream === client?.id);
    expect(sessions.length / 12).toBeGreaterThan(2.4);
    expect(sessions.length / 12).toBeLessThanOrEqual(5);
    expect(ofKind('template').filter((row) => row.stream === client?.id).length).toBeGreaterThanOrEqual(2);
  }
});

test('everything named is there: exercises, cues, faults, places, templates, cells', () => {
  const own = (kind: string) => ofKind(kind).map((row) => row.id);
  const exercises = new Set<string>([...SHIPPED_EXERCISES.map((one) => one.id), ...own('exercise')]);
  const cues = new Set<string>([...SHIPPED_CUES.map((one) => one.id), ...own('cue')]);
  for (const row of ofKind('session')) {
    const read = readSession(row.id, [{ id: row.id, values: shown(row) }]);
    for (const id of read?.exercises ?? []) expect(exercises).toContain(id);
    for (const set of read?.sets ?? []) {
      for (const use of set.cues) expect(cues).toContain(use.cue);
      for (const fault of set.faults) expect(SHIPPED_FAULTS as readonly string[]).toContain(fault.id);
      if (set.in) {
        const block = read?.blocks.find((one) => one.id === set.in?.block);
        expect(block?.stations.find((one) => one.id === set.in?.station)?.exercise).toBe(set.exercise);
      }
      const { sides } = SHIPPED_EXERCISES.find((one) => one.id === set.exercise) ?? { sides: 'both' };
      if (set.kind !== 'warm-up') expect(set.side !== undefined, set.exercise).toBe(sides === 'each');
    }
    if (read?.place !== undefined) expect(own('kit')).toContain(read.place);
    if (read?.template !== undefined) expect(own('template')).toContain(read.template);
  }
});

test('as in life: much is not noted, some sessions did not happen, one client trains the left, one was away with pounds', () => {
  const sessions = ofKind('session').flatMap((row) => readSession(row.id, [{ id: row.id, values: shown(row) }]) ?? []);
  const sets = sessions.flatMap((one) => one.sets);
  const share = (is: (set: (typeof sets)[number]) => boolean): number => sets.filter(is).length / sets.length;
  expect(share((set) => set.effort !== undefined)).toBeLessThan(0.6);
  expect(share((set) => set.form !== undefined)).toBeLessThan(0.5);
  expect(share((set) => set.effort !== undefined)).toBeGreaterThan(0.2);
  const attended = new Set(sessions.map((one) => one.attendance));
  for (const one of ['done', 'cut-short', 'cancelled', 'no-show', undefined] as const) expect(attended).toContain(one);
  expect(sessions.some((one) => one.pauses.length > 0)).toBe(true);
  expect(sessions.some((one) => one.effort === undefined && one.sets.length > 0)).toBe(true);
  expect(sets.some((set) => set.load?.unit === 'lb')).toBe(true);
  expect(sets.some((set) => set.ended === 'missed')).toBe(true);
  const strikes = sets.filter((set) => set.exercise === 'lib-staff-strike');
  expect(strikes.length).toBeGreaterThan(40);
  expect(strikes.every((set) => set.side === 'left')).toBe(true);
  // kilograms lie where plates or dumbbells do
  for (const set of sets) if (set.load?.unit === 'kg') expect(set.load.value % 0.25).toBe(0);
});

describe.each([
  ['2026-11-25', 'Europe/Vienna'],
  ['2026-04-20', 'America/New_York'],
  ['2026-05-01', 'Australia/Lord_Howe'],
  ['2026-10-01', 'America/Santiago'],
  ['2027-01-04', 'Pacific/Kiritimati'],
  ['2026-03-01', 'Asia/Kathmandu'],
])('today %s in %s', (today, zone) => {
  const all = demoRows({ ...OF, today, zone });
  const hour = (at: number): number =>
    Number(new Intl.DateTimeFormat('en-GB', { hour: '2-digit', hourCycle: 'h23', timeZone: zone }).format(at));

  test('everything lies in the twelve weeks before today, and bears the day it had there', () => {
    const instants = all.flatMap((row) => {
      const found: { at: number; day: string; zone: string }[] = [];
      JSON.stringify(shown(row), (_, value) => {
        if (typeof value?.at === 'number') found.push(value);
        return value;
      });
      return found;
    });
    expect(instants.length).toBeGreaterThan(3000);
    for (const { at, day, zone: of } of instants) {
      expect(of).toBe(zone);
      expect(day).toBe(instantAt(at, zone).day);
      expect(day < today && day >= addDays(today, -DAYS), day).toBe(true);
    }
    const stamps = all.flatMap((row) => Object.values(row.body).map(([held]) => held.stamp.l));
    for (const l of stamps) expect(instantAt(l, zone).day < today).toBe(true);
  });

  test('the clock on the wall says the hours the studio keeps, summer or winter', () => {
    const starts = ofKind('session', all).flatMap(
      (row) => readSession(row.id, [{ id: row.id, values: shown(row) }])?.start?.at ?? [],
    );
    expect(new Set(starts.map(hour))).toEqual(new Set([9, 11, 13, 16]));
  });
});
