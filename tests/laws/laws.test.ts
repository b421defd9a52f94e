import { describe, expect, test } from 'vitest';
import { LAWS } from './laws';
import { REAL_SRC, roomIn } from './room';

const seed = Number(process.env['LAWS_SEED'] ?? Math.floor(Math.random() * 2 ** 31));
const cases = Number(process.env['LAWS_CASES'] ?? 2000);
const room = await roomIn(REAL_SRC);

/** Every failure that fresh seeds ever found, by the law's words, so that it is tried for ever. */
const FOUND_BEFORE: readonly {
  readonly says: string;
  readonly seed: number;
  readonly path: string;
  readonly was: string;
}[] = [];

describe(`the laws of rows and registers, seed ${seed}`, () => {
  for (const law of LAWS) {
    test(`[${law.number}] ${law.says}`, { timeout: 10_000 + cases }, () => {
      expect(law.brokenBy(room, { seed, cases }) ?? 'held').toBe('held');
    });
  }
});

describe('failures found before', () => {
  test('each names a law of the suite', () => {
    expect(FOUND_BEFORE.filter(({ says }) => !LAWS.some((law) => law.says === says))).toEqual([]);
  });
  for (const { says, seed: old, path, was } of FOUND_BEFORE) {
    test(`${was} (seed ${old})`, () => {
      const law = LAWS.find((one) => one.says === says);
      expect(law?.brokenBy(room, { seed: old, cases: 1, path }) ?? 'held').toBe('held');
    });
  }
});
