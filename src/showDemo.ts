import type { World } from './domain/world';
import type { Log } from './log/log';
import { demoFlag, setDemoFlag, watchDemoFlag } from './log/showing';
import type { Demo } from './ui/app';

/*
 * Going from one's own log to the demo's and back. Each is a new start of the page, so nothing of the one is in memory with the other.
 */

/** A store that does not answer within this is not waited for. */
const PATIENCE_MS = 2000;

export type ShowDemoDeps = {
  readonly log: Log;
  readonly world: World;
  /** Whether the log of this page is the demo's. */
  readonly shown: boolean;
  readonly isRunning: () => boolean;
};

/** Returns what the screens can do with the demo; deletes what a kill left of one, once the log is open. */
export function showDemo({ log, world, shown, isRunning }: ShowDemoDeps): Demo {
  if (shown) document.documentElement.dataset['demo'] = '';
  else if (demoFlag() !== 'none') void clear();
  watchDemoFlag(() => {
    // a session that runs is not taken away from under its trainer
    if ((demoFlag() === 'shown') !== shown && (shown || !isRunning())) start();
  });

  async function clear(): Promise<void> {
    await log.ready;
    await (await import('./demo')).clearDemo();
  }

  async function isSaved(): Promise<boolean> {
    log.flush();
    const late = new Promise<void>((resolve) => setTimeout(resolve, PATIENCE_MS));
    await Promise.race([log.retry(), late]);
    const { unsaved, saveFault } = log.status();
    return unsaved === 0 && saveFault === null;
  }

  return {
    shown,
    async load() {
      await log.ready;
      if (isRunning()) return 'running';
      if (!(await isSaved())) return 'unsaved';
      try {
        const { clearDemo, writeDemo } = await import('./demo');
        const written = await writeDemo(world, () => !isRunning());
        if (!written) void clearDemo();
        else start();
        return written ? 'going' : isRunning() ? 'running' : 'failed';
      } catch {
        return 'failed';
      }
    },
    remove() {
      setDemoFlag('leaving');
      start();
    },
  };
}

const start = (): void => location.replace('/');
