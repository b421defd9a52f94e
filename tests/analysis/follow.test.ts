import { describe, expect, test } from 'vitest';
import { follow } from '../../src/analysis/follow';
import { NO_BODY, tracksOf } from '../../src/analysis/track';
import { addDays } from '../../src/domain/day';
import type { Exposure } from '../../src/domain/exposure';

const squat = (n: number, kg: number): Exposure => {
  const day = addDays('2026-09-01', 3 * n);
  const tried = [1, 2, 3].map(() => ({ kg, reps: 5, left: 2 }));
  return { session: `s${n}`, at: Date.parse(day), day, sets: 3, tops: [], cues: [], clean: 0, noted: 0, tried };
};

const followed = (exposures: readonly Exposure[]) => {
  const [track] = tracksOf({ holds: 'load' }, exposures, NO_BODY);
  if (!track) throw new Error('no track');
  return follow(track).stops;
};

describe('a track that is followed again', () => {
  const first = Array.from({ length: 12 }, (_, n) => squat(n, 80 + n));

  test('with one session more works out that one alone: the states before are the very same', () => {
    const before = followed(first);
    const after = followed([...first, squat(12, 93)]);
    expect(after).toHaveLength(13);
    for (const [n, stop] of before.entries()) expect(after[n]?.state).toBe(stop.state);
    // and the one that is new is what it would have been at once
    const anew = followed([...first.map((one) => ({ ...one })), squat(12, 93)]);
    expect(anew.at(-1)?.state).toEqual(after.at(-1)?.state);
    expect(anew[0]?.state).not.toBe(before[0]?.state);
  });

  test('after one that was changed works out all from there on', () => {
    const before = followed(first);
    const changed = first.map((one, n) => (n === 6 ? squat(6, 120) : one));
    const after = followed(changed);
    for (const n of [0, 5]) expect(after[n]?.state).toBe(before[n]?.state);
    for (const n of [6, 7, 11]) expect(after[n]?.state).not.toEqual(before[n]?.state);
    expect(after.map(({ state }) => state)).toEqual(
      followed(changed.map((one) => ({ ...one }))).map(({ state }) => state),
    );
  });
});
