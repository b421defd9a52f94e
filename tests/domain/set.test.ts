import { describe, expect, test } from 'vitest';
import { bySetOrder, readSet, type SetRecord } from '../../src/domain/set';

const at = { at: 1_800_000_000_000, day: '2027-01-15', zone: 'Europe/Vienna' };
const base = { exercise: 'e1', kind: 'working', at } as const;
const read = (values: Record<string, unknown>): SetRecord => {
  const set = readSet('s1', values);
  if (!set) throw new Error('no set');
  return set;
};

describe('a set as it is read', () => {
  test('has what is noted, and nothing that is not', () => {
    expect(read({ ...base, load: { value: 45, unit: 'lb' }, reps: 5, effort: null, note: null })).toEqual({
      id: 's1',
      ...base,
      load: { value: 45, unit: 'lb' },
      reps: 5,
      parts: [],
      cues: [],
      marks: [],
      faults: [],
      unread: [],
    });
  });

  test('has everything that can be noted', () => {
    const registers = {
      ...base,
      load: { value: 45, unit: 'lb', newer: 1 },
      band: 'red',
      pin: '7',
      seconds: 30.5,
      reps: 0,
      side: 'left',
      setUp: 'bench 3',
      effort: { value: 8.5, as: 'rpe' },
      form: 'slipping',
      ended: 'stopped',
      pain: { value: 2, place: 'knee' },
      note: '',
      noRest: true,
    };
    const set = read({
      ...registers,
      'cues/c2': { cue: 'tall', answer: null },
      'cues/c1': { cue: 'push', answer: 'better' },
      'faults/lib-shrug': 'gone',
      'faults/lib-heel-up': 'seen',
    });
    expect(set).toMatchObject(registers);
    expect(set.cues).toEqual([
      { id: 'c1', cue: 'push', answer: 'better' },
      { id: 'c2', cue: 'tall', answer: null },
    ]);
    expect(set.faults).toEqual([
      { id: 'lib-heel-up', gone: false },
      { id: 'lib-shrug', gone: true },
    ]);
    expect(set.unread).toEqual([]);
  });

  test.each([
    { value: 0, as: 'left' },
    { value: 5, as: 'left' },
    { value: 2.5, as: 'left' },
    { value: 1, as: 'rpe' },
    { value: 10, as: 'rpe' },
    { atLeast: 4 },
  ])('effort is kept as it was told: %j', (effort) => {
    expect(read({ ...base, effort }).effort).toEqual(effort);
  });

  test('parts stand by their ids, whatever order they came in', () => {
    const set = read({
      ...base,
      kind: 'drop',
      'parts/2b/reps': 8,
      'parts/1a/reps': 6,
      'parts/1a/load': { value: 50, unit: 'kg' },
    });
    expect(set.parts).toEqual([
      { id: '1a', reps: 6, load: { value: 50, unit: 'kg' } },
      { id: '2b', reps: 8 },
    ]);
    expect(set.unread).toEqual([]);
  });
});

describe('a set that is none any more', () => {
  test.each<[Record<string, unknown>]>([
    [{}],
    [{ exercise: null, kind: null, at: null, reps: null }],
    [{ reps: null, movedTo: { stream: 'c2', session: 'r2', set: 's1' } }],
    [{ 'parts/1a/reps': null, 'cues/c1': null, 'faults/lib-shrug': null }],
    [{ nova: 1, 'nova/x': 2, constructor: 3, 'parts/1a/nova': 4 }],
    [{ removed: { removed: true, seen: {} } }],
  ])('vanishes: %j', (values) => {
    expect(readSet('s1', values)).toBeUndefined();
  });
});

describe('[M8] what a newer app wrote', () => {
  const raw = { nova: 1 };
  test.each([
    ...[
      'load',
      'added',
      'assist',
      'band',
      'pin',
      'seconds',
      'reps',
      'kind',
      'side',
      'setUp',
      'effort',
      'form',
      'ended',
      'pain',
    ],
    ...['note', 'at', 'noRest', 'movedTo', 'exercise', 'cues/c1', 'faults/f1', 'parts/1a/reps', 'parts/1a/load'],
  ])('an unknown value in %s is kept, shown raw, and left out', (path) => {
    const set = read({ ...base, kind: 'drop', 'parts/1z/seconds': 5, [path]: raw });
    expect(set.unread).toContainEqual({ type: 'from-a-newer-app', path: `sets/s1/${path}`, value: raw });
    expect(set).not.toHaveProperty([path]);
    expect([...set.cues, ...set.faults]).toEqual([]);
    expect(set.parts.find(({ id }) => id === '1a') ?? { id: '1a' }).toEqual({ id: '1a' });
  });

  test.each<[string, unknown]>([
    ['reps', 5.5],
    ['reps', 501],
    ['reps', '5'],
    ['seconds', 0],
    ['effort', { value: 5.5, as: 'left' }],
    ['effort', { value: 0.5, as: 'rpe' }],
    ['effort', { value: 8.25, as: 'rpe' }],
    ['effort', { atLeast: 3 }],
    ['pain', { value: 11 }],
    ['kind', 'amrap'],
    ['band', ''],
    ['load', { value: 601, unit: 'kg' }],
    ['load', { value: 5, unit: 'st' }],
    ['at', { at: 1, day: '15 January', zone: 'UTC' }],
  ])('so is a %s of %j', (path, value) => {
    expect(read({ ...base, [path]: value }).unread).toContainEqual({
      type: 'from-a-newer-app',
      path: `sets/s1/${path}`,
      value,
    });
  });

  test('one unknown value leaves every other as it is', () => {
    const set = read({ ...base, reps: 5, effort: { stars: 3 } });
    expect(set.reps).toBe(5);
    expect(set.unread).toHaveLength(1);
  });

  test.each([
    'nova',
    'constructor',
    'toString',
    'removed',
    'parts/1a/constructor',
    'parts/1a/reps/left',
    'parts/1a',
    'cues',
    'cues/c1/removed',
    'faults/lib-shrug/by',
    'reps/left',
  ])('the unknown path %s is passed over', (path) => {
    expect(read({ ...base, reps: 5, [path]: 'gone' })).toEqual(read({ ...base, reps: 5 }));
  });
});

describe('[M9] values that do not go together', () => {
  const kg = { value: 10, unit: 'kg' };
  test.each<[what: string, values: Record<string, unknown>, type: string]>([
    ['no exercise', { at, reps: 5 }, 'no-exercise'],
    ['no instant', { exercise: 'e1', reps: 5 }, 'no-instant'],
    ['added and assisted', { ...base, added: kg, assist: kg }, 'added-and-assist'],
    ['a drop without parts', { ...base, kind: 'drop' }, 'parts-missing'],
    ['a cluster without parts', { ...base, kind: 'cluster' }, 'parts-missing'],
    ['parts nobody asked', { ...base, 'parts/1a/reps': 5 }, 'parts-unasked'],
  ])('%s is named, and nothing is changed', (_, values, type) => {
    const set = read(values);
    expect(set.unread).toEqual([{ type, path: 'sets/s1' }]);
    expect(set).toMatchObject(Object.fromEntries(Object.entries(values).filter(([path]) => !path.includes('/'))));
  });

  test('parts stay where the kind is not noted', () => {
    expect(read({ exercise: 'e1', at, 'parts/1a/reps': 5 }).unread).toEqual([]);
  });
});

test('[M11] sets stand by instant, then by id in the order of code units', () => {
  const set = (id: string, when: number): SetRecord => ({ ...read({ ...base, at: { ...at, at: when } }), id });
  const sets = [set('b', 2), set('a', 3), set('a', 2), set('Z', 2), set('c', -5)];
  expect(sets.sort(bySetOrder).map(({ id, at: when }) => `${when?.at} ${id}`)).toEqual([
    '-5 c',
    '2 Z',
    '2 a',
    '2 b',
    '3 a',
  ]);
});
