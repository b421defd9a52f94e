import { erasedMark } from '../merge/erased';
import { forgetErased } from './erased';
import { keyOf } from './keys';
import type { Log, Saving } from './log';

/**
 * [M10] Erases a client for good: every row of the stream, and whatever was derived from it, in one transaction. There is no undo, and no bundle brings it
 * back but as another client (`beginImport` with a new stream). The promise resolves when it is out of the store and of the second copy.
 */
export async function eraseClient(log: Log, stream: string): Saving {
  if (stream === 'main') throw new Error('what belongs to no client cannot be erased');
  return log.inside(async (core) => {
    const mark = erasedMark(stream);
    core.memory.absorb(mark);
    const saved = await core.queue.push({ rows: new Set([keyOf(mark)]), ...forgetErased(core) });
    await (await core.second)?.settled();
    return saved;
  });
}
