import { describe, expect, test } from 'vitest';
import { gridOf } from '../../src/domain/block';
import { cellDraft } from '../../src/domain/cellEntry';
import { parseEntry } from '../../src/domain/entry';
import { plannedTexts } from '../../src/domain/plan';
import { planOfEntry, planOfSet } from '../../src/domain/planOf';
import { block, cellEntry, exerciseOf, inCell, kg, METRIC, NO_SET_UP, set, shipped } from './made';

const squat = shipped('lib-goblet-squat');
const first = (of: ReturnType<typeof block>, round = 1) => gridOf(of, [], exerciseOf)[0]![round - 1]!;
const none = { today: [], lastTime: [] };

describe('what a block asks for in a cell', () => {
  test('is the plan of the station, in its cell', () => {
    const planned = block(
      { rounds: 3, 'stations/s/plan': { reps: '8', load: '24', unit: 'lb', sets: 3 } },
      { s: squat.id },
    );
    expect(cellEntry(planned, first(planned, 2), null, squat, none, NO_SET_UP, METRIC)).toMatchObject({
      exercise: squat.id,
      kind: 'working',
      side: null,
      load: '24',
      unit: 'lb',
      reps: '8',
      in: { block: 'b', station: 's', round: 2 },
    });
    expect(cellDraft(planned, first(planned), null)).not.toHaveProperty('sets');
  });

  test('of a list, the reps of its round, whatever the station plans', () => {
    const list = block({ kind: 'list', reps: [21, 15, 9], 'stations/s/plan': { reps: '8' } }, { s: squat.id });
    expect([1, 2, 3].map((round) => cellDraft(list, first(list, round), null).reps)).toEqual(['21', '15', '9']);
  });

  test('of timed work, the seconds of it, unless the station plans others', () => {
    const timed = { kind: 'timed', rounds: 1, work: 40, off: 20 };
    const own = block({ ...timed, 'stations/s/plan': { seconds: '30' } }, { s: 'lib-dead-hang' });
    const hang = block(timed, { s: 'lib-dead-hang' });
    expect(cellDraft(hang, first(hang), null).seconds).toBe('40');
    expect(cellDraft(own, first(own), null).seconds).toBe('30');
  });

  test('what the plan leaves open is as in the round before, else as last time; else it stays open', () => {
    const open = block({ rounds: 3, 'stations/s/plan': { reps: '8' } }, { s: squat.id });
    const lastTime = [set({ exercise: squat.id, ...kg(20), reps: 12 })];
    const today = [inCell('s', 1, { exercise: squat.id, ...kg(24), reps: 10 })];
    const load = (past: Parameters<typeof cellEntry>[4]) =>
      cellEntry(open, first(open, 2), null, squat, past, NO_SET_UP, METRIC);
    expect(load({ today, lastTime })).toMatchObject({ load: '24', reps: '8' });
    expect(load({ today: [], lastTime })).toMatchObject({ load: '20', reps: '8' });
    // nothing is invented: with no load known, "done as planned" is refused by the field
    expect(parseEntry(load(none), squat, () => '')).toEqual({ ok: false, error: { type: 'empty', field: 'load' } });
  });

  test('on the side it is asked for', () => {
    const row = shipped('lib-one-arm-row');
    const rows = block({ rounds: 1 }, { s: row.id });
    const past = { today: [set({ exercise: row.id, side: 'left', ...kg(20), reps: 8 })], lastTime: [] };
    expect(cellEntry(rows, first(rows), 'left', row, past, NO_SET_UP, METRIC)).toMatchObject({
      side: 'left',
      load: '20',
    });
  });
});

describe('a plan', () => {
  test('of a set asks for what it held again, never for what was seen of it', () => {
    const jump = set({
      exercise: 'lib-hop-and-hold',
      side: 'left',
      landings: 6,
      direction: 'out',
      marks: [{ n: 1, good: true }],
      effort: { value: 2, as: 'left' },
      form: 'clean',
    });
    expect(planOfSet(jump)).toEqual({ landings: '6', direction: 'out' });
    expect(planOfSet(set({ exercise: 'lib-ball-throw', tries: 8, good: 6, smooth: 4 }))).toEqual({ tries: '8' });
  });

  test('keeps units and the way body mass is changed', () => {
    expect(planOfSet(set({ load: { value: 45, unit: 'lb' }, reps: 5 }))).toEqual({ load: '45', unit: 'lb', reps: '5' });
    expect(planOfSet(set({ assist: { value: 20, unit: 'kg' }, reps: 5 }))).toEqual({
      load: '20',
      unit: 'kg',
      reps: '5',
      body: 'assist',
    });
    const carried = set({ ...kg(24), distance: { value: 100, unit: 'ft' } });
    expect(planOfSet(carried)).toEqual({ load: '24', unit: 'kg', distance: '100', distanceUnit: 'ft' });
  });

  test('of the pad is what was typed, without blanks and empty fields', () => {
    const open = block({ rounds: 1 }, { s: squat.id });
    const entry = cellEntry(open, first(open), null, squat, none, NO_SET_UP, METRIC);
    expect(planOfEntry(entry)).toEqual({});
    expect(planOfEntry({ ...entry, load: ' 57,5 ', reps: '5', good: '4' })).toEqual({
      load: '57,5',
      unit: 'kg',
      reps: '5',
    });
  });

  test('gives the pad everything but how many sets', () => {
    expect(plannedTexts({ sets: 3, reps: '8', direction: 'ahead' })).toEqual({ reps: '8', direction: 'ahead' });
  });
});
