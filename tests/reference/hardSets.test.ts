import { describe, expect, test } from 'vitest';
import { hardSets } from '../../src/analysis/hardSets';
import type { SetRecord } from '../../src/domain/set';
import { anyHistory, dayIn, expectFinite, forAny, inPounds, kg, mirrored, times, trained } from './records';

describe('hard sets: 1 direct, 0.5 indirect (Pelland 2024); what is hard is our own choice', () => {
  const told = (left: number, more: Partial<SetRecord> = {}): Partial<SetRecord> => ({
    reps: 8,
    load: kg(50),
    effort: { value: left, as: 'left' },
    ...more,
  });
  const of = (...sets: Partial<SetRecord>[]) =>
    hardSets([trained(dayIn(0), 'lib-bench-press', sets)], { firstDay: 'mon' });

  test('10 direct and 6 indirect ones: 13', () => {
    const { areas } = of(...times(10, told(2)), ...times(6, told(2, { exercise: 'lib-push-press' })));
    const triceps = areas.find(({ area }) => area === 'triceps');
    // the bench press works the chest directly and the triceps indirectly, the push press the triceps directly
    expect(triceps).toMatchObject({ direct: 6, indirect: 10, fractional: 11 });
    const shoulders = hardSets(
      [trained(dayIn(0), 'a', [...times(10, told(1)), ...times(6, told(1, { exercise: 'b' }))])],
      {
        firstDay: 'mon',
        areasOf: (id) => [{ area: 'shoulders', share: id === 'a' ? 1 : 0.5 }],
      },
    );
    expect(shoulders.areas).toEqual([{ week: dayIn(0), area: 'shoulders', direct: 10, indirect: 6, fractional: 13 }]);
  });

  test.each([
    ['four left', told(4), 'hard'],
    ['four and a half left', told(4.5), 'easy'],
    ['RPE 6', told(0, { effort: { value: 6, as: 'rpe' } }), 'hard'],
    ['RPE 5.5', told(0, { effort: { value: 5.5, as: 'rpe' } }), 'easy'],
    // it may have been of 80 % or more
    ['four reps of what nobody knows to be light', told(1, { reps: 4 }), 'untold'],
    ['four reps with five left', told(5, { reps: 4 }), 'easy'],
    ['four reps, no effort told', { reps: 4, load: kg(50) }, 'untold'],
    ['no rep done', told(0, { reps: 0 }), 'easy'],
    ['five reps', told(1, { reps: 5 }), 'hard'],
    ['no effort told', { reps: 8 }, 'untold'],
    ['four or more left', told(0, { effort: { atLeast: 4 } }), 'untold'],
    ['a rep that was missed', { reps: 6, ended: 'missed' }, 'hard'],
  ] as const)('%s', (_, one, kind) => {
    const { weeks } = of(one);
    expect(weeks).toEqual([{ week: dayIn(0), hard: 0, easy: 0, untold: 0, unplaced: 0, [kind]: 1 }]);
  });

  test('three reps of 80 % of what could be lifted once are hard, of 79 % not; warm-ups, holds and landings are none', () => {
    const heavy = (load: number) =>
      hardSets([trained(dayIn(0), 'lib-bench-press', [told(1, { reps: 3, load: kg(load) })])], {
        firstDay: 'mon',
        maxOn: () => 100,
      }).weeks[0]?.hard;
    expect([heavy(80), heavy(79)]).toEqual([1, 0]);
    expect(of(told(1, { kind: 'warm-up' }), told(1, { landings: 5 }), told(1, { seconds: 20 })).weeks).toEqual([]);
  });

  test('a set of one side is half a set of the area; an exercise of no known area is told', () => {
    const { areas, weeks } = of(
      told(2, { exercise: 'lib-split-squat', side: 'left' }),
      told(2, { exercise: 'lib-split-squat', side: 'right' }),
      told(2, { exercise: 'own' }),
    );
    expect(areas.find(({ area }) => area === 'quads')?.direct).toBe(1);
    expect(weeks[0]).toMatchObject({ hard: 2, unplaced: 1 });
  });
});

describe('for any records', () => {
  const any = anyHistory('lib-back-squat', 'lib-split-squat', 'lib-pull-up');
  const of = (sessions: Parameters<typeof hardSets>[0]) => hardSets(sessions, { firstDay: 'mon', maxOn: () => 81 });
  test('every number is one, in any order, in lb, the other way round', () =>
    forAny(any, (sessions) => {
      const told = of(sessions);
      expectFinite(told);
      for (const other of [sessions.toReversed(), inPounds(sessions), mirrored(sessions)])
        expect(of(other)).toEqual(told);
    }));
});
