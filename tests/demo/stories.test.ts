import { describe, expect, test } from 'vitest';
import { demoRows } from '../../fixtures/demo/studio';
import { addDays, daysBetween } from '../../src/domain/day';
import { goodOf } from '../../src/domain/set';
import { valueAt } from '../../src/merge/row';
import { came, clientId, couldLift, mean, median, type Point, points, sessionsOf, slopeShare } from './read';

/* The stories PRODUCT.md names, found in the rows by simple means, for the seed that ships and for others. */

const TODAY = '2026-11-25';
const SEEDS = [7, 3, 13, 15, 34, 89];

describe.each(SEEDS)('seed %i', (seed) => {
  const rows = demoRows({ seed, today: TODAY, zone: 'Europe/Vienna' });
  const of = (word: string) => sessionsOf(rows, clientId(rows, word));

  test('one lift stalls in the last weeks while others of the same client go on', () => {
    const gale = of('Gale');
    const lift = (exercise: string) => points(gale, exercise, couldLift);
    const [early, late] = [
      (all: readonly Point[]) => slopeShare(all.filter((one) => one.week < 5)),
      (all: readonly Point[]) => slopeShare(all.filter((one) => one.week >= 5)),
    ];
    const squat = lift('lib-front-squat');
    expect(squat.filter((one) => one.week >= 5).length).toBeGreaterThanOrEqual(8);
    expect(early(squat)).toBeGreaterThan(0.007);
    expect(Math.abs(late(squat))).toBeLessThan(0.0085);
    for (const other of ['lib-deadlift', 'lib-overhead-press']) {
      expect(late(lift(other)), other).toBeGreaterThan(late(squat) + 0.004);
      // over the whole time the others are worth far more
      expect(slopeShare(lift(other)), other).toBeGreaterThan(0.011);
    }
    // the bar says so too: at most the smallest step heavier in the last month than in the one before
    const bar = (from: number, to: number) =>
      Math.max(
        ...points(gale, 'lib-front-squat', (set) => (set.kind === 'working' ? set.load?.value : undefined))
          .filter((one) => one.week >= from && one.week < to)
          .map((one) => one.value),
      );
    expect(bar(8, 13) - bar(4, 8)).toBeLessThanOrEqual(2.5);
  });

  test('one client comes in tired for about a week and recovers; the others do not', () => {
    const weeks = (word: string): readonly number[] => {
      const asked = of(word).flatMap((one) => {
        const value = came(one.arrival);
        return value === undefined || !one.start
          ? []
          : [{ day: daysBetween(addDays(TODAY, -84), one.start.day), value }];
      });
      // every seven days in a row that hold two answers or more
      return Array.from({ length: 78 }, (_, from) => asked.filter(({ day }) => day >= from && day < from + 7))
        .filter((one) => one.length >= 2)
        .map((one) => mean(one.map(({ value }) => value)));
    };
    const low = (all: readonly number[]): readonly number[] => all.filter((one) => one < median(all) - 0.9);
    const sleet = weeks('Sleet');
    // a week that is low is low in at most twice seven of these
    expect(low(sleet).length).toBeGreaterThanOrEqual(3);
    expect(low(sleet).length).toBeLessThanOrEqual(14);
    expect(Math.abs(mean(sleet.slice(0, 14)) - mean(sleet.slice(-14)))).toBeLessThan(0.4);
    for (const other of ['Gale', 'Puddle', 'Fog']) expect(low(weeks(other)), other).toEqual([]);
  });

  test('one side gap closes', () => {
    const puddle = of('Puddle');
    const gap = (from: number, to: number): number => {
      const side = (wanted: 'left' | 'right') =>
        mean(
          points(puddle, 'lib-ankle-range', (set) => (set.side === wanted ? set.degrees : undefined))
            .filter((one) => one.week >= from && one.week < to)
            .map((one) => one.value),
        );
      return side('right') - side('left');
    };
    expect(gap(0, 3)).toBeGreaterThan(6);
    expect(gap(9, 13)).toBeLessThan(4);
    expect(gap(0, 3) - gap(9, 13)).toBeGreaterThan(3.5);
  });

  test('one cue makes landings better, and another one changes nothing', () => {
    const share = ([exercise, cue]: readonly [string, string], given: boolean) => {
      const sets = of('Puddle')
        .flatMap((one) => one.sets)
        .filter((set) => set.exercise === exercise && set.cues.some((use) => use.cue === cue) === given);
      const judged = sets.flatMap((set) => goodOf(set) ?? []);
      const [good, total] = [judged.map((one) => one.good), judged.map((one) => one.of)].map((all) =>
        all.reduce((sum, one) => sum + one, 0),
      ) as [number, number];
      return {
        share: good / total,
        of: total,
        answers: sets.flatMap((set) => set.cues.flatMap((use) => use.answer ?? [])),
      };
    };
    const works = ['lib-drop-landing', 'lib-cue-nobody-hears'] as const;
    const not = ['lib-hop-and-hold', 'lib-cue-tripod'] as const;
    for (const one of [works, not]) for (const given of [true, false]) expect(share(one, given).of).toBeGreaterThan(80);
    expect(share(works, true).share - share(works, false).share).toBeGreaterThan(0.22);
    expect(Math.abs(share(not, true).share - share(not, false).share)).toBeLessThan(0.14);
    const better = ({ answers }: { readonly answers: readonly string[] }) =>
      answers.filter((one) => one === 'better').length / answers.length;
    expect(better(share(works, true))).toBeGreaterThan(0.5);
    expect(better(share(not, true))).toBeLessThan(0.35);
  });

  test('one date was moved: told a second time weeks ago, and the session of the day says so', () => {
    const told = rows
      .filter((row) => row.kind === 'client')
      .map((row) => ({
        row,
        weeks: ((row.body['date']?.[0].stamp.l ?? 0) - (row.body['alias']?.[0].stamp.l ?? 0)) / (7 * 86_400_000),
      }));
    const moved = told.filter(({ weeks }) => weeks > 0);
    expect(moved).toHaveLength(1);
    expect(moved[0]!.weeks).toBeGreaterThan(4);
    expect(moved[0]!.weeks).toBeLessThan(11);
    expect(String(valueAt(moved[0]!.row, 'alias'))).toBe('Client Puddle');
    const notes = of('Puddle').filter((one) => one.note?.includes('moved'));
    expect(notes).toHaveLength(1);
  });
});
