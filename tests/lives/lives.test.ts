import { describe, expect, test } from 'vitest';
import { REAL_SRC } from '../laws/room';
import { live } from './life';
import { livesRoomIn } from './room';

/** The lives that everyone lives; `npm run -s lives -- --n N --seed S` lives any others. */
const BLOCKS = Array.from({ length: 20 }, (_, n) => 1 + n * 50);

/** Lives that once went wrong, each with what it was. */
const NAMED = [
  ['a row is read anew from the store while an import that changes it is on its way', 20_267_738],
  ['a phone is put away as a copy while its storage is still full', 20_270_064],
  ['a bundle is asked for on one phone after its connection was lost, while another was launched last', 7],
] as const;

describe('lives that once went wrong', { timeout: 60_000 }, () => {
  test.each(NAMED)('%s', async (_what, seed) => {
    expect(await live(await livesRoomIn(REAL_SRC), seed)).toBeUndefined();
  });
});

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
