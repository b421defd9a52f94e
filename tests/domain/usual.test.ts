import { describe, expect, test } from 'vitest';
import { usualOf } from '../../src/domain/usual';

const done = (session: string, ...exercises: string[]) => ({ session, exercises });

describe('the usual session: common practice, two alike make a habit', () => {
  test('none where nothing was done, or no two are alike', () => {
    expect(usualOf([])).toBeUndefined();
    expect(usualOf([done('3', 'squat', 'row'), done('2', 'squat'), done('1', 'row')])).toBeUndefined();
  });

  test('the later of two alike, whatever the order of their exercises', () => {
    expect(usualOf([done('2', 'row', 'squat'), done('1', 'squat', 'row')])?.session).toBe('2');
  });

  test('another one between two alike does not hide them', () => {
    expect(usualOf([done('3', 'press'), done('2', 'squat', 'row'), done('1', 'squat', 'row')])?.session).toBe('2');
  });

  test('two kinds in turn: the one that was not done last', () => {
    const turns = [done('4', 'press'), done('3', 'squat'), done('2', 'press'), done('1', 'squat')];
    expect(usualOf(turns)?.session).toBe('3');
    expect(usualOf(turns.slice(0, 3))?.session).toBe('4');
  });

  test('sessions that did not happen hold nothing, and are no habit', () => {
    expect(usualOf([done('2'), done('1'), { session: '0' }])).toBeUndefined();
  });
});
