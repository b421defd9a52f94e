import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { packRow, unpackRow } from '../../src/log/encode';
import type { Row } from '../../src/merge/row';
import { anyRow } from './rows';

const ROW: Row = {
  id: 's1',
  kind: 'session',
  stream: 'c1',
  seen: { 'phone-1': 12, 'desk-1': 9 },
  body: {
    start: [{ value: { at: 1, day: '2026-03-03', zone: 'UTC' }, stamp: { l: 12, writer: 'phone-1' } }],
    'sets/a/reps': [
      { value: 5, stamp: { l: 11, writer: 'phone-1' } },
      { value: 6, stamp: { l: 9, writer: 'desk-1' } },
    ],
    note: [{ value: null, stamp: { l: 3, writer: 'not-in-seen' } }],
  },
};

describe('how a row lies in the store', () => {
  test('a stamp names its writer by the place in seen, or by name where seen lacks it', () => {
    expect(packRow(ROW)).toEqual({
      id: 's1',
      kind: 'session',
      stream: 'c1',
      seen: [
        ['phone-1', 12],
        ['desk-1', 9],
      ],
      body: {
        start: [12, 0, { at: 1, day: '2026-03-03', zone: 'UTC' }],
        'sets/a/reps': [11, 0, 5, 9, 1, 6],
        note: [3, 'not-in-seen', null],
      },
    });
  });

  test('what is packed unpacks to the very row, through the database and through a file', async () => {
    await fc.assert(
      fc.property(anyRow, (row) => {
        expect(unpackRow(structuredClone(packRow(row)))).toEqual({ ok: true, value: row });
        expect(unpackRow(JSON.parse(JSON.stringify(packRow(row))))).toEqual({ ok: true, value: row });
      }),
      { seed: 20_260_303, numRuns: 400 },
    );
  });

  const packed = packRow(ROW);
  test.each([
    ['nothing', undefined],
    ['a text', 'row'],
    ['a row that was never packed', ROW],
    ['no seen', { ...packed, seen: undefined }],
    ['a writer without its number', { ...packed, seen: [['phone-1']] }],
    ['a number above all stamps', { ...packed, seen: [['phone-1', 2 ** 53]] }],
    ['a torn register', { ...packed, body: { start: [12, 0] } }],
    ['an empty register', { ...packed, body: { start: [] } }],
    ['a register that is no list', { ...packed, body: { start: 5 } }],
    ['a place that no writer has', { ...packed, body: { start: [12, 7, 1] } }],
    ['a place that is half', { ...packed, body: { start: [12, 0.5, 1] } }],
    ['a stamp that is no number', { ...packed, body: { start: ['12', 0, 1] } }],
    ['a value that is no JSON', { ...packed, body: { start: [12, 0, Number.NaN] } }],
    ['a value that is not there', { ...packed, body: { start: [12, 0, undefined] } }],
    ['a path up and out', { ...packed, body: { '../x': [12, 0, 1] } }],
    ['a field that rows have not', { ...packed, tag: 'x' }],
    ['no kind', { ...packed, kind: undefined }],
    ['an id with a slash', { ...packed, id: 'a/b' }],
  ])('%s is refused, never a fall', (_what, stored) => {
    expect(unpackRow(stored)).toMatchObject({ ok: false });
  });

  test('whatever lies there, it is a row or it is refused', async () => {
    await fc.assert(
      fc.property(
        fc.anything({ maxDepth: 3 }),
        fc.constantFrom('seen', 'body', 'id', 'kind', 'stream'),
        (junk, field) => {
          expect(() => [unpackRow(junk), unpackRow({ ...packed, [field]: junk })]).not.toThrow();
        },
      ),
      { seed: 4, numRuns: 400 },
    );
  });
});
