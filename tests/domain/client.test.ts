import { describe, expect, test } from 'vitest';
import { type ClientFields, parseClient, readClient, shortFor } from '../../src/domain/client';

describe('a client as it is read', () => {
  test('has what its row says', () => {
    const values = {
      alias: 'Client K',
      short: 'K',
      date: { name: 'opening', day: '2026-11-20', newer: true },
      since: { day: '2026-01-31' },
      landings: 'intermediate',
      question: 'How was the voice?',
      'setUps/lib-row/setUp': 'bench 3',
      'setUps/lib-row/tempo': '3-1-x-0',
      'setUps/lib-row/height': { value: 30, unit: 'cm' },
      'setUps/lib-row/pause': null,
      'setUps/lib-pull/setUp': null,
      'setUps/lib-squat/tempo': 'slow',
      'setUps/lib-squat': 'a shape of before',
      'setUps/a/setUp/b': 'deeper',
      'clearances/lib-row': { who: 'Dr A.', at: 5, day: '2026-02-01' },
      'clearances/lib-squat': { who: '', at: 5, day: '2026-02-01' },
      'clearances/lib-pull': { who: 'Dr B.', at: 5, day: '2026-02-30' },
      'nova/constructor': 1,
    };
    expect(readClient('c1', values)).toEqual({
      id: 'c1',
      alias: 'Client K',
      short: 'K',
      date: { name: 'opening', day: '2026-11-20' },
      since: '2026-01-31',
      landings: 'intermediate',
      question: 'How was the voice?',
      setUps: { 'lib-row': { setUp: 'bench 3', tempo: '3-1-x-0', height: { value: 30, unit: 'cm' } } },
      clearances: { 'lib-row': { who: 'Dr A.', at: 5, day: '2026-02-01' } },
    });
  });

  test.each([{}, { alias: '' }, { alias: null }, { alias: 7 }, { alias: 'x'.repeat(41) }])(
    'is none without an alias: %j',
    (values) => {
      expect(readClient('c1', values)).toBeUndefined();
    },
  );

  test('without a short name has the one its alias gives, and a day that does not exist is left out', () => {
    const read = readClient('c1', {
      alias: 'Client K',
      short: null,
      date: { name: 'opening', day: '2027-02-30' },
      since: { day: '' },
      landings: 'expert',
      question: '',
    });
    expect(read).toEqual({ id: 'c1', alias: 'Client K', short: 'K', setUps: {}, clearances: {} });
  });
});

test.each([
  ['Client K', 'K'],
  ['  Client   Kay ', 'Kay'],
  ['Bartholomew', 'Bartho'],
  ['B 😀😀😀😀', '😀😀😀'],
  ['', ''],
])('the short name of %j is %j', (alias, short) => {
  expect(shortFor(alias)).toBe(short);
});

describe('a client as it is typed', () => {
  const fields: ClientFields = { alias: 'Client K', short: '', dayName: '', day: '' };

  test.each<[Partial<ClientFields>, object]>([
    [{}, { alias: 'Client K', short: 'K' }],
    [
      { alias: ' Client K ', short: ' KK ' },
      { alias: 'Client K', short: 'KK' },
    ],
    [
      { dayName: ' opening ', day: ' 2026-11-20 ' },
      { alias: 'Client K', short: 'K', date: { name: 'opening', day: '2026-11-20' } },
    ],
    [
      { alias: 'x'.repeat(40), short: 'x'.repeat(6) },
      { alias: 'x'.repeat(40), short: 'xxxxxx' },
    ],
  ])('%j is taken', (typed, value) => {
    expect(parseClient({ ...fields, ...typed })).toEqual({ ok: true, value });
  });

  test.each<[Partial<ClientFields>, object]>([
    [{ alias: ' ' }, { type: 'empty', field: 'alias' }],
    [{ alias: 'x'.repeat(41) }, { type: 'too-long', field: 'alias', most: 40, has: 41 }],
    [{ short: 'x'.repeat(7) }, { type: 'too-long', field: 'short', most: 6, has: 7 }],
    [
      { dayName: 'x'.repeat(25), day: '2026-11-20' },
      { type: 'too-long', field: 'dayName', most: 24, has: 25 },
    ],
    [{ dayName: 'opening' }, { type: 'empty', field: 'day' }],
    [{ day: '2026-11-20' }, { type: 'empty', field: 'dayName' }],
    [
      { dayName: 'opening', day: '2027-02-30' },
      { type: 'not-a-day', field: 'day', text: '2027-02-30' },
    ],
  ])('%j is refused, with its field', (typed, error) => {
    expect(parseClient({ ...fields, ...typed })).toEqual({ ok: false, error });
  });
});
