import { describe, expect, test } from 'vitest';
import { cutTo, stillToDo } from '../../src/domain/cut';
import type { SetRecord } from '../../src/domain/set';
import { exerciseOf, instantIn, sessionOf, set } from './made';

const todo = (values: Record<string, unknown>, sets: SetRecord[] = []) => {
  const { items, blocks } = sessionOf(values);
  return stillToDo(items, blocks, sets, exerciseOf).map(({ id, seconds }) => [id, seconds]);
};
const listed = (id: string, order: string, plan: object = {}) => ({
  [`exercises/${id}/order`]: order,
  [`exercises/${id}/plan`]: plan,
});

// a set takes 40 s; squat rests 150 s, one-arm row 60 s and has two sides (common practice, rough)
describe('what is still to be done', () => {
  test('of an exercise: its planned sets with their rests, 3 where none are planned', () => {
    expect(todo(listed('lib-back-squat', 'g', { sets: 4 }))).toEqual([['lib-back-squat', 4 * 190]]);
    expect(todo(listed('lib-back-squat', 'g'))).toEqual([['lib-back-squat', 3 * 190]]);
    expect(todo(listed('lib-one-arm-row', 'g', { sets: 2 }))).toEqual([['lib-one-arm-row', 2 * (80 + 60)]]);
  });

  test('less what was done; a warm-up is not done work', () => {
    const sets = [set({}), set({ kind: 'warm-up' })];
    expect(todo(listed('lib-back-squat', 'g', { sets: 4 }), sets)).toEqual([['lib-back-squat', 3 * 190]]);
    expect(todo(listed('lib-back-squat', 'g', { sets: 1 }), sets)).toEqual([]);
    const left = [set({ exercise: 'lib-one-arm-row', side: 'left' })];
    expect(todo(listed('lib-one-arm-row', 'g', { sets: 2 }), left)).toEqual([['lib-one-arm-row', 1.5 * 140]]);
  });

  test('nothing of what is skipped, swapped, or not in this library', () => {
    const skipped = { ...listed('lib-back-squat', 'g'), 'exercises/lib-back-squat/skipped': { why: '' } };
    const swapped = {
      ...listed('lib-back-squat', 'g'),
      'exercises/lib-back-squat/swappedFor': { exercise: 'lib-front-squat' },
    };
    expect(todo({ ...skipped, ...listed('gone', 'h') })).toEqual([]);
    expect(todo(swapped)).toEqual([]);
  });

  const blockOf = (registers: Record<string, unknown>) => ({
    ...Object.fromEntries(Object.entries(registers).map(([name, value]) => [`blocks/b/${name}`, value])),
    'blocks/b/stations/s/exercise': 'lib-push-up',
    'blocks/b/stations/t/exercise': 'lib-one-arm-row',
  });

  test.each<[what: string, registers: Record<string, unknown>, seconds: number]>([
    ['rounds: three sets each, and the rest after', { kind: 'rounds', rounds: 3, rest: 90 }, 3 * (120 + 90)],
    ['a list, its rounds', { kind: 'list', reps: [21, 15, 9], rest: 0 }, 3 * 120],
    ['every two minutes', { kind: 'every', rounds: 5, every: 120 }, 600],
    ['as many as possible', { kind: 'most', cap: 720 }, 720],
    ['work and rest by the clock', { kind: 'timed', rounds: 3, work: 40, off: 20 }, 3 * 2 * 60],
  ])('of a block: %s', (_, registers, seconds) => {
    expect(todo(blockOf(registers))).toEqual([['b', seconds]]);
  });

  test('of a block, less the rounds done; none of one that is over', () => {
    const rounds = blockOf({ kind: 'rounds', rounds: 3, rest: 90 });
    const done = (['left', 'right', undefined] as const).map((side) =>
      set({ in: { block: 'b', station: side ? 't' : 's', round: 1 }, ...(side ? { side } : {}) }),
    );
    expect(todo(rounds, done)).toEqual([['b', 2 * (120 + 90)]]);
    for (const over of [{ 'blocks/b/skipped': { why: '' } }, { 'blocks/b/stopped': instantIn(5) }])
      expect(todo({ ...rounds, ...over })).toEqual([]);
    expect(todo({ 'blocks/b/kind': 'mobility', 'blocks/b/done': instantIn(5) })).toEqual([]);
  });

  test('stands in the order of the list, exercises and blocks together', () => {
    const values = {
      ...listed('lib-back-squat', 'm'),
      ...blockOf({ kind: 'most', cap: 720, order: 'k' }),
      ...listed('lib-push-up', 'g'),
    };
    expect(todo(values).map(([id]) => id)).toEqual(['lib-push-up', 'b', 'lib-back-squat']);
  });
});

describe('cut to so many minutes', () => {
  const things = [
    { type: 'exercise' as const, id: 'a', seconds: 600 },
    { type: 'block' as const, id: 'b', seconds: 900 },
    { type: 'exercise' as const, id: 'c', seconds: 300 },
  ];
  const cut = (minutes: number) => {
    const { keeps, leavesOut } = cutTo(things, minutes);
    return [keeps.map(({ id }) => id).join(''), leavesOut.map(({ id }) => id).join('')];
  };

  test.each([
    [30, 'abc', ''],
    [25, 'ab', 'c'],
    [15, 'ac', 'b'],
    [10, 'a', 'bc'],
    [9, 'c', 'ab'],
    [0, '', 'abc'],
  ])('%d minutes keep %j and leave out %j: nothing is cut in half', (minutes, keeps, leavesOut) => {
    expect(cut(minutes)).toEqual([keeps, leavesOut]);
  });
});
