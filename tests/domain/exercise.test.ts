import { describe, expect, test } from 'vitest';
import { type Exercise, MOST_NAME, readExercise } from '../../src/domain/exercise';
import { SHIPPED_EXERCISES } from '../../src/domain/library';

const shipped: Exercise = {
  id: 'lib-row',
  name: 'One-arm row',
  holds: 'load',
  sides: 'each',
  perHand: true,
  step: 2,
  rest: 60,
};

describe('an exercise of the trainer', () => {
  test('has what its row says, and the usual for the rest', () => {
    expect(readExercise('e1', { name: 'Sled push', holds: 'load' })).toEqual({
      id: 'e1',
      name: 'Sled push',
      holds: 'load',
      sides: 'both',
      perHand: false,
      step: 2.5,
      rest: 120,
    });
  });

  test.each([
    {},
    { name: 'Sled push' },
    { holds: 'load' },
    { name: '', holds: 'load' },
    { name: 'Sled push', holds: 'springs' },
    { name: null, holds: 'load' },
  ])('is none where it has no name or nothing it holds: %j', (values) => {
    expect(readExercise('e1', values)).toBeUndefined();
  });
});

describe('an overlay of a shipped exercise', () => {
  test('changes what it holds alone', () => {
    expect(readExercise('lib-row', { rest: 75 }, shipped)).toEqual({ ...shipped, rest: 75 });
    expect(readExercise('lib-row', { name: 'Row', step: 1 }, shipped)).toEqual({ ...shipped, name: 'Row', step: 1 });
    expect(readExercise('lib-row', { perHand: false, sides: 'both', holds: 'pin' }, shipped)).toEqual({
      ...shipped,
      perHand: false,
      sides: 'both',
      holds: 'pin',
    });
  });

  test('cleared, is the shipped one again', () => {
    expect(readExercise('lib-row', { rest: null, name: null }, shipped)).toEqual(shipped);
  });

  test.each<[string, unknown]>([
    ['rest', -1],
    ['rest', 1801],
    ['rest', 60.5],
    ['step', 0],
    ['step', 61],
    ['name', 'x'.repeat(MOST_NAME + 1)],
    ['holds', 'springs'],
    ['perHand', 'yes'],
  ])('[M8] passes over a %s of %j, and over paths it does not know', (path, value) => {
    expect(readExercise('lib-row', { [path]: value, 'nova/constructor': 1, constructor: 2 }, shipped)).toEqual(shipped);
  });
});

test('every shipped exercise is read back from its own values, under an id of the library', () => {
  for (const exercise of SHIPPED_EXERCISES) {
    const { id, ...values } = exercise;
    expect(id).toMatch(/^lib-[a-z-]+$/);
    expect(readExercise(id, values)).toEqual(exercise);
  }
  expect(new Set(SHIPPED_EXERCISES.map(({ id }) => id)).size).toBe(SHIPPED_EXERCISES.length);
});
