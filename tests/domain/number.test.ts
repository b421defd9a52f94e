import { describe, expect, test } from 'vitest';
import { parseNumber } from '../../src/domain/number';

const KG = { min: 0, max: 600 };
const load = (text: string) => parseNumber('load', text, KG, 'kg');

describe('a number as it is typed', () => {
  test.each<[typed: string, value: number]>([
    ['57.5', 57.5],
    ['57,5', 57.5],
    [' 57,5 ', 57.5],
    ['60', 60],
    ['060', 60],
    ['+60', 60],
    ['60.', 60],
    ['60,', 60],
    ['.5', 0.5],
    [',5', 0.5],
    ['0', 0],
    ['-0', 0],
    ['600', 600],
    ['1.250', 1.25],
    ['1,250', 1.25],
    ['20.125', 20.125],
    ['20.125000', 20.125],
  ])('%j is %d', (typed, value) => {
    expect(load(typed)).toEqual({ ok: true, value });
  });

  test('no zero is below zero', () => {
    expect(Object.is((load('-0') as { value: number }).value, 0)).toBe(true);
  });

  test.each(['', ' ', '\t', '\u00a0'])('%j is empty, and never 0', (typed) => {
    expect(load(typed)).toEqual({ ok: false, error: { type: 'empty', field: 'load' } });
  });

  test.each([
    ['1.250,5'],
    ['1,250.5'],
    ['1e3'],
    ['1 000'],
    ['1\u00a0000'],
    ['1_000'],
    ["1'000"],
    ['0x10'],
    ['sixty'],
    ['60kg'],
    ['60 kg'],
    ['NaN'],
    ['Infinity'],
    ['.'],
    [','],
    ['-'],
    ['−'],
    ['--5'],
    ['5-'],
    ['1..5'],
    ['٦٠'],
    ['½'],
  ])('%j is not a number, and is told as it was typed', (typed) => {
    expect(load(typed)).toEqual({ ok: false, error: { type: 'not-a-number', field: 'load', text: typed } });
  });

  test.each(['-5', '−5', '-0.001', '600.001', '99999999999999999999'])('%j is out of range', (typed) => {
    const error = { type: 'out-of-range', field: 'load', min: 0, max: 600, unit: 'kg' };
    expect(load(typed)).toEqual({ ok: false, error });
  });

  test.each(['-5', '−5', '-5,0'])('%j is below zero where that is allowed', (typed) => {
    expect(parseNumber('shift', typed, { min: -10, max: 10 })).toEqual({ ok: true, value: -5 });
  });

  test.each(['20.1251', '0.0001', '600.00000000000000001'])('%j is too fine: nothing typed is rounded', (typed) => {
    expect(load(typed)).toEqual({ ok: false, error: { type: 'too-fine', field: 'load', decimals: 3 } });
  });

  test.each(['5.5', '5,25', '0.001'])('%j is off the step of whole reps', (typed) => {
    expect(parseNumber('reps', typed, { min: 0, max: 500, step: 1 })).toEqual({
      ok: false,
      error: { type: 'off-step', field: 'reps', step: 1 },
    });
  });

  test('halves are on a step of 0.5 and quarters are not', () => {
    const left = { min: 0, max: 5, step: 0.5 };
    expect(parseNumber('left', '2,5', left)).toEqual({ ok: true, value: 2.5 });
    expect(parseNumber('left', '2,25', left)).toEqual({
      ok: false,
      error: { type: 'off-step', field: 'left', step: 0.5 },
    });
  });
});
