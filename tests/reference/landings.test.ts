import { describe, expect, test } from 'vitest';
import { againstRange, landingLoad, landingWeeks } from '../../src/analysis/landingLoad';
import { landingQuality } from '../../src/analysis/landingQuality';
import { wilson } from '../../src/analysis/stats/wilson';
import type { SessionRecord } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { anyHistory, dayIn, expectFinite, forAny, inPounds, mirrored, times, trained } from './records';

const jumped = (day: number, sets: readonly Partial<SetRecord>[], hour = 12): SessionRecord =>
  trained(dayIn(day), 'lib-hop-and-hold', sets, { hour });

describe('Wilson’s interval, z = 1.959964', () => {
  test.each([
    [81, 263, 0.2553, 0.3662],
    [0, 20, 0, 0.1611],
  ])('%s of %s (Newcombe 1998, Table I, method 3, by way of public test suites)', (good, of, low, high) => {
    expect(Math.abs((wilson(good, of)?.low ?? 9) - low)).toBeLessThan(5.1e-5);
    expect(Math.abs((wilson(good, of)?.high ?? 9) - high)).toBeLessThan(5.1e-5);
  });
  test.each([
    [8, 10, 0.490162, 0.943318],
    [7, 12, 0.319511, 0.80674],
    [0, 10, 0, 0.277533],
    [10, 10, 0.722467, 1],
  ])('%s of %s (computed with Python)', (good, of, low, high) => {
    expect(wilson(good, of)?.low).toBeCloseTo(low, 5);
    expect(wilson(good, of)?.high).toBeCloseTo(high, 5);
  });
  test('of none there is none, nor of what is no count', () => {
    for (const [good, of] of [
      [0, 0],
      [-1, 5],
      [6, 5],
      [Number.NaN, 5],
      [1, Number.POSITIVE_INFINITY],
    ] as const)
      expect(wilson(good, of)).toBeUndefined();
  });
  test('as far below for the bad ones as above for the good ones', () => {
    for (let good = 0; good <= 12; good++) {
      const [one, other] = [wilson(good, 12), wilson(12 - good, 12)];
      expect(one?.low).toBeCloseTo(1 - (other?.high ?? 9), 12);
    }
  });
});

describe('landings of a session', () => {
  test('3 × 10 box jumps are 30, 4 × 6 single-leg hops a side 48 (foot contacts as published ranges count them)', () => {
    expect(landingLoad([jumped(0, times(3, { landings: 10 }))], undefined)[0]?.landings).toBe(30);
    const hops = [
      ...times(4, { landings: 6, side: 'left' as const }),
      ...times(4, { landings: 6, side: 'right' as const }),
    ];
    expect(landingLoad([jumped(0, hops)], undefined)[0]?.landings).toBe(48);
  });
  test('110 are 10 above a beginner’s 80–100 (a secondary listing); worth a look, never more', () => {
    expect(againstRange(110, 'beginner')).toEqual({ from: 80, to: 100, type: 'above', off: 10, mark: 'amber' });
    expect(againstRange(1e9, 'beginner').mark).toBe('amber');
  });
  test.each([
    [100, 'beginner', 'within'],
    [101, 'beginner', 'above'],
    [79, 'beginner', 'below'],
    [120, 'intermediate', 'within'],
    [99, 'intermediate', 'below'],
    [140, 'advanced', 'within'],
    [141, 'advanced', 'above'],
  ] as const)('%s of %s: %s (intermediate and advanced from memory)', (landings, level, type) =>
    expect(againstRange(landings, level).type).toBe(type),
  );

  test('hours since the last ones, and none where days and instants go against each other; sessions without landings are none of it', () => {
    const sessions = [jumped(0, [{ landings: 5 }]), jumped(1, [{ reps: 5 }]), jumped(2, [{ landings: 6 }], 10)];
    expect(landingLoad(sessions, 'beginner').map(({ landings, hoursSince }) => [landings, hoursSince])).toEqual([
      [5, undefined],
      [6, 46],
    ]);
    const flown = {
      ...jumped(3, [{ landings: 7 }]),
      start: { at: Date.parse(`${dayIn(1)}T00:00Z`), day: dayIn(3), zone: 'UTC' },
    };
    expect(landingLoad([...sessions, flown], 'beginner').at(-1)).not.toHaveProperty('hoursSince');
  });

  test('without a level there is nothing to set them against', () => {
    expect(landingLoad([jumped(0, [{ landings: 500 }])], undefined)[0]).not.toHaveProperty('against');
  });

  test('weeks', () => {
    const sessions = [jumped(6, [{ landings: 5 }]), jumped(7, [{ landings: 6 }]), jumped(9, [{ landings: 7 }])];
    expect(landingWeeks(sessions, 'mon')).toEqual([
      { week: dayIn(0), landings: 5, sessions: 1 },
      { week: dayIn(7), landings: 13, sessions: 2 },
    ]);
    expect(landingWeeks(sessions, 'sun')).toEqual([{ week: dayIn(6), landings: 18, sessions: 3 }]);
  });
});

describe('good of those judged, by side and direction', () => {
  test('8 of 10 and 7 of 12, with their intervals; unjudged ones are neither', () => {
    const sets: Partial<SetRecord>[] = [
      { landings: 6, good: 5, side: 'left', direction: 'out' },
      { landings: 4, good: 3, side: 'left', direction: 'out' },
      { landings: 12, good: 7, side: 'right', direction: 'out' },
      { landings: 9, side: 'right', direction: 'out' },
    ];
    const { parts, unjudged } = landingQuality([jumped(0, sets)]);
    expect(parts.map(({ side, good, of }) => [side, good, of])).toEqual([
      ['left', 8, 10],
      ['right', 7, 12],
    ]);
    expect(parts[0]?.low).toBeCloseTo(0.490162, 5);
    expect(parts[1]?.high).toBeCloseTo(0.80674, 5);
    expect(unjudged).toBe(9);
  });

  test('of landings marked one by one only those that were marked, and which sign was missing', () => {
    const marks = [
      { n: 1, good: true },
      { n: 2, good: false, knee: false as const },
      { n: 4, good: false, knee: false as const, held: false as const },
    ];
    const { parts, unjudged } = landingQuality([jumped(0, [{ landings: 5, marks }])]);
    expect(parts).toHaveLength(1);
    expect(parts[0]).toMatchObject({ good: 1, of: 3, missing: { knee: 2, held: 1 } });
    expect(unjudged).toBe(2);
  });

  test('more good than done needs mending: told, not counted; warm-ups and tries are none of it', () => {
    const wrong: Partial<SetRecord> = {
      landings: 3,
      good: 5,
      unread: [{ type: 'more-good-than-done', path: 'sets/a' }],
    };
    const sets: Partial<SetRecord>[] = [wrong, { landings: 3, good: 3, kind: 'warm-up' }, { tries: 5, good: 5 }];
    expect(landingQuality([jumped(0, sets)])).toEqual({ parts: [], unjudged: 0, unread: 1 });
  });

  test('one exercise, where it is named', () => {
    const sets: Partial<SetRecord>[] = [
      { landings: 3, good: 1 },
      { landings: 4, good: 4, exercise: 'lib-box-jump' },
    ];
    expect(landingQuality([jumped(0, sets)], 'lib-box-jump').parts[0]).toMatchObject({ good: 4, of: 4 });
    expect(landingQuality([jumped(0, sets)]).parts[0]).toMatchObject({ good: 5, of: 7 });
  });
});

test('for any records every number is one; order and units do not matter, and the other way round left is right', () =>
  forAny(anyHistory('lib-hop-and-hold', 'lib-box-jump'), (sessions) => {
    // as a record that is read marks it
    const read = sessions.map((session) => ({
      ...session,
      sets: session.sets.map(
        (one): SetRecord =>
          (one.good ?? 0) > (one.landings ?? 999)
            ? { ...one, unread: [{ type: 'more-good-than-done', path: 'x' }] }
            : one,
      ),
    }));
    const of = (records: readonly SessionRecord[]) => [
      landingLoad(records, 'beginner'),
      landingWeeks(records, 'sat'),
      landingQuality(records),
    ];
    const told = of(read);
    expectFinite(told);
    for (const other of [[...read, ...read].reverse(), inPounds(read)]) expect(of(other)).toEqual(told);
    const other = (side: 'left' | 'right' | undefined) =>
      side === 'left' ? 'right' : side === 'right' ? 'left' : undefined;
    const turned = landingQuality(mirrored(read)).parts;
    for (const part of landingQuality(read).parts) {
      const twin = turned.find(({ side, direction }) => side === other(part.side) && direction === part.direction);
      expect(twin).toMatchObject({ good: part.good, of: part.of, low: part.low, high: part.high });
    }
  }));
