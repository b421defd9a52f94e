import { describe, expect, test } from 'vitest';
import { type PlaceFields, parsePlace, readPlace } from '../../src/domain/kit';

const parse = (fields: Partial<PlaceFields>) => parsePlace({ name: 'Basement', bands: '', pins: '', ...fields });

describe('a place as typed', () => {
  test('has bands from light to heavy and pins', () => {
    expect(parse({ name: ' Basement ', bands: ' yellow, red,, black ,red', pins: ' 15 ' })).toEqual({
      ok: true,
      value: { name: 'Basement', bands: ['yellow', 'red', 'black'], pins: 15 },
    });
    expect(parse({})).toEqual({ ok: true, value: { name: 'Basement', bands: [], pins: null } });
  });

  test.each<[Partial<PlaceFields>, object]>([
    [{ name: ' ' }, { type: 'empty', field: 'place' }],
    [{ name: 'x'.repeat(41) }, { type: 'too-long', field: 'place', most: 40, has: 41 }],
    [{ bands: `red,${'x'.repeat(25)}` }, { type: 'too-long', field: 'bands', most: 24, has: 25 }],
    [{ bands: Array.from({ length: 13 }, (_, n) => `b${n}`).join() }, { type: 'too-many', field: 'bands', most: 12 }],
  ])('%j is refused by its field', (fields, error) => {
    expect(parse(fields)).toEqual({ ok: false, error });
  });

  test.each(['0', '100', '7.5', 'ten', '-3', '1e1', '0x10'])('%s is no number of pins', (pins) => {
    expect(parse({ pins })).toEqual({
      ok: false,
      error: { type: 'out-of-range', field: 'pins', min: 1, max: 99, unit: '' },
    });
  });
});

describe('a place as read', () => {
  test('has what it says; what cannot be read takes nothing else away [M8]', () => {
    expect(readPlace('p', { name: 'Basement', bands: ['red'], pins: 15 })).toEqual({
      id: 'p',
      name: 'Basement',
      bands: ['red'],
      pins: 15,
    });
    expect(readPlace('p', { name: 'Basement', bands: 'red', pins: null })).toEqual({
      id: 'p',
      name: 'Basement',
      bands: [],
    });
  });

  test.each([{}, { name: null }, { name: '' }])('is none without a name: %j', (values) => {
    expect(readPlace('p', values)).toBeUndefined();
  });
});
