import { describe, expect, test } from 'vitest';
import { clockMinutes, listedThings, partId, readSession } from '../../src/domain/session';

const NOON = 1_800_000_000_000;
const instant = (minutes: number) => ({ at: NOON + minutes * 60_000, day: '2027-01-15', zone: 'UTC' });
const set = (id: string, minutes: number, exercise = 'e1') => ({
  [`sets/${id}/exercise`]: exercise,
  [`sets/${id}/at`]: instant(minutes),
  [`sets/${id}/reps`]: 5,
});
const read = (values: Record<string, unknown>) => readSession('r1', [{ id: 'r1', values }]);

describe('a session as it is read', () => {
  test('has what is noted', () => {
    const registers = {
      start: instant(0),
      end: instant(60),
      minutes: 55,
      effort: { value: 6.5, as: 'session' },
      attendance: 'cut-short',
      why: 'late train',
      note: 'good',
    };
    const session = read({ ...registers, ...set('s1', 5) });
    expect(session).toMatchObject({ id: 'r1', ...registers, exercises: ['e1'], unread: [] });
    expect(session?.sets.map(({ id }) => id)).toEqual(['s1']);
  });

  test('what is cleared or never noted is absent', () => {
    expect(read({ start: instant(0), effort: null, note: null })).toEqual({
      id: 'r1',
      start: instant(0),
      exercises: [],
      items: [],
      blocks: [],
      pauses: [],
      arrival: { items: {}, usual: false, sore: [] },
      signs: [],
      sets: [],
      unread: [],
    });
  });

  test.each([{}, { start: null }, { start: null, 'sets/s1/reps': null }, { note: 'left over' }])(
    'is none without a start and without a set: %j',
    (values) => {
      expect(read(values)).toBeUndefined();
    },
  );

  test('is one where its start is not noted and a set is', () => {
    expect(read({ start: null, ...set('s1', 5) })?.sets).toHaveLength(1);
  });

  test('an undone set vanishes and the others stay', () => {
    const undone = { 'sets/s2/exercise': null, 'sets/s2/at': null, 'sets/s2/reps': null };
    expect(read({ ...set('s1', 5), ...undone, ...set('s3', 7) })?.sets.map(({ id }) => id)).toEqual(['s1', 's3']);
  });

  test('[M8] unknown paths are passed over, and an unknown value in a known path is listed', () => {
    const values = {
      start: instant(0),
      nova: 1,
      constructor: 2,
      'sets/s1': 3,
      'nova/sets/s1/reps': 4,
      ...set('s1', 5),
    };
    expect(read(values)?.unread).toEqual([]);
    expect(read({ ...values, attendance: 'by video', 'sets/s1/form': 'smooth' })?.unread).toEqual([
      { type: 'from-a-newer-app', path: 'attendance', value: 'by video' },
      { type: 'from-a-newer-app', path: 'sets/s1/form', value: 'smooth' },
    ]);
  });

  test.each<[string, unknown]>([
    ['effort', { value: 8, as: 'rpe' }],
    ['effort', { value: 10.5, as: 'session' }],
    ['effort', { value: 6.25, as: 'session' }],
    ['minutes', 0],
    ['minutes', 601],
    ['minutes', 59.5],
    ['start', NOON],
  ])('[M8] a %s of %j is from a newer app', (path, value) => {
    const session = read({ ...set('s1', 5), [path]: value });
    expect(session?.unread).toEqual([{ type: 'from-a-newer-app', path, value }]);
    expect(session).not.toHaveProperty(path);
  });

  test('[M9] what does not go together in a set is told of the session', () => {
    expect(read({ start: instant(0), 'sets/s1/reps': 5 })?.unread).toEqual([
      { type: 'no-exercise', path: 'sets/s1' },
      { type: 'no-instant', path: 'sets/s1' },
    ]);
  });
});

describe('the rows of a long session', () => {
  const parts = [
    { id: 'r1-2', values: { of: 'r1', note: 'not of the session', ...set('b', 1), ...set('d', 9) } },
    { id: 'r1', values: { start: instant(0), ...set('a', 5), ...set('c', 1) } },
    { id: 'r1-3', values: { of: 'r1', ...set('e', 0) } },
  ];

  test('[M11] are read as one, their sets in one order', () => {
    const session = readSession('r1', parts);
    expect(session?.sets.map(({ id }) => id)).toEqual(['e', 'b', 'c', 'a', 'd']);
    expect(readSession('r1', [...parts].reverse())).toEqual(session);
  });

  test('a continuation brings sets only', () => {
    expect(readSession('r1', parts)).not.toHaveProperty('note');
  });

  test('are read without the first row, where that has not arrived', () => {
    expect(readSession('r1', [parts[0]!])?.sets.map(({ id }) => id)).toEqual(['b', 'd']);
  });

  test.each([
    [1, 'r1'],
    [2, 'r1-2'],
    [3, 'r1-3'],
  ])('row %d is called %s', (n, id) => {
    expect(partId('r1', n)).toBe(id);
  });
});

test("exercises stand as the list has them, then as they were first trained; a cleared place is none of the list's", () => {
  const values = {
    start: instant(0),
    'exercises/e3/order': 'a5',
    'exercises/e2/order': 'a5',
    'exercises/e9/order': 'a1',
    'exercises/e8/order': null,
    'exercises/e7/nova': 'a0',
    ...set('s1', 9, 'e5'),
    ...set('s2', 8, 'e4'),
    ...set('s3', 7, 'e2'),
    ...set('s4', 6, 'e8'),
  };
  expect(read(values)?.exercises).toEqual(['e9', 'e2', 'e3', 'e8', 'e4', 'e5']);
});

describe('minutes by the clock', () => {
  test.each<[what: string, start: number | undefined, until: number, minutes: number | undefined]>([
    ['an hour', 0, 60, 60],
    ['whole ones', 0, 59.6, 59],
    ['no time', 5, 5, 0],
    ['no start', undefined, 60, undefined],
    ['[M4] a clock that ran backwards tells nothing', 60, 0, undefined],
  ])('%s', (_, start, until, minutes) => {
    const session = { ...(start === undefined ? {} : { start: instant(start) }), pauses: [] };
    expect(clockMinutes(session, instant(until).at)).toBe(minutes);
  });

  test('[M4] a session whose clock ran backwards is read with all that it holds', () => {
    const session = read({ start: instant(60), end: instant(0), ...set('s1', 5), ...set('s2', -600_000) });
    expect(session?.sets.map(({ id }) => id)).toEqual(['s2', 's1']);
    expect(session).toMatchObject({ start: instant(60), end: instant(0) });
  });
});

describe('today’s list', () => {
  const start = { start: instant(0) };

  test('has exercises and blocks in one order; what only sets tell of, or has no place, comes last', () => {
    const session = read({
      ...start,
      'exercises/e2/order': 'm',
      'exercises/e1/order': 'g',
      'exercises/e0/skipped': { why: 'late' },
      'blocks/b/kind': 'rounds',
      'blocks/b/order': 'h',
      ...set('s1', 5, 'e9'),
    });
    expect(session?.items.map(({ id }) => id)).toEqual(['e1', 'e2', 'e0', 'e9']);
    expect(session && listedThings(session).map(({ id }) => id)).toEqual(['e1', 'b', 'e2', 'e0', 'e9']);
  });

  test('[M11] of one order, by id, exercises and blocks alike', () => {
    const same = { 'exercises/c/order': 'g', 'blocks/b/kind': 'most', 'blocks/b/order': 'g', 'exercises/a/order': 'g' };
    const session = read({ ...start, ...same });
    expect(session && listedThings(session).map(({ id }) => id)).toEqual(['a', 'b', 'c']);
  });

  test('[M5] sets of a block that is there are not on it by themselves; of one that is gone they are', () => {
    const done = { ...set('s1', 5, 'e9'), 'sets/s1/in': { block: 'b', station: 's', round: 1 } };
    expect(read({ ...start, ...done, 'blocks/b/kind': 'rounds' })?.items).toEqual([]);
    expect(read({ ...start, ...done })?.items).toEqual([{ id: 'e9' }]);
  });

  test('what cannot be read stands in one order on every device', () => {
    const values = { 'signs/x': 5, note: 7, 'arrival/sleep': 9, 'blocks/b/kind': 3, 'pauses/p/from': 1 };
    const reversed = Object.fromEntries(Object.entries(values).reverse());
    const paths = read({ ...start, ...values })?.unread.map(({ path }) => path);
    expect(paths).toEqual(['arrival/sleep', 'blocks/b/kind', 'note', 'pauses/p/from', 'signs/x']);
    expect(read({ ...start, ...reversed })?.unread.map(({ path }) => path)).toEqual(paths);
  });
});
