import { describe, expect, test } from 'vitest';
import { LAWS } from './laws';
import { type Plant, plantedCopy } from './plant';
import { PLANTED_FAULTS } from './plants';
import { roomIn } from './room';

/** Fixed: a planted fault must be found by everyone who runs this. */
const SEEDS = [20_260_301, 404_011, 77] as const;
const CASES = 400;

describe('every planted fault is found by its laws', { timeout: 30_000 }, () => {
  for (const { what, breaks, ...plant } of PLANTED_FAULTS) {
    test(`${breaks.map((number) => `[${number}]`).join(' ')} ${what}`, async () => {
      expect(await brokenLaws([plant], breaks)).toEqual(breaks);
    });
  }

  test('an unchanged copy breaks no law', async () => {
    expect(await brokenLaws([], [...new Set(LAWS.map(({ number }) => number))])).toEqual([]);
  });

  test('a fault whose place is gone is told, not passed over', () => {
    expect(() => plantedCopy(['merge'], [{ file: 'merge/write.ts', find: 'no such text', put: '' }])).toThrow(
      '0 times',
    );
    expect(() => plantedCopy(['merge'], [{ file: 'merge/write.ts', find: 'stamp', put: '' }])).toThrow('not once');
  });
});

/** Returns which of the laws, by number, a copy with these faults breaks. */
async function brokenLaws(plants: readonly Plant[], numbers: readonly string[]): Promise<string[]> {
  const copy = plantedCopy(['domain', 'merge'], plants);
  try {
    const room = await roomIn(copy.src);
    return numbers.filter((number) =>
      LAWS.some(
        (law) =>
          law.number === number &&
          SEEDS.some((seed) => law.brokenBy(room, { seed, cases: CASES, hasty: true }) !== undefined),
      ),
    );
  } finally {
    copy.remove();
  }
}
