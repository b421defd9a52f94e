import { describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { type Load, loadSchema, MOST_LOAD, toKg } from '../../src/domain/units';

describe('loads in kilograms (published values: the methods book, chapter 15, units; exact by the definition of the pound)', () => {
  test.each<[lb: number, kg: number]>([
    [45, 20.41165665],
    [135, 61.23496995],
    [225, 102.05828325],
  ])('%d lb is %d kg', (value, kg) => {
    expect(toKg({ value, unit: 'lb' })).toBeCloseTo(kg, 10);
  });

  // given there to eight decimals, one fewer than it has
  test('2.5 lb is 1.13398093 kg', () => {
    expect(toKg({ value: 2.5, unit: 'lb' })).toBeCloseTo(1.13398093, 7);
  });

  test.each<[kg: number, lb: number]>([
    [20, 44.09245244],
    [100, 220.46226218],
  ])('%d kg is %d lb', (kg, value) => {
    expect(toKg({ value, unit: 'lb' })).toBeCloseTo(kg, 7);
  });

  test('a bar of 45 lb is no bar of 20 kg', () => {
    expect(toKg({ value: 45, unit: 'lb' }) - toKg({ value: 20, unit: 'kg' })).toBeCloseTo(0.41, 2);
  });

  test('kilograms are what was typed, to the last digit', () => {
    expect(toKg({ value: 57.3, unit: 'kg' })).toBe(57.3);
  });
});

describe('what a load may be', () => {
  const admitted = (load: unknown) => z.safeParse(loadSchema, load).success;

  test.each<Load>([
    { value: 0, unit: 'kg' },
    { value: 600, unit: 'kg' },
    { value: 1320, unit: 'lb' },
  ])('%j is one', (load) => {
    expect(admitted(load)).toBe(true);
  });

  test.each([
    { value: 600.5, unit: 'kg' },
    { value: 1320.5, unit: 'lb' },
    { value: -1, unit: 'kg' },
    { value: 5, unit: 'st' },
    { value: '5', unit: 'kg' },
    { unit: 'kg' },
    5,
    null,
  ])('%j is none', (load) => {
    expect(admitted(load)).toBe(false);
  });

  test('the bounds in both units are within 2 kg of each other', () => {
    expect(toKg({ value: MOST_LOAD.lb, unit: 'lb' })).toBeGreaterThan(MOST_LOAD.kg - 2);
    expect(toKg({ value: MOST_LOAD.lb, unit: 'lb' })).toBeLessThanOrEqual(MOST_LOAD.kg);
  });
});
