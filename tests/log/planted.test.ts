import { describe, expect, test } from 'vitest';
import { plantedCopy } from '../laws/plant';
import { LOG_FAULTS, SUITE } from './plants';
import { roomIn } from './room';

const ROOMS = ['domain', 'merge', 'analysis', 'log'];

// many launches each: a busy machine may need longer than the usual limit
describe('every planted fault is found by the suite', { timeout: 60_000 }, () => {
  for (const { what, foundBy, ...plant } of LOG_FAULTS) {
    test(`${what} (${foundBy})`, async () => {
      const copy = plantedCopy(ROOMS, [plant]);
      try {
        const room = await roomIn(copy.src);
        // a fault is found by what the suite says of it, not by falling over
        await expect(SUITE[foundBy](room)).rejects.toMatchObject({ name: 'AssertionError' });
      } finally {
        copy.remove();
      }
    });
  }

  test('an unchanged copy passes the whole suite', async () => {
    const copy = plantedCopy(ROOMS, []);
    try {
      const room = await roomIn(copy.src);
      for (const holds of Object.values(SUITE)) await holds(room);
    } finally {
      copy.remove();
    }
  });
});
