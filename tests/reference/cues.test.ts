import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cueEffect, effectsOf } from '../../src/analysis/cueEffect';
import { againstNone, type CueUses, cueUses } from '../../src/analysis/cueUses';
import { betaQuantile } from '../../src/analysis/stats/beta';
import type { SetRecord } from '../../src/domain/set';
import { dayIn, expectFinite, forAny, mirrored, times, trained } from './records';

type Answer = 'better' | 'same' | 'worse';
let uses = 0;
const cued = (cue: string, answer?: Answer, more: Partial<SetRecord> = {}): Partial<SetRecord> => ({
  cues: [{ id: `u${++uses}`, cue, ...(answer ? { answer } : {}) }],
  ...more,
});
const on = (day: number, ...sets: readonly Partial<SetRecord>[]) => trained(dayIn(day), 'lib-back-squat', sets);
const NO_BAD = new Set<string>();
const counted = (cue: string, used: number, worked: number, badUsed = 0, badWorked = 0): CueUses => ({
  cue,
  used,
  worked,
  badUsed,
  badWorked,
  unanswered: 0,
});

describe('uses', () => {
  test('"better" worked, "same" and "worse" did not; what nobody answered counts for nothing', () => {
    const sessions = [
      on(0, cued('a', 'better'), cued('a', 'same')),
      on(1, cued('a', 'worse'), cued('a'), cued('b', 'better')),
    ];
    expect(cueUses({ sessions, badDays: new Set([dayIn(1)]) })).toEqual([
      { cue: 'a', used: 3, worked: 1, badUsed: 1, badWorked: 0, unanswered: 1 },
      { cue: 'b', used: 1, worked: 1, badUsed: 1, badWorked: 1, unanswered: 0 },
    ]);
  });
  test('a use that stands twice in one set counts once, and works where both say so; one exercise, where it is named', () => {
    const twice = (other: Answer) => ({
      cues: [
        { id: '1', cue: 'a', answer: 'better' as const },
        { id: '2', cue: 'a', answer: other },
      ],
    });
    const sessions = [on(0, twice('better'), twice('same'), { ...cued('a', 'better'), exercise: 'lib-deadlift' })];
    expect(cueUses({ sessions, badDays: NO_BAD }, 'lib-back-squat')[0]).toMatchObject({ used: 2, worked: 1 });
  });
});

describe('partial pooling, worked by hand from our own simulation study (STATS.md §6)', () => {
  test('6 of 8 with this client; with two others 2 of 8 each', () => {
    const told = effectsOf([counted('a', 8, 6)], [[counted('a', 8, 2)], [counted('a', 8, 2)]]);
    // overall (10 + 1)/(24 + 2) = 0.4230769; coach-wide (10 + 4 × 0.4230769)/28 = 0.4175824; Beta(6 + 3.3406593, 2 + 4.6593407)
    const [one] = told.cues;
    const beta = { a: 9.3406593, b: 6.6593407 };
    expect(one?.share).toBeCloseTo(betaQuantile(0.5, beta), 7);
    expect(one?.low).toBeCloseTo(betaQuantile(0.1, beta), 7);
    expect(one?.high).toBeCloseTo(betaQuantile(0.9, beta), 7);
    // between what was seen and what the others show
    expect(one?.share).toBeLessThan(0.75);
    expect(one?.share).toBeGreaterThan(0.42);
  });

  test('given on bad days: 20 good ones of 30 worked 16, 10 bad ones 4', () => {
    // gap 0.8 − 0.4 = 0.4, weight 20 × 10/30 = 6.666667: 2.666667/16.666667 = 0.16; k = 20 + 0.16 × 10 = 21.6
    const told = effectsOf([counted('a', 30, 20, 10, 4)], []);
    expect(told.badDay).toBeCloseTo(0.16, 12);
    // overall (21.6 + 1)/32 = 0.70625; coach-wide (21.6 + 2.825)/34 = 0.7183824; Beta(21.6 + 5.7470588, 8.4 + 2.2529412)
    expect(told.cues[0]?.share).toBeCloseTo(betaQuantile(0.5, { a: 27.3470588, b: 10.6529412 }), 7);
  });

  test('a cue that works better on bad days is put right by nothing, one that never does by no more than 0.4', () => {
    expect(effectsOf([counted('a', 20, 10, 10, 8)], []).badDay).toBe(0);
    expect(effectsOf([counted('a', 2000, 1000, 1000, 0)], []).badDay).toBe(0.4);
  });
});

describe('which cue works best', () => {
  const best = (...own: readonly CueUses[]) => effectsOf(own, []).best;
  test('nine of ten against two of ten is told, three of four against one of four is too few to tell', () => {
    expect(best(counted('a', 10, 9), counted('b', 10, 2))).toEqual({ type: 'told', cue: 'a' });
    expect(best(counted('a', 4, 3), counted('b', 4, 1))).toEqual({ type: 'too-few' });
  });
  test('four uses are too few however well they went, and a single cue is the best of nothing', () => {
    expect(best(counted('a', 4, 4), counted('b', 30, 0))).toEqual({ type: 'too-few' });
    expect(best(counted('a', 5, 5), counted('b', 30, 0))).toEqual({ type: 'told', cue: 'a' });
    expect(best(counted('a', 50, 50))).toEqual({ type: 'too-few' });
    expect(best()).toEqual({ type: 'too-few' });
  });
  test('two that are alike: neither', () => {
    expect(best(counted('a', 40, 30), counted('b', 40, 30))).toEqual({ type: 'too-few' });
  });
  test('only among those that are asked about; what the others did still tells what cues do on the whole', () => {
    const own = [counted('a', 10, 9), counted('b', 10, 2), counted('c', 10, 10)];
    const among = (cue: string) => cue !== 'c';
    const told = effectsOf(own, [], { among });
    expect(told.cues.map(({ cue }) => cue)).toEqual(['a', 'b']);
    expect(told.best).toEqual({ type: 'told', cue: 'a' });
    expect(effectsOf(own, []).best).toEqual({ type: 'told', cue: 'c' });
    expect(told.cues[0]?.share).toBe(effectsOf(own, []).cues.find(({ cue }) => cue === 'a')?.share);
  });
  test('the focus is told, and is none of the reckoning', () => {
    const sessions = [on(0, ...times(6, cued('lib-cue-roots', 'better')), ...times(6, cued('own', 'same')))];
    const told = cueEffect({ sessions, badDays: NO_BAD }, []);
    expect(told.cues.map(({ cue, focus }) => [cue, focus])).toEqual([
      ['lib-cue-roots', 'image'],
      ['own', undefined],
    ]);
    const other = cueEffect({ sessions, badDays: NO_BAD }, [], { focusOf: () => 'body' });
    expect(other.cues.map(({ share }) => share)).toEqual(told.cues.map(({ share }) => share));
  });
});

describe('against no cue: what became of a fault from one set to the next', () => {
  const seen = (id: string, gone = false): Partial<SetRecord> => ({ faults: [{ id, gone }] });
  test('with the cue it was gone twice of three, without one once of two', () => {
    const sessions = [
      on(0, seen('lib-heel-up'), cued('lib-cue-roots', 'better'), seen('lib-heel-up'), {
        ...cued('lib-cue-roots', 'same'),
        ...seen('lib-heel-up'),
      }),
      on(1, seen('lib-heel-up'), { ...cued('lib-cue-roots', 'better'), ...seen('lib-heel-up', true) }),
      on(2, seen('lib-heel-up'), {}),
      on(3, seen('lib-heel-up'), seen('lib-heel-up')),
    ];
    const [one] = againstNone(sessions);
    expect(one).toMatchObject({ cue: 'lib-cue-roots', with: { of: 3, gone: 2 }, without: { of: 2, gone: 1 } });
    expect(one?.without.low).toBeGreaterThan(0);
    expect(one?.without.high).toBeLessThan(1);
  });
  test('another fault, exercise or side is none of it', () => {
    const left = { side: 'left' as const };
    const sessions = [
      on(0, seen('lib-knee-in'), cued('lib-cue-roots', 'better')),
      on(1, seen('lib-heel-up'), { ...cued('lib-cue-roots', 'better'), exercise: 'lib-deadlift' }),
      on(2, { ...seen('lib-heel-up'), ...left }, seen('lib-heel-up'), { ...cued('lib-cue-roots', 'better'), ...left }),
      // a cue was given with the set that went badly: what follows is not "without one"
      on(3, { ...cued('own', 'same'), ...seen('lib-heel-up') }, {}),
    ];
    expect(againstNone(sessions)[0]?.with).toMatchObject({ of: 1, gone: 1 });
    expect(againstNone(sessions)[0]?.without).toEqual({ of: 0, gone: 0 });
    expect(againstNone(sessions, () => undefined)[0]?.with).toMatchObject({ of: 2, gone: 2 });
  });
  test('of none there is no interval', () => {
    expect(againstNone([on(0, seen('lib-heel-up'), cued('own', 'better'))])[0]?.without).toEqual({ of: 0, gone: 0 });
  });
});

describe('for any records', () => {
  const one = fc.record({
    cue: fc.constantFrom('a', 'b', 'lib-cue-roots'),
    answer: fc.constantFrom('better' as const, 'same' as const, 'worse' as const, undefined),
    fault: fc.constantFrom(undefined, 'lib-heel-up', 'x'),
    side: fc.constantFrom('left' as const, 'right' as const),
  });
  const history = fc
    .array(fc.array(one, { maxLength: 12 }), { maxLength: 6 })
    .map((days) =>
      days.map((sets, day) =>
        on(
          day,
          ...sets.map(({ cue, answer, fault, side }) =>
            cued(cue, answer, { side, ...(fault ? { faults: [{ id: fault, gone: false }] } : {}) }),
          ),
        ),
      ),
    );
  test('every number is one; neither the order of records or clients nor the side matters', () =>
    forAny(
      fc.tuple(history, history, history),
      ([own, a, b]) => {
        const badDays = new Set([dayIn(0), dayIn(2)]);
        const of = (sessions: typeof own, ...others: (typeof own)[]) =>
          cueEffect(
            { sessions, badDays },
            others.map((some) => cueUses({ sessions: some, badDays })),
          );
        const told = of(own, a, b);
        expectFinite(told);
        for (const { low, share, high, chance } of told.cues) {
          expect(0 <= low && low < share && share < high && high <= 1).toBe(true);
          expect(chance).toBeGreaterThanOrEqual(0);
        }
        expect(of(own.toReversed(), b.toReversed(), a)).toEqual(told);
        expect(of(mirrored(own), mirrored(a), b)).toEqual(told);
      },
      60,
    ));
});
