import { demoRows } from '../fixtures/demo/studio';
import { instantAt } from './domain/day';
import type { World } from './domain/world';
import { dropLog } from './log/drop';
import { fillLog } from './log/fill';
import { DEMO_LOG, demoFlag, setDemoFlag } from './log/showing';

/* Writes the demo's log, and deletes it: one part that is loaded when it is asked for. */

/** Which of the studios that chance can make is the demo. */
const SEED = 7;

/**
 * Writes the demo's log anew and says that it is the one shown, if it may be by then. Returns false where it may not, or where this browser
 * does not keep it.
 */
export function writeDemo(world: World, mayShow: () => boolean): Promise<boolean> {
  return alone(async () => {
    // from here on a start deletes what a kill leaves
    if (!setDemoFlag('loading')) return false;
    try {
      await dropLog(DEMO_LOG);
      const zone = world.zone();
      const { day } = instantAt(world.now(), zone);
      const filled = await fillLog(DEMO_LOG, demoRows({ seed: SEED, today: day, zone }));
      return filled.ok && mayShow() && setDemoFlag('shown');
    } catch {
      return false;
    }
  });
}

/** Deletes what is left of a demo that is not shown; where that fails, the next start tries again. */
export function clearDemo(): Promise<void> {
  return alone(async () => {
    // another tab may have finished it meanwhile
    if (demoFlag() === 'shown') return;
    await dropLog(DEMO_LOG);
    setDemoFlag('none');
  }).catch(() => undefined);
}

/** One tab at a time writes or deletes the demo. */
function alone<T>(act: () => Promise<T>): Promise<T> {
  const locks: LockManager | undefined = navigator.locks;
  return locks ? Promise.resolve(locks.request(`${DEMO_LOG}-made`, act)) : act();
}
