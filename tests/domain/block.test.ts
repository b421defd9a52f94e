import { describe, expect, test } from 'vitest';
import {
  type Block,
  blockState,
  fullRounds,
  type GridCell,
  gridOf,
  letterOf,
  nextCell,
  readBlocks,
  sideDue,
} from '../../src/domain/block';
import type { SetRecord } from '../../src/domain/set';
import { block, exerciseOf, inCell, instantIn, sessionOf, set } from './made';

const grid = (of: Block, sets: readonly SetRecord[]) => gridOf(of, sets, exerciseOf);
const state = (of: Block, sets: readonly SetRecord[]) => blockState(of, grid(of, sets));
/** A row of the grid as a text: `.` empty, `-` nothing missing, else the sides missing. */
const drawn = (rows: readonly (readonly GridCell[])[]): string[] =>
  rows.map((row) => row.map(({ missing }) => missing.map((side) => side?.[0] ?? '.').join('') || '-').join(' '));
const pushPull = { push: 'lib-push-up', pull: 'lib-inverted-row' };

describe('a block as it is read', () => {
  test('has its registers, and its stations in their order', () => {
    const { blocks, unread } = readBlocks({
      'blocks/b/kind': 'rounds',
      'blocks/b/order': 'm',
      'blocks/b/rounds': 3,
      'blocks/b/rest': 90,
      'blocks/b/work': null,
      'blocks/b/stations/y/exercise': 'lib-push-up',
      'blocks/b/stations/y/order': 'g',
      'blocks/b/stations/x/exercise': 'lib-inverted-row',
      'blocks/b/stations/x/order': 'k',
      'blocks/b/stations/x/plan': { reps: '8' },
      'blocks/b/stations/x/was': 'lib-pull-up',
      'blocks/b/stations/gone/exercise': null,
      'blocks/b/stations/gone/order': 'h',
      'blocks/a/kind': 'mobility',
      'blocks/a/order': 'g',
    });
    expect(unread).toEqual([]);
    expect(blocks).toEqual([
      { id: 'a', kind: 'mobility', order: 'g', rounds: 1, stations: [] },
      {
        id: 'b',
        kind: 'rounds',
        order: 'm',
        rounds: 3,
        rest: 90,
        stations: [
          { id: 'y', order: 'g', exercise: 'lib-push-up', plan: {} },
          { id: 'x', order: 'k', exercise: 'lib-inverted-row', plan: { reps: '8' }, was: 'lib-pull-up' },
        ],
      },
    ]);
  });

  test('[M11] of one order, by id', () => {
    const values = { 'blocks/b/kind': 'most', 'blocks/b/order': 'g', 'blocks/a/kind': 'most', 'blocks/a/order': 'g' };
    expect(readBlocks(values).blocks.map(({ id }) => id)).toEqual(['a', 'b']);
  });

  test('a list has as many rounds as it names, as many as possible none', () => {
    expect(block({ kind: 'list', reps: [21, 15, 9], rounds: 40 }).rounds).toBe(3);
    expect(block({ kind: 'most', cap: 600, rounds: 5 }).rounds).toBe(0);
    expect(block({ kind: 'rounds' }).rounds).toBe(1);
  });

  test('without a kind there is none: undone, or of a newer app', () => {
    expect(readBlocks({ 'blocks/b/order': 'g', 'blocks/b/rounds': 3, 'blocks/b/kind': null }).blocks).toEqual([]);
    expect(readBlocks({ 'blocks/b/kind': 'spiral' })).toEqual({
      blocks: [],
      unread: [{ type: 'from-a-newer-app', path: 'blocks/b/kind', value: 'spiral' }],
    });
  });

  test.each<[string, unknown]>([
    ['rounds', 0],
    ['rounds', 41],
    ['reps', []],
    ['reps', [5, 0]],
    ['cap', 29],
    ['rest', -1],
    ['started', 'noon'],
    ['skipped', true],
    ['stations/s/plan', { sets: 51 }],
    ['stations/s/was', 5],
  ])('[M8] a %s of %j is named with its path, and the rest is read', (name, value) => {
    const path = `blocks/b/${name}`;
    const { blocks, unread } = readBlocks({
      'blocks/b/kind': 'rounds',
      'blocks/b/stations/s/exercise': 'lib-push-up',
      [path]: value,
    });
    expect(unread).toEqual([{ type: 'from-a-newer-app', path, value }]);
    expect(blocks[0]?.stations.map(({ exercise }) => exercise)).toEqual(['lib-push-up']);
    expect(JSON.stringify(blocks)).not.toContain(`"${name}":${JSON.stringify(value)}`);
    expect(sessionOf({ 'blocks/b/kind': 'rounds', [path]: value }).unread).toEqual(unread);
  });

  test.each([
    'blocks',
    'blocks/b',
    'blocks/b/nova',
    'blocks/b/constructor',
    'blocks/b/stations/s/reps/x',
    'blocks/b/rest/x',
  ])('the unknown path %s is passed over', (path) => {
    expect(readBlocks({ 'blocks/b/kind': 'rounds', [path]: 7 })).toEqual(readBlocks({ 'blocks/b/kind': 'rounds' }));
  });
});

describe('the grid of a block', () => {
  test('has a row a station and a cell a round, and says what is missing', () => {
    const three = block({ rounds: 3 }, pushPull);
    expect(drawn(grid(three, []))).toEqual(['. . .', '. . .']);
    const sets = [inCell('push', 1), inCell('pull', 1), inCell('push', 2)];
    expect(drawn(grid(three, sets))).toEqual(['- - .', '- . .']);
    expect(grid(three, sets)[0]?.[1]?.done).toEqual([sets[2]]);
  });

  test('left and right are apart where each side has sets of its own', () => {
    const one = block({ rounds: 2 }, { row: 'lib-one-arm-row' });
    expect(drawn(grid(one, [inCell('row', 1, { side: 'right' })]))).toEqual(['l lr']);
    expect(drawn(grid(one, [inCell('row', 1, { side: 'right' }), inCell('row', 1, { side: 'left' })]))).toEqual([
      '- lr',
    ]);
  });

  test('sets of no block and of another block are none of it', () => {
    const one = block({ rounds: 1 }, pushPull);
    const other = set({ in: { block: 'c', station: 'push', round: 1 } });
    expect(drawn(grid(one, [set({}), other]))).toEqual(['.', '.']);
  });

  test('a round more than planned, as two devices can make one, has its cells too', () => {
    expect(drawn(grid(block({ rounds: 2 }, pushPull), [inCell('push', 3)]))).toEqual(['. . -', '. . .']);
  });

  test('[M8] a round beyond every bound is none: no grid of a million cells is made', () => {
    const values = {
      'blocks/b/kind': 'rounds',
      'blocks/b/stations/s/exercise': 'lib-push-up',
      'sets/x/exercise': 'lib-push-up',
      'sets/x/at': instantIn(5),
      'sets/x/in': { block: 'b', station: 's', round: 4_000_000_000 },
    };
    const session = sessionOf(values);
    expect(session.unread).toEqual([{ type: 'from-a-newer-app', path: 'sets/x/in', value: values['sets/x/in'] }]);
    expect(drawn(grid(session.blocks[0]!, session.sets))).toEqual(['.']);
  });

  test('a skipped station has nothing missing, and keeps what was done', () => {
    const three = block({ rounds: 2, 'stations/pull/skipped': { why: 'elbow' } }, pushPull);
    const done = inCell('pull', 1);
    const [, pull] = grid(three, [done]);
    expect(drawn(grid(three, [done]))).toEqual(['. .', '- -']);
    expect(pull?.[0]?.done).toEqual([done]);
  });

  test('a swapped station counts what was done there before', () => {
    const swapped = block({ rounds: 2, 'stations/pull/was': 'lib-pull-up' }, pushPull);
    expect(drawn(grid(swapped, [inCell('pull', 1, { exercise: 'lib-pull-up' })]))).toEqual(['. .', '- .']);
  });

  test('as many as possible: one round, and one more each time a round is full, until it is stopped', () => {
    const most = { kind: 'most', cap: 600 };
    const full = [inCell('push', 1), inCell('pull', 1)];
    expect(drawn(grid(block(most, pushPull), []))).toEqual(['.', '.']);
    expect(drawn(grid(block(most, pushPull), [full[0]!]))).toEqual(['-', '.']);
    expect(drawn(grid(block(most, pushPull), full))).toEqual(['- .', '- .']);
    expect(drawn(grid(block({ ...most, stopped: instantIn(600) }, pushPull), full))).toEqual(['-', '-']);
  });
});

describe('where a block stands', () => {
  const two = block({ rounds: 2 }, { ...pushPull, squat: 'lib-goblet-squat' });

  test('working at a station of a round, a round done, all done', () => {
    expect(state(two, [])).toEqual({ state: 'working', round: 1, station: 1, of: 3 });
    const sets = [inCell('push', 1)];
    expect(state(two, sets)).toEqual({ state: 'working', round: 1, station: 2, of: 3 });
    sets.push(inCell('pull', 1), inCell('squat', 1));
    expect(state(two, sets)).toEqual({ state: 'round-done', round: 1, next: 2 });
    sets.push(inCell('pull', 2));
    expect(state(two, sets), 'the first that is missing').toEqual({ state: 'working', round: 2, station: 1, of: 3 });
    sets.push(inCell('push', 2), inCell('squat', 2));
    expect(state(two, sets)).toEqual({ state: 'done', rounds: 2 });
    expect(nextCell(grid(two, sets))).toBeUndefined();
  });

  test('a hole left in an earlier round comes first', () => {
    const sets = [inCell('push', 1), inCell('squat', 1), inCell('push', 2)];
    expect(state(two, sets)).toEqual({ state: 'working', round: 1, station: 2, of: 3 });
    expect(fullRounds(grid(two, sets))).toBe(0);
  });

  test('with one side done it is still at that station', () => {
    const rows = block({ rounds: 1 }, { row: 'lib-one-arm-row', push: 'lib-push-up' });
    expect(state(rows, [inCell('row', 1, { side: 'left' })])).toMatchObject({ station: 1, of: 2 });
  });

  test('skipped stations do not count', () => {
    const skipping = block(
      { rounds: 1, 'stations/pull/skipped': { why: '' } },
      { ...pushPull, squat: 'lib-goblet-squat' },
    );
    expect(state(skipping, [inCell('push', 1)])).toEqual({ state: 'working', round: 1, station: 2, of: 2 });
    expect(state(skipping, [inCell('push', 1), inCell('squat', 1)])).toEqual({ state: 'done', rounds: 1 });
  });

  test('with no station, or none that is not skipped, it is empty', () => {
    expect(state(block({ rounds: 2 }), [])).toEqual({ state: 'empty' });
    const skipped = block({ 'stations/push/skipped': { why: '' } }, { push: 'lib-push-up' });
    expect(state(skipped, [])).toEqual({ state: 'empty' });
  });

  test('as many as possible, stopped: full rounds, whatever was begun after', () => {
    const most = { kind: 'most', cap: 600 };
    const sets = [inCell('push', 1), inCell('pull', 1), inCell('push', 2)];
    expect(state(block(most, pushPull), sets)).toEqual({ state: 'working', round: 2, station: 2, of: 2 });
    expect(state(block({ ...most, stopped: instantIn(600) }, pushPull), sets)).toEqual({ state: 'done', rounds: 1 });
  });
});

describe('the side due in a cell', () => {
  const one = block({ rounds: 2 }, { row: 'lib-one-arm-row' });
  const due = (sets: SetRecord[], round: number) => sideDue(grid(one, sets)[0]![round - 1]!, sets);
  const row = (side: 'left' | 'right', round: number) => inCell('row', round, { side, exercise: 'lib-one-arm-row' });

  test('is the one missing, and of two the one that began', () => {
    expect(due([], 1)).toBe('left');
    expect(due([row('right', 1)], 1)).toBe('left');
    expect(due([row('right', 1), row('left', 1)], 2), 'the weaker side can go first').toBe('right');
  });

  test('is none where sides do not count', () => {
    const push = block({ rounds: 1 }, { push: 'lib-push-up' });
    expect(sideDue(grid(push, [])[0]![0]!, [])).toBeNull();
  });
});

test.each([
  [0, 'A'],
  [1, 'B'],
  [25, 'Z'],
  [26, 'AA'],
  [27, 'AB'],
  [51, 'AZ'],
  [52, 'BA'],
  [701, 'ZZ'],
  [702, 'AAA'],
])('block %d is %s', (place, letter) => {
  expect(letterOf(place)).toBe(letter);
});
