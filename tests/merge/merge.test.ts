import { describe, expect, test } from 'vitest';
import { mergeRows } from '../../src/merge/merge';
import { removing, restoring, standing } from '../../src/merge/removal';
import { emptyRow, type Held, type Json, type Row, valueAt } from '../../src/merge/row';
import { beside, removedThings, shown } from '../../src/merge/shown';
import { HIGHEST_L, mergeSeen, nextStamp } from '../../src/merge/stamp';
import { writeRow } from '../../src/merge/write';

const row = emptyRow({ id: 'r1', kind: 'session', stream: 'c1' });
const held = (value: Json, l: number, writer: string): Held => ({ value, stamp: { l, writer } });
const write = (on: Row, writer: string, l: number, changes: Record<string, Json>): Row =>
  writeRow(on, changes, { l, writer });
const merge = (a: Row, b: Row): Row => {
  const merged = mergeRows(a, b);
  if (!merged.ok) throw new Error(merged.error.type);
  return merged.value;
};

describe('merging, in examples', () => {
  test('[M2] a value the other side has not seen survives; one it has replaced does not come back', () => {
    const first = write(row, 'a', 10, { reps: 5 });
    const replaced = write(first, 'b', 11, { reps: 6 });
    const apart = write(row, 'c', 5, { reps: 7 });
    expect(merge(first, replaced).body).toEqual({ reps: [held(6, 11, 'b')] });
    expect(merge(replaced, apart).body).toEqual({ reps: [held(6, 11, 'b'), held(7, 5, 'c')] });
    expect(merge(merge(replaced, apart), first).seen).toEqual({ a: 10, b: 11, c: 5 });
  });

  test('[M2] two values under one stamp are two values, and every device shows the same one', () => {
    const one = { ...row, body: { reps: [held(5, 3, 'a')] } } as const;
    const other = { ...row, body: { reps: [held(6, 3, 'a')] } } as const;
    expect(merge(one, other).body['reps']).toHaveLength(2);
    expect(merge(one, other)).toEqual(merge(other, one));
  });

  test('[M6] one L from two writers: the writer decides, by code unit', () => {
    const upper = write(row, 'Z', 4, { reps: 5 });
    const lower = write(row, 'a', 4, { reps: 5 });
    expect(merge(upper, lower).body['reps']).toEqual([held(5, 4, 'a'), held(5, 4, 'Z')]);
    expect(beside(merge(upper, lower), 'reps')).toEqual([]);
  });

  test.each(['id', 'kind', 'stream'] as const)('rows of another %s are not merged', (differs) => {
    expect(mergeRows(row, { ...row, [differs]: 'other' })).toEqual({
      ok: false,
      error: { type: 'not-the-same-row', differs },
    });
  });

  test.each(['constructor', 'toString', 'hasOwnProperty'])('[M8] %s is a path and a writer like any other', (name) => {
    const one = write(row, name, 2, { [name]: 1 });
    expect(merge(one, row)).toEqual(one);
    expect(merge(row, one)).toEqual(one);
    expect(valueAt(row, name)).toBeUndefined();
    expect(beside(row, name)).toEqual([]);
    expect(mergeSeen({}, { [name]: 3 })).toEqual({ [name]: 3 });
  });
});

describe('writing', () => {
  test('a stale stamp is a bug, not a write', () => {
    const once = write(row, 'a', 10, { reps: 5 });
    expect(() => write(once, 'a', 10, { reps: 6 })).toThrow('stale stamp 10 for c1/r1');
    expect(() => write(once, 'a', 9, { reps: 6 })).toThrow('stale stamp 9 for c1/r1');
  });

  test('clearing writes null and keeps the register', () => {
    const cleared = write(write(row, 'a', 1, { reps: 5 }), 'a', 2, { reps: null });
    expect(cleared.body['reps']).toEqual([held(null, 2, 'a')]);
    expect(shown(cleared)).toEqual({ reps: null });
  });

  test('a write changes neither the row it is made from nor any other register', () => {
    const before = write(row, 'a', 1, { reps: 5, note: 'x' });
    const after = write(before, 'b', 2, { reps: 6 });
    expect(before.body['reps']).toEqual([held(5, 1, 'a')]);
    expect(after.body['note']).toBe(before.body['note']);
  });

  test('[M3] L is the clock where the clock is ahead, and one more than the highest where it is not', () => {
    expect(nextStamp(row, 'a', 1_800_000_000_000.9, 0).l).toBe(1_800_000_000_000);
    expect(nextStamp({ ...row, seen: { x: 50 } }, 'a', 7, 0).l).toBe(51);
    expect(nextStamp({ ...row, body: { reps: [held(1, 60, 'x')] } }, 'a', 7, 0).l).toBe(61);
    expect(nextStamp({ ...row, seen: { x: 50 } }, 'a', 7, 70).l).toBe(71);
    expect(nextStamp(row, 'a', 0, 0).l).toBe(1);
  });

  test('[M4] a clock beyond any date is not listened to', () => {
    expect(HIGHEST_L).toBe(4_503_599_627_370_496);
    for (const clock of [1e20, Number.POSITIVE_INFINITY, Number.NaN, -1e20]) {
      expect(nextStamp({ ...row, seen: { x: 50 } }, 'a', clock, 0).l).toBe(51);
    }
  });
});

describe('[M5] removing, in examples', () => {
  const noted = write(row, 'a', 1, { 'sets/s1/reps': 5, 'sets/s2/reps': 6 });
  const removed = write(noted, 'b', 2, removing(noted, 'sets/s1'));

  test('a removed thing is not shown and its values stay', () => {
    expect(removed.body['sets/s1/reps']).toEqual([held(5, 1, 'a')]);
    expect(shown(removed)).toEqual({ 'sets/s2/reps': 6 });
    expect([...removedThings(removed)]).toEqual(['sets/s1']);
  });

  test('the removal carries what it was made with', () => {
    expect(valueAt(removed, 'sets/s1/removed')).toEqual({ removed: true, seen: { a: 1 } });
  });

  test('restoring brings it back', () => {
    const back = write(removed, 'c', 3, restoring('sets/s1'));
    expect(shown(back)).toEqual({ 'sets/s1/reps': 5, 'sets/s2/reps': 6, 'sets/s1/removed': null });
  });

  test('an edit the remover had not seen keeps it alive; an edit of another thing does not', () => {
    expect(standing(merge(removed, write(noted, 'c', 1, { 'sets/s1/note': 'slow' })), 'sets/s1')).toBe(
      'removed-and-written',
    );
    expect(standing(merge(removed, write(noted, 'c', 1, { 'sets/s10/note': 'slow' })), 'sets/s1')).toBe('removed');
  });

  test('the whole row is a thing', () => {
    const gone = write(noted, 'b', 2, removing(noted, ''));
    expect(standing(gone, '')).toBe('removed');
    expect(shown(gone)).toEqual({});
    const late = merge(gone, write(noted, 'c', 1, { 'sets/s1/reps': 8 }));
    expect(standing(late, '')).toBe('removed-and-written');
    expect(shown(late)['sets/s2/reps']).toBe(6);
  });

  test('a removal whose seen is not one removes nothing that was written', () => {
    for (const seen of [null, 'all', 7, [], { a: '1' }]) {
      expect(standing(write(noted, 'b', 2, { 'sets/s1/removed': { removed: true, seen } }), 'sets/s1')).toBe(
        'removed-and-written',
      );
    }
    for (const value of [true, 'removed', { removed: 'yes' }, { removed: false }]) {
      expect(standing(write(noted, 'b', 2, { 'sets/s1/removed': value }), 'sets/s1')).toBe('there');
    }
  });
});
