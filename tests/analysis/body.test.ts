import { describe, expect, test } from 'vitest';
import { bodyOf } from '../../src/analysis/studio';
import { type Body, currentTracks, massOn, tracksOf } from '../../src/analysis/track';
import type { BodyMass } from '../../src/domain/bodyMass';
import type { Exposure } from '../../src/domain/exposure';
import { added, dayAt, FRONT_SQUAT, judgedSets, on, PULL_UP } from './made';

/* Exercises that move one's own body: by what is moved, or by reps. */

/** Half of the body is moved, so that the sums can be done in the head. */
const half = (...masses: readonly (readonly [n: number, kg: number])[]): Body => ({
  share: 0.5,
  masses: masses.map(([n, kg]) => ({ day: dayAt(n), kg })),
});
const ways = (exposures: readonly Exposure[], body: Body) =>
  tracksOf(PULL_UP, exposures, body).map(({ way, stops }) => [way, stops.length]);
const current = (exposures: readonly Exposure[], body: Body) =>
  currentTracks(tracksOf(PULL_UP, exposures, body)).map(({ way }) => way);

describe('body mass', () => {
  test('is the latest noted by the day, however old; before the first the first one noted later', () => {
    const body = half([10, 80], [300, 70], [20, 78]);
    expect([0, 9, 10, 19, 20, 299, 300, 2000].map((n) => massOn(body, dayAt(n)))).toEqual([
      80, 80, 80, 80, 78, 78, 70, 70,
    ]);
    expect(massOn(half(), dayAt(0))).toBeUndefined();
  });

  test('of two noted for one day the one that was noted later counts, whatever their order', () => {
    const noted = (value: number, notedAt: number): BodyMass => ({ value, unit: 'kg', day: dayAt(0), notedAt });
    const [early, late] = [noted(80, 1), noted(79, 2)];
    for (const masses of [
      [early, late],
      [late, early],
    ])
      expect(massOn(bodyOf(PULL_UP, masses), dayAt(5))).toBe(79);
  });

  test('is taken in kilograms: 176 lb are 79.83 kg; for what is held it is not asked', () => {
    const masses = [{ value: 176, unit: 'lb', day: dayAt(0), notedAt: 1 }] as const;
    // 176 × 0.45359237 = 79.83225712
    expect(bodyOf(PULL_UP, masses).masses[0]?.kg).toBeCloseTo(79.83225712, 8);
    expect(bodyOf(FRONT_SQUAT, masses)).toEqual({ masses: [] });
  });

  test('that changes changes what was moved from that day on, and nothing before', () => {
    const some = [on(0, PULL_UP, [added(10, 5, 2)]), on(7, PULL_UP, [added(10, 5, 2)])];
    const loads = (body: Body) => {
      const system = tracksOf(PULL_UP, some, body).find(({ way }) => way === 'system');
      return system && [0, 1].map((n) => judgedSets(system, n)[0]?.load);
    };
    // half of 80 and 10 are 50, half of 70 and 10 are 45
    expect(loads(half([0, 80]))).toEqual([50, 50]);
    expect(loads(half([0, 80], [7, 70]))).toEqual([50, 45]);
    expect(loads(half([0, 80], [8, 70]))).toEqual([50, 50]);
  });
});

describe('by what is moved, or by reps', () => {
  const alone = (n: number) => on(n, PULL_UP, [added(0, 8, 2)]);
  const loaded = (n: number) => on(n, PULL_UP, [added(10, 5, 2)]);
  const body = half([0, 80]);

  test('sets with load are no rep counts; with a body mass both kinds of set are loads', () => {
    const mixed = [on(0, PULL_UP, [added(10, 5, 2), added(0, 8, 1)])];
    const [system, reps] = tracksOf(PULL_UP, mixed, body);
    expect([system?.way, reps?.way]).toEqual(['system', 'reps']);
    expect(system && judgedSets(system, 0)).toEqual([
      { load: 50, reps: 5, rir: 2 },
      { load: 40, reps: 8, rir: 1 },
    ]);
    expect(reps && judgedSets(reps, 0)).toEqual([{ load: 0, reps: 8, rir: 1 }]);
  });

  test('it is by what is moved while load was added in one of the last six sessions', () => {
    expect(current([alone(0), alone(3)], body)).toEqual(['reps']);
    expect(current([alone(0), loaded(3)], body)).toEqual(['system']);
    const later = [6, 9, 12, 15, 18].map(alone);
    expect(current([alone(0), loaded(3), ...later], body)).toEqual(['system']);
    expect(current([alone(0), loaded(3), ...later, alone(21)], body)).toEqual(['reps']);
  });

  test('without a body mass, or a share of it to rely on, it is by reps, and sets with load are counted as left out', () => {
    const some = [alone(0), loaded(3), alone(6), loaded(9)];
    expect(ways(some, half())).toEqual([['reps', 2]]);
    expect(current(some, half())).toEqual(['reps']);
    expect(tracksOf(PULL_UP, some, half())[0]?.coverage).toMatchObject({ sets: 2, noMass: 2 });
    // where a mass would be of no use it is not asked for
    const { masses } = body;
    expect(tracksOf(PULL_UP, some, { masses })[0]).toMatchObject({ way: 'reps', coverage: { noMass: 0 } });
    // and where it is known, none is left out
    for (const track of tracksOf(PULL_UP, some, body)) expect(track.coverage.noMass, track.way).toBe(0);
  });

  test('both sides go by one way, or they could not be set beside each other', () => {
    const one = (n: number, side: 'left' | 'right', kg: number) => on(n, PULL_UP, [{ ...added(kg, 5, 2), side }]);
    const some = [one(0, 'left', 0), one(1, 'right', 5), one(2, 'left', 0), one(3, 'right', 5)];
    expect(currentTracks(tracksOf(PULL_UP, some, body)).map(({ side, way }) => [side, way])).toEqual([
      ['left', 'system'],
      ['right', 'system'],
    ]);
    const bare = [one(0, 'left', 0), one(1, 'right', 0)];
    expect(currentTracks(tracksOf(PULL_UP, bare, body)).map(({ side, way }) => [side, way])).toEqual([
      ['left', 'reps'],
      ['right', 'reps'],
    ]);
  });
});
