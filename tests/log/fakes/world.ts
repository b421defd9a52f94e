import type { World } from '../../../src/domain/world';

/** A world that does the same each time: its clock moves when it is told to, its randomness follows from a seed. */
export type TestWorld = World & {
  /** Moves the clock by so many ms; backwards too. */
  readonly pass: (ms: number) => void;
  /** Returns a whole number from 0 up to, not including, `below`. */
  readonly pick: (below: number) => number;
};

/** A Tuesday evening in Vienna. */
export const EVENING = Date.parse('2026-03-03T18:00:00Z');

export function createWorld(seed: number): TestWorld {
  let now = EVENING;
  const next = numbersFrom(seed);
  return {
    now: () => now,
    zone: () => 'Europe/Vienna',
    random: (count) => Uint8Array.from({ length: count }, () => Math.floor(next() * 256)),
    pass(ms) {
      now += ms;
    },
    pick: (below) => Math.floor(next() * below),
  };
}

/** Numbers from 0 to below 1: mulberry32, small and good enough to vary a test. */
function numbersFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
