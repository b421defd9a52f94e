import { describe, expect, test } from 'vitest';
import { type Plant, plantedCopy } from '../laws/plant';
import { live } from './life';
import { LIFE_FAULTS } from './plants';
import { livesRoomIn } from './room';

const ROOMS = ['domain', 'merge', 'analysis', 'log'];
const MOST_LIVES = 200;

describe('every planted fault is found within 200 lives', { timeout: 120_000 }, () => {
  for (const { what, ...plant } of LIFE_FAULTS) {
    test(what, async ({ annotate }) => {
      const { seed, fault } = await firstFault([plant], MOST_LIVES);
      await annotate(`found by life ${seed}: ${fault?.split('\n')[0]?.slice(0, 200)}`);
      // found by what the lives say of it, not by falling over
      expect(fault).toMatch(/^Fault: /);
    });
  }

  test('an unchanged copy goes through as many', async () => {
    expect((await firstFault([], MOST_LIVES)).fault).toBeUndefined();
  });
});

async function firstFault(plants: readonly Plant[], most: number) {
  const copy = plantedCopy(ROOMS, plants);
  try {
    const room = await livesRoomIn(copy.src);
    for (let seed = 1; seed <= most; seed += 1) {
      const fault = await live(room, seed);
      if (fault !== undefined) return { seed, fault };
    }
    return { seed: undefined, fault: undefined };
  } finally {
    copy.remove();
  }
}
