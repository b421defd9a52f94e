import { describe, expect, test } from 'vitest';
import type { SetRecord } from '../../src/domain/set';
import { triedIn, variantOf } from '../../src/domain/tried';
import { kg, set } from './made';

const tried = (...sets: readonly SetRecord[]) => triedIn(sets).tried;
const left = (value: number) => ({ effort: { value, as: 'left' } as const });
const rpe = (value: number) => ({ effort: { value, as: 'rpe' } as const });

describe('the sets a trend takes', () => {
  test('warm-ups and assisted sets never count, in numbers or not', () => {
    const unit = 'kg' as const;
    expect(triedIn([set({ ...kg(40), reps: 5, kind: 'warm-up' })])).toEqual({ tried: [], untried: 0 });
    const assisted = [
      set({ reps: 5, kind: 'assisted' }),
      set({ reps: 5, kind: 'assisted', assist: { value: 20, unit } }),
      set({ reps: 5, assist: { value: 20, unit } }),
      set({ reps: 5, band: 'medium' }),
    ];
    expect(triedIn(assisted)).toEqual({ tried: [], untried: 4 });
    expect(tried(set({ ...kg(100), reps: 5, kind: 'test' }))).toHaveLength(1);
  });

  test('bands and pins are no kilograms, and a count spread over the session no set', () => {
    expect(tried(set({ pin: '7', reps: 10 }), set({ band: 'light', reps: 15 }), set({ reps: 4, tally: true }))).toEqual(
      [],
    );
  });

  test('effort by either scale; below RPE 5 nothing is estimated; "4 or more" is a least', () => {
    const set1 = (more: object) => tried(set({ ...kg(100), reps: 5, ...more }))[0];
    expect(set1(left(1.5))).toEqual({ kg: 100, reps: 5, left: 1.5 });
    expect(set1(rpe(8.5))).toEqual({ kg: 100, reps: 5, left: 1.5 });
    expect(set1(rpe(5))).toEqual({ kg: 100, reps: 5, left: 5 });
    expect(set1(rpe(4.5))).toBeUndefined();
    expect(set1({ effort: { atLeast: 4 } })).toEqual({ kg: 100, reps: 5, left: 4, least: true });
    expect(set1({})).toEqual({ kg: 100, reps: 5 });
  });

  test('a rep that was missed leaves nothing; where one stopped for another reason, more was possible', () => {
    const set1 = (more: object) => tried(set({ ...kg(100), reps: 4, ...more }))[0];
    expect(set1({ ended: 'missed' })).toEqual({ kg: 100, reps: 4, left: 0 });
    // whatever was told before
    expect(set1({ ended: 'missed', ...left(2) })).toEqual({ kg: 100, reps: 4, left: 0 });
    expect(set1({ ended: 'pain' })).toEqual({ kg: 100, reps: 4, least: true });
    expect(set1({ ended: 'stopped', ...left(3) })).toEqual({ kg: 100, reps: 4, left: 3 });
    expect(tried(set({ ...kg(100), reps: 0, ended: 'missed' }))).toEqual([]);
  });

  test('of drop sets and clusters the first part is the least that could be done', () => {
    const parts = [{ id: 'p1', ...kg(80), reps: 6 }];
    expect(tried(set({ ...kg(100), reps: 6, kind: 'drop', parts, ...left(0) }))).toEqual([
      { kg: 100, reps: 6, least: true },
    ]);
    expect(tried(set({ ...kg(100), reps: 2, kind: 'cluster', parts, ...left(1) }))).toEqual([
      { kg: 100, reps: 2, least: true },
    ]);
  });

  test('a back-off counts on a side where nothing else was done', () => {
    const back = (side: 'left' | 'right') => set({ ...kg(20), reps: 8, side, kind: 'back-off' });
    const work = set({ ...kg(24), reps: 8, side: 'left' });
    expect(tried(work, back('left'), back('right')).map((one) => [one.side, one.kg])).toEqual([
      ['left', 24],
      ['right', 20],
    ]);
  });

  test('loads in pounds are kept in kilograms: 225 lb are 102.058 kg (international pound, 1959 agreement)', () => {
    const lb = set({ load: { value: 225, unit: 'lb' }, reps: 5 });
    expect(tried(lb)[0]?.kg).toBeCloseTo(102.05828325, 8);
  });

  test('with nothing held, what was added to the body; degrees by themselves; 0 kg is no load', () => {
    expect(tried(set({ added: { value: 10, unit: 'kg' }, reps: 5 }), set({ reps: 8 }))).toEqual([
      { kg: 10, reps: 5 },
      { reps: 8 },
    ]);
    expect(tried(set({ added: { value: 0, unit: 'kg' }, reps: 5 }))).toEqual([{ reps: 5 }]);
    expect(tried(set({ ...kg(0), reps: 5 }))).toEqual([]);
    expect(tried(set({ degrees: 42, side: 'left' }))).toEqual([{ side: 'left', degrees: 42 }]);
  });

  test('what needs mending is left out and counted', () => {
    const broken = set({ ...kg(100), reps: 5, unread: [{ type: 'no-instant', path: 'sets/a' }] });
    expect(triedIn([broken])).toEqual({ tried: [], untried: 1 });
  });
});

describe('variants of an exercise', () => {
  test('are told by height, tempo and pause; 12 in and 30.5 cm are one height, words are not compared', () => {
    const high = (value: number, unit: 'cm' | 'in') => set({ height: { value, unit } });
    expect(variantOf(high(12, 'in'))).toBe(variantOf(high(30.48, 'cm')));
    expect(variantOf(high(30, 'cm'))).not.toBe(variantOf(high(40, 'cm')));
    expect(variantOf(set({ tempo: '3-1-X-0' }))).toBe(variantOf(set({ tempo: '31x0' })));
    expect(variantOf(set({ pause: 2 }))).not.toBe(variantOf(set({})));
    expect(variantOf(set({ setUp: 'straps' }))).toBe('');
  });
});
