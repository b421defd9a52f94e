import { describe, expect, test } from 'vitest';
import { LANDING_RANGES, landingsIn } from '../../src/domain/landings';
import { goodOf } from '../../src/domain/set';
import { countedOf, countField } from '../../src/domain/tally';
import { set } from './made';

const times = <T>(count: number, make: () => T): T[] => Array.from({ length: count }, make);

// foot contacts: methods book, section 6
describe('landings of a session', () => {
  test('3 × 10 box jumps are 30: a landing on both feet counts once', () => {
    expect(landingsIn(times(3, () => set({ exercise: 'lib-box-jump', landings: 10 })))).toBe(30);
  });

  test('4 × 6 single-leg hops on each side are 48', () => {
    const sides = ['left', 'right'] as const;
    const sets = sides.flatMap((side) => times(4, () => set({ exercise: 'lib-hop-and-hold', side, landings: 6 })));
    expect(landingsIn(sets)).toBe(48);
  });

  test('110 are over by 10 for a beginner, and inside for the others', () => {
    const done = landingsIn(times(11, () => set({ landings: 10 })));
    expect(done - LANDING_RANGES.beginner.to).toBe(10);
    expect([LANDING_RANGES.intermediate.from, LANDING_RANGES.advanced.from]).toEqual([100, 120]);
  });

  test('a cluster of 4 + 4 + 2 is 10: parts are landings too', () => {
    const cluster = set({
      kind: 'cluster',
      landings: 4,
      parts: [
        { id: '1a', landings: 4 },
        { id: '2a', landings: 2 },
      ],
    });
    expect(landingsIn([cluster])).toBe(10);
    expect(countedOf([cluster], 'lib-back-squat', 'landings')).toBe(10);
  });

  test('sets without landings add nothing', () => {
    expect(landingsIn([set({ reps: 8 }), set({})])).toBe(0);
  });
});

describe('good of total', () => {
  test('is not told where nobody judged', () => {
    expect(goodOf(set({ landings: 6 }))).toBeUndefined();
    expect(goodOf(set({ tries: 8 }))).toBeUndefined();
    expect(goodOf(set({ good: 4 })), 'of what nobody knows').toBeUndefined();
  });

  test('of landings, only of those that were judged', () => {
    const marks = [
      { n: 1, good: true },
      { n: 3, good: false, knee: false as const },
    ];
    expect(goodOf(set({ landings: 6, marks }))).toEqual({ good: 1, of: 2 });
  });

  test('of tries as they were told, none good being told too', () => {
    expect(goodOf(set({ tries: 8, good: 6 }))).toEqual({ good: 6, of: 8 });
    expect(goodOf(set({ tries: 8, good: 0 }))).toEqual({ good: 0, of: 8 });
  });

  test('of a cluster, the parts that were judged', () => {
    const parts = [
      { id: '1a', tries: 4, good: 3 },
      { id: '2a', tries: 4 },
    ];
    expect(goodOf(set({ kind: 'cluster', tries: 8, good: 6, parts }))).toEqual({ good: 9, of: 12 });
  });
});

describe('a count spread over the session', () => {
  const spread = [
    set({ exercise: 'lib-push-up', reps: 8, tally: true }),
    set({ exercise: 'lib-push-up', reps: 10, kind: 'drop', parts: [{ id: '1a', reps: 5 }] }),
    set({ exercise: 'lib-push-up', reps: 6, kind: 'warm-up' }),
    set({ exercise: 'lib-pull-up', reps: 3 }),
    set({ exercise: 'lib-push-up' }),
  ];

  test('adds up what was done of it, parts too, warm-ups not: 8 + 10 + 5', () => {
    expect(countedOf(spread, 'lib-push-up', 'reps')).toBe(23);
  });

  test.each([
    ['load', 'reps'],
    ['body', 'reps'],
    ['band', 'reps'],
    ['pin', 'reps'],
    ['landings', 'landings'],
    ['tries', 'tries'],
    ['time', 'seconds'],
    ['carry', undefined],
    ['degrees', undefined],
    ['tick', undefined],
  ] as const)('of what holds %s counts %s', (holds, field) => {
    expect(countField(holds)).toBe(field);
  });
});
