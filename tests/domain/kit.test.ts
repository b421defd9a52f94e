import { describe, expect, test } from 'vitest';
import { readPlace } from '../../src/domain/kit';
import { NO_PLACE, type PlaceFields, parsePlace, placeFields } from '../../src/domain/kitFields';
import { PLACE_KINDS, usualKit } from '../../src/domain/kitPresets';
import { LOAD_UNITS } from '../../src/domain/units';

const parse = (fields: Partial<PlaceFields>) => parsePlace({ ...NO_PLACE, name: 'Basement', ...fields });
const noIron = { unit: 'kg', bars: [], plates: [], dumbbells: [] };

describe('a place as typed', () => {
  test('has bands from light to heavy and pins', () => {
    expect(parse({ name: ' Basement ', bands: ' yellow, red,, black ,red', pins: ' 15 ' })).toEqual({
      ok: true,
      value: { name: 'Basement', bands: ['yellow', 'red', 'black'], pins: 15, ...noIron },
    });
    expect(parse({})).toEqual({ ok: true, value: { name: 'Basement', bands: [], pins: null, ...noIron } });
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

describe('bars, plates and dumbbells as typed', () => {
  test('are weights in the place’s unit, and rows from the lightest to the heaviest', () => {
    const typed = {
      unit: 'lb',
      bars: ' 45, 35 ',
      plates: '45 25  10 2.5 2.5',
      dumbbells: '5-50 by 5, 60 – 100 by 10,120',
    } as const;
    expect(parse(typed)).toMatchObject({
      ok: true,
      value: {
        unit: 'lb',
        bars: [45, 35],
        plates: [45, 25, 10, 2.5],
        dumbbells: [
          { from: 5, to: 50, step: 5 },
          { from: 60, to: 100, step: 10 },
          { from: 120, to: 120, step: 1 },
        ],
      },
    });
  });

  test.each<[Partial<PlaceFields>, object]>([
    // two plates, or a decimal? Nobody guesses
    [{ plates: '10,5' }, { type: 'not-weights', field: 'plates', text: '10,5' }],
    [{ plates: '20 zero' }, { type: 'not-weights', field: 'plates', text: 'zero' }],
    [{ bars: '0' }, { type: 'not-weights', field: 'bars', text: '0' }],
    [{ bars: '601' }, { type: 'not-weights', field: 'bars', text: '601' }],
    [
      { plates: Array.from({ length: 21 }, (_, n) => n + 1).join(' ') },
      { type: 'too-many', field: 'plates', most: 20 },
    ],
    [{ dumbbells: '2-20' }, { type: 'not-rows', field: 'dumbbells', text: '2-20' }],
    [{ dumbbells: '20-2 by 2' }, { type: 'not-rows', field: 'dumbbells', text: '20-2 by 2' }],
    [{ dumbbells: '2-20 by 0' }, { type: 'not-rows', field: 'dumbbells', text: '2-20 by 0' }],
    [{ dumbbells: '2, many' }, { type: 'not-rows', field: 'dumbbells', text: 'many' }],
  ])('%j is refused by its field', (fields, error) => {
    expect(parse(fields)).toEqual({ ok: false, error });
  });
});

describe('the usual kit of a kind of place', () => {
  const every = PLACE_KINDS.flatMap((kind) => LOAD_UNITS.map((unit) => [kind, unit] as const));
  test.each(every)('%s in %s is read back as it is typed and as it is kept', (kind, unit) => {
    const { pins, ...kit } = usualKit(kind, unit);
    const parsed = parsePlace(placeFields('Here', usualKit(kind, unit)));
    expect(parsed).toEqual({ ok: true, value: { name: 'Here', pins: pins ?? null, ...kit } });
    expect(readPlace('p', { name: 'Here', pins: pins ?? null, ...kit })).toEqual({
      id: 'p',
      name: 'Here',
      ...usualKit(kind, unit),
    });
  });

  test('of a hotel room is bands alone', () => {
    expect(usualKit('hotel-room', 'kg')).toEqual({ bands: ['light', 'medium', 'strong'], ...noIron });
  });
});

describe('a place as read', () => {
  test('has what it says; what cannot be read takes nothing else away [M8]', () => {
    expect(readPlace('p', { name: 'Basement', bands: ['red'], pins: 15 })).toEqual({
      id: 'p',
      name: 'Basement',
      bands: ['red'],
      pins: 15,
      ...noIron,
    });
    expect(readPlace('p', { name: 'Basement', bands: 'red', pins: null })).toEqual({
      id: 'p',
      name: 'Basement',
      bands: [],
      ...noIron,
    });
  });

  test.each([{}, { name: null }, { name: '' }])('is none without a name: %j', (values) => {
    expect(readPlace('p', values)).toBeUndefined();
  });
});
