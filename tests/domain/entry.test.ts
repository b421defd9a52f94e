import { describe, expect, test } from 'vitest';
import { type Entry, type Fields, fieldsFrom, fieldsOf, NO_TEXTS, parseEntry } from '../../src/domain/entry';
import type { Exercise, Holds } from '../../src/domain/exercise';
import { SET_KINDS } from '../../src/domain/set';
import { NO_SET_UP, workingEntry } from './made';

const exercise = (holds: Holds, sides: Exercise['sides'] = 'both'): Exercise => ({
  id: 'e1',
  name: 'Exercise',
  holds,
  sides,
  perHand: false,
  step: 2.5,
  rest: 120,
});
const texts = NO_TEXTS;
const empty: Entry = workingEntry('e1');
const parse = (entry: Partial<Entry>, holds: Holds = 'load', sides: Exercise['sides'] = 'both') =>
  parseEntry({ ...empty, ...entry }, exercise(holds, sides), (place) => `p${place}`);
const own = { exercise: 'e1', kind: 'working' };

describe('the set that an entry tells of', () => {
  test.each<[what: string, entry: Partial<Entry>, holds: Holds, values: object]>([
    ['a load', { load: '57,5', reps: '5' }, 'load', { load: { value: 57.5, unit: 'kg' }, reps: 5 }],
    [
      'a load in pounds, as typed',
      { load: '45', reps: '5', unit: 'lb' },
      'load',
      { load: { value: 45, unit: 'lb' }, reps: 5 },
    ],
    ['nothing on the bar, no rep made', { load: '0', reps: '0' }, 'load', { load: { value: 0, unit: 'kg' }, reps: 0 }],
    ['a band', { band: ' red ', reps: '12' }, 'band', { band: 'red', reps: 12 }],
    ['a pin, which is a name and no number', { pin: '7½', reps: '10' }, 'pin', { pin: '7½', reps: 10 }],
    ['a band of the longest name', { band: 'x'.repeat(24), reps: '1' }, 'band', { band: 'x'.repeat(24), reps: 1 }],
    ['a hold without a load', { seconds: '32,5' }, 'time', { seconds: 32.5 }],
    ['a hold with a load', { load: '10', seconds: '30' }, 'time', { load: { value: 10, unit: 'kg' }, seconds: 30 }],
    ['body mass alone', { reps: '4', load: '20', band: 'red' }, 'body', { reps: 4 }],
    [
      'body mass and more',
      { body: 'added', load: '10', reps: '4' },
      'body',
      { added: { value: 10, unit: 'kg' }, reps: 4 },
    ],
    [
      'body mass helped',
      { body: 'assist', load: '10', reps: '4' },
      'body',
      { assist: { value: 10, unit: 'kg' }, reps: 4 },
    ],
    ['body mass helped by a band', { body: 'band', band: 'green', reps: '4' }, 'body', { band: 'green', reps: 4 }],
    [
      'a set-up',
      { load: '60', reps: '5', setUp: { ...NO_SET_UP, setUp: ' bench 3 ' } },
      'load',
      { load: { value: 60, unit: 'kg' }, reps: 5, setUp: 'bench 3' },
    ],
  ])('%s', (_, entry, holds, values) => {
    expect(parse(entry, holds)).toEqual({ ok: true, value: { ...own, ...values } });
  });

  test('the longest set-up is taken whole', () => {
    const setUp = 'x'.repeat(200);
    expect(parse({ load: '60', reps: '5', setUp: { ...NO_SET_UP, setUp } })).toMatchObject({
      ok: true,
      value: { setUp },
    });
  });

  test.each(SET_KINDS.filter((kind) => kind !== 'drop' && kind !== 'cluster'))(
    'a %s set has no parts, whatever lies in them',
    (kind) => {
      const parts = [{ ...texts, load: 'nonsense' }];
      expect(parse({ kind, load: '60', reps: '5', parts })).toEqual({
        ok: true,
        value: { exercise: 'e1', kind, load: { value: 60, unit: 'kg' }, reps: 5 },
      });
    },
  );

  test.each(['drop', 'cluster'] as const)('a %s set has its later parts under ids of their own', (kind) => {
    const parts = [
      { ...texts, load: '50', reps: '6' },
      { ...texts, load: '40', reps: '8' },
    ];
    expect(parse({ kind, load: '60', reps: '5', parts })).toEqual({
      ok: true,
      value: {
        exercise: 'e1',
        kind,
        load: { value: 60, unit: 'kg' },
        reps: 5,
        'parts/p1/load': { value: 50, unit: 'kg' },
        'parts/p1/reps': 6,
        'parts/p2/load': { value: 40, unit: 'kg' },
        'parts/p2/reps': 8,
      },
    });
  });

  test('the parts of a body-mass set are helped or loaded as the set is', () => {
    const parts = [{ ...texts, load: '20', reps: '3' }];
    expect(parse({ kind: 'drop', body: 'assist', load: '10', reps: '4', parts }, 'body')).toMatchObject({
      ok: true,
      value: { 'parts/p1/assist': { value: 20, unit: 'kg' }, 'parts/p1/reps': 3 },
    });
  });

  test('eight parts in all are the most', () => {
    const parts = Array.from({ length: 7 }, () => ({ ...texts, load: '50', reps: '6' }));
    expect(parse({ kind: 'drop', load: '60', reps: '5', parts }).ok).toBe(true);
  });

  test('the side is asked where each side has sets of its own, and only there', () => {
    expect(parse({ load: '20', reps: '8', side: 'left' }, 'load', 'each')).toMatchObject({
      ok: true,
      value: { side: 'left' },
    });
    const both = parse({ load: '20', reps: '8', side: 'left' });
    expect(both.ok && 'side' in both.value).toBe(false);
  });
});

describe('an entry that is no set', () => {
  const range = { type: 'out-of-range', field: 'load', min: 0, max: 600, unit: 'kg' };
  const drop = { kind: 'drop', load: '60', reps: '5' } as const;
  const part = (fields: Partial<Fields>) => ({ ...texts, load: '50', reps: '6', ...fields });

  test.each<[what: string, entry: Partial<Entry>, holds: Holds, error: object]>([
    ['no load', { reps: '5' }, 'load', { type: 'empty', field: 'load' }],
    ['no reps', { load: '60' }, 'load', { type: 'empty', field: 'reps' }],
    ['nothing: the first of the sentence', {}, 'load', { type: 'empty', field: 'load' }],
    ['a load of letters', { load: 'sixty', reps: '5' }, 'load', { type: 'not-a-number', field: 'load', text: 'sixty' }],
    ['a load below zero', { load: '−5', reps: '5' }, 'load', range],
    ['a load too high', { load: '601', reps: '5' }, 'load', range],
    ['pounds too high', { load: '1321', reps: '5', unit: 'lb' }, 'load', { ...range, max: 1320, unit: 'lb' }],
    ['a load too fine', { load: '60.0001', reps: '5' }, 'load', { type: 'too-fine', field: 'load', decimals: 3 }],
    ['half a rep', { load: '60', reps: '5.5' }, 'load', { type: 'off-step', field: 'reps', step: 1 }],
    [
      'too many reps',
      { load: '60', reps: '501' },
      'load',
      { type: 'out-of-range', field: 'reps', min: 0, max: 500, unit: '' },
    ],
    ['no band', { reps: '5' }, 'band', { type: 'empty', field: 'band' }],
    [
      'a long band',
      { band: 'x'.repeat(25), reps: '5' },
      'band',
      { type: 'label-too-long', field: 'band', most: 24, has: 25 },
    ],
    ['no pin', { pin: ' ', reps: '5' }, 'pin', { type: 'empty', field: 'pin' }],
    [
      'a long pin',
      { pin: 'x'.repeat(25), reps: '5' },
      'pin',
      { type: 'label-too-long', field: 'pin', most: 24, has: 25 },
    ],
    ['no time', { load: '10' }, 'time', { type: 'empty', field: 'seconds' }],
    [
      'no time at all',
      { seconds: '0' },
      'time',
      { type: 'out-of-range', field: 'seconds', min: 1, max: 7200, unit: 's' },
    ],
    [
      'a hold with a bad load',
      { load: 'x', seconds: '30' },
      'time',
      { type: 'not-a-number', field: 'load', text: 'x' },
    ],
    ['load added, not said', { body: 'added', reps: '4' }, 'body', { type: 'empty', field: 'load' }],
    ['help, not said', { body: 'assist', reps: '4' }, 'body', { type: 'empty', field: 'load' }],
    ['help of no band', { body: 'band', reps: '4' }, 'body', { type: 'empty', field: 'band' }],
    [
      'a long set-up',
      { load: '60', reps: '5', setUp: { ...NO_SET_UP, setUp: 'x'.repeat(201) } },
      'load',
      { type: 'label-too-long', field: 'setUp', most: 200, has: 201 },
    ],
    ['a drop without parts', drop, 'load', { type: 'parts-missing', field: 'parts' }],
    [
      'nine parts in all',
      { ...drop, parts: Array.from({ length: 8 }, () => part({})) },
      'load',
      { type: 'too-many-parts', field: 'parts', most: 8 },
    ],
    ['a bad second part', { ...drop, parts: [part({ reps: '' })] }, 'load', { type: 'empty', field: 'reps', part: 2 }],
    ['a bad third part', { ...drop, parts: [part({}), part({ load: '700' })] }, 'load', { ...range, part: 3 }],
  ])('%s', (_, entry, holds, error) => {
    expect(parse(entry, holds)).toEqual({ ok: false, error });
  });

  test('no side, before all else', () => {
    expect(parse({}, 'load', 'each')).toEqual({ ok: false, error: { type: 'no-side', field: 'side' } });
  });
});

describe('the way back to the pad', () => {
  test.each<[Holds, Partial<Entry>]>([
    ['load', { load: '57.5', reps: '5', unit: 'lb' }],
    ['load', { load: '0', reps: '0' }],
    ['body', { reps: '4', body: 'alone' }],
    ['body', { load: '10', reps: '4', body: 'added' }],
    ['body', { load: '10', reps: '4', body: 'assist' }],
    ['body', { band: 'green', reps: '4', body: 'band' }],
    ['pin', { pin: '7', reps: '4' }],
    ['time', { seconds: '32.5' }],
    ['time', { load: '10', seconds: '30' }],
  ])('what a %s entry held would be entered alike: %j', (holds, entry) => {
    const first = parse(entry, holds);
    if (!first.ok) throw new Error(first.error.type);
    const { unit, distanceUnit, ...back } = fieldsFrom(first.value);
    expect(parse({ ...back, unit: unit ?? 'kg', distanceUnit: distanceUnit ?? 'm' }, holds)).toEqual(first);
    expect(back).toMatchObject(Object.fromEntries(Object.entries(entry).filter(([field]) => !/unit/i.test(field))));
  });

  test('a hold that nothing is noted of is empty, not 0', () => {
    expect(fieldsFrom({})).toEqual({ ...texts, body: 'alone', unit: null, distanceUnit: null });
  });
});

test.each<[Holds, Entry['body'], string]>([
  ['load', 'alone', 'load reps'],
  ['body', 'alone', 'reps'],
  ['body', 'added', 'load reps'],
  ['body', 'assist', 'load reps'],
  ['body', 'band', 'band reps'],
  ['band', 'alone', 'band reps'],
  ['pin', 'alone', 'pin reps'],
  ['time', 'alone', 'load seconds'],
])('the sentence of %s, %s, asks %s', (holds, body, fields) => {
  expect(fieldsOf(holds, body).join(' ')).toBe(fields);
});
