import { describe, expect, test } from 'vitest';
import { REAL_SRC } from '../laws/room';
import { live } from './life';
import { livesRoomIn } from './room';

/** The lives that everyone lives; `npm run -s lives -- --n N --seed S` lives any others. */
const BLOCKS = Array.from({ length: 20 }, (_, n) => 1 + n * 50);

describe('lives of two to five phones', { timeout: 120_000 }, () => {
  for (const from of BLOCKS) {
    test(`seeds ${from} to ${from + 49}`, async () => {
      const room = await livesRoomIn(REAL_SRC);
      for (let seed = from; seed < from + 50; seed += 1) {
        expect(await live(room, seed), `repeat with: npm run -s lives -- --n 1 --seed ${seed}`).toBeUndefined();
      }
    });
  }
});
