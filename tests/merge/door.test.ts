import { describe, expect, test } from 'vitest';
import { admitRow, ROW_BOUNDS } from '../../src/merge/door';

const held = { value: 5, stamp: { l: 1, writer: 'a-1' } };
const row = { id: 'r1', kind: 'session', stream: 'c1', seen: { 'a-1': 1 }, body: { 'sets/s1/reps': [held] } };
const withBody = (body: unknown) => ({ ...row, body });
const many = (count: number, entry: (n: number) => readonly [string, unknown]) =>
  Object.fromEntries(Array.from({ length: count }, (_, n) => entry(n)));
const nested = (depth: number): unknown => (depth === 0 ? 1 : [nested(depth - 1)]);

test('a right row is admitted as it is', () => {
  expect(admitRow(row)).toEqual({ ok: true, value: row });
});

test('registers are put in their one order, and the same value under the same stamp is one', () => {
  const late = { value: 6, stamp: { l: 2, writer: 'a-1' } };
  expect(admitRow(withBody({ reps: [held, late, { ...held }] }))).toEqual({
    ok: true,
    value: withBody({ reps: [late, held] }),
  });
});

test('what is not of the shape of a stamp or value goes no further', () => {
  const admitted = admitRow(withBody({ reps: [{ ...held, more: 1, stamp: { ...held.stamp, more: 1 } }] }));
  expect(admitted).toEqual({ ok: true, value: withBody({ reps: [held] }) });
});

const refused: readonly [what: string, raw: unknown, error: object][] = [
  ['nothing', undefined, { type: 'not-a-row', why: 'shape' }],
  ['a list', [row], { type: 'not-a-row', why: 'shape' }],
  ['a row without seen', { ...row, seen: undefined }, { type: 'not-a-row', why: 'shape' }],
  ['a body that is a list', withBody([]), { type: 'not-a-row', why: 'shape' }],
  ['one field more', { ...row, tag: 'x' }, { type: 'not-a-row', why: 'unknown-field' }],
  ['an id that is a number', { ...row, id: 1 }, { type: 'not-a-row', why: 'name' }],
  ['an empty stream', { ...row, stream: '' }, { type: 'not-a-row', why: 'name' }],
  ['an id of 65 characters', { ...row, id: 'x'.repeat(65) }, { type: 'not-a-row', why: 'name' }],
  ['a kind with a slash', { ...row, kind: 'a/b' }, { type: 'not-a-row', why: 'name' }],
  ['a seen of 0', { ...row, seen: { a: 0 } }, { type: 'bad-stamp', path: 'seen' }],
  ['a seen that is a text', { ...row, seen: { a: '1' } }, { type: 'bad-stamp', path: 'seen' }],
  ['a writer called __proto__', { ...row, seen: JSON.parse('{"__proto__":1}') }, { type: 'bad-stamp', path: 'seen' }],
  ['a path called __proto__', withBody(JSON.parse('{"__proto__":[]}')), { type: 'bad-path', path: '__proto__' }],
  ['an empty segment', withBody({ 'sets//reps': [held] }), { type: 'bad-path', path: 'sets//reps' }],
  ['a path that ends in a slash', withBody({ 'sets/': [held] }), { type: 'bad-path', path: 'sets/' }],
  ['a path with a space', withBody({ 'a b': [held] }), { type: 'bad-path', path: 'a b' }],
  ['a register without values', withBody({ reps: [] }), { type: 'bad-value', path: 'reps' }],
  ['a register that is a value', withBody({ reps: 5 }), { type: 'bad-value', path: 'reps' }],
  ['a value without a stamp', withBody({ reps: [{ value: 5 }] }), { type: 'bad-value', path: 'reps' }],
  ['a stamp without a value', withBody({ reps: [{ stamp: held.stamp }] }), { type: 'bad-value', path: 'reps' }],
  [
    'a value JSON cannot say',
    withBody({ reps: [{ ...held, value: Number.NaN }] }),
    { type: 'bad-value', path: 'reps' },
  ],
  ['L 0', withBody({ reps: [{ value: 5, stamp: { l: 0, writer: 'a' } }] }), { type: 'bad-stamp', path: 'reps' }],
  [
    'half an L',
    withBody({ reps: [{ value: 5, stamp: { l: 1.5, writer: 'a' } }] }),
    { type: 'bad-stamp', path: 'reps' },
  ],
  [
    'L above 2^52',
    withBody({ reps: [{ value: 5, stamp: { l: 2 ** 52 + 1, writer: 'a' } }] }),
    { type: 'bad-stamp', path: 'reps' },
  ],
  [
    'a stamp of nobody',
    withBody({ reps: [{ value: 5, stamp: { l: 1, writer: '' } }] }),
    { type: 'bad-stamp', path: 'reps' },
  ],
  ['a path of 201', withBody({ ['p'.repeat(201)]: [held] }), { type: 'too-large', what: 'pathLength' }],
  [
    '257 siblings',
    withBody({ reps: Array.from({ length: 257 }, () => held) }),
    { type: 'too-large', what: 'siblings' },
  ],
  ['200,001 registers', withBody(many(200_001, (n) => [`p${n}`, [held]])), { type: 'too-large', what: 'registers' }],
  ['100,001 writers', { ...row, seen: many(100_001, (n) => [`w${n}`, 1]) }, { type: 'too-large', what: 'writers' }],
  ['a value 13 deep', withBody({ reps: [{ ...held, value: nested(13) }] }), { type: 'bad-value', path: 'reps' }],
];

describe('the door refuses', () => {
  test.each(refused)('%s', (_, raw, error) => {
    expect(admitRow(raw)).toEqual({ ok: false, error });
  });
});

describe('the door admits', () => {
  test.each<[string, unknown]>([
    ['[M4] L of 2^52', withBody({ reps: [{ value: 5, stamp: { l: 2 ** 52, writer: 'a' } }] })],
    ['a path of 200', withBody({ ['p'.repeat(200)]: [held] })],
    [
      '256 values under one stamp',
      withBody({ reps: Array.from({ length: 256 }, (_, n) => ({ ...held, value: `v${n + 1000}` })) }),
    ],
    ['a value 12 deep', withBody({ reps: [{ ...held, value: nested(12) }] })],
    ['200,000 registers', withBody(many(200_000, (n) => [`p${n}`, [held]]))],
    ['100,000 writers', { ...row, seen: many(100_000, (n) => [`w${n}`, 1]) }],
    ['[M8] a kind and a path nobody knows', { ...withBody({ 'nova/x.1/constructor': [held] }), kind: 'constructor' }],
    ['a row in which nothing is noted', { ...row, seen: {}, body: {} }],
  ])('%s', (_, raw) => {
    expect(admitRow(raw)).toEqual({ ok: true, value: raw });
  });
});

test('a session row of 300 sets with 20 registers each is far below the bounds', () => {
  expect(ROW_BOUNDS.registers).toBeGreaterThan(300 * 20);
});
