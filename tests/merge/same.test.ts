import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalRow } from '../../src/merge/canonical';
import { mergeRows } from '../../src/merge/merge';
import { isSameRow } from '../../src/merge/same';
import { anyRow } from '../laws/rows';

describe('whether two rows are the same', () => {
  test('is what their canonical texts say, for any two and for one merged into the other', () => {
    let same = 0;
    void fc.assert(
      fc.property(anyRow, anyRow, (a, b) => {
        const merged = mergeRows(a, b);
        if (!merged.ok) throw new Error('not merged');
        for (const [x, y] of [
          [a, b],
          [a, merged.value],
          [merged.value, a],
          [a, JSON.parse(JSON.stringify(a))],
        ] as const) {
          const isSame = canonicalRow(x) === canonicalRow(y);
          same += isSame ? 1 : 0;
          expect(isSameRow(x, y)).toBe(isSame);
        }
      }),
      { seed: 4, numRuns: 500 },
    );
    expect(same).toBeGreaterThan(500);
  });

  test('a value that differs under the same stamp, and a writer called like an object’s own member, tell them apart', () => {
    const row = { id: 'r', kind: 'k', stream: 's', seen: { 'a-1': 1 }, body: {} } as const;
    const stamp = { l: 1, writer: 'a-1' };
    const held = (value: number) => ({ ...row, body: { x: [{ value, stamp }] as const } });
    expect(isSameRow(held(1), held(2))).toBe(false);
    expect(isSameRow({ ...row, seen: { constructor: 1 } }, row)).toBe(false);
    expect(isSameRow({ ...row, body: { constructor: [{ value: 1, stamp }] as const } }, held(1))).toBe(false);
  });
});
