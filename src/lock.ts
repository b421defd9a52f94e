import type { LockActsDeps } from './lockActs';
import type { Lock, LockActs, LockState } from './ui/app';

/*
 * The screen lock of this device: what the first screen needs of it. A start with the lock on is locked; out of sight the app is covered at once, and
 * back too late it is locked. What a PIN does is in lockActs.ts, loaded behind the first screen.
 */

export type LockDeps = LockActsDeps & {
  /** False while the demo is shown: what is invented is locked from nobody, and going back to one's own records is a start. */
  readonly applies: boolean;
  /** Resolves when the first screen is there: what may be asked for later is loaded from then on. */
  readonly loaded: Promise<unknown>;
};

const MINUTE_MS = 60_000;

/** Returns the lock as it stands at this start, and begins to look after it. */
export function createLock(deps: LockDeps): Lock {
  const { local, world, applies } = deps;
  const watchers = new Set<() => void>();
  const isOn = (): boolean => applies && Boolean(local.get('lock'));
  let state: LockState = isOn() ? 'locked' : 'open';
  let left = 0;
  let made: LockActs | undefined;

  const set = (next: LockState): void => {
    state = next;
    for (const fn of watchers) fn();
  };

  async function acts(): Promise<LockActs> {
    const { lockActs } = await import('./lockActs');
    made ??= lockActs(deps, { isOn, open: () => set('open') });
    return made;
  }

  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') {
      if (state !== 'open' || !isOn()) return;
      left = world.now();
      set('covered');
    } else if (state === 'covered') {
      const away = world.now() - left;
      // a clock set back tells nothing of how long it was
      const soon = away >= 0 && away < Number(local.get('lock-after')) * MINUTE_MS;
      set(soon || !isOn() ? 'open' : 'locked');
    }
  });
  // asked at once where it is on: a record that cannot be read locks nobody out
  void (isOn() ? acts() : deps.loaded.then(acts)).catch(() => undefined);

  return {
    isOn,
    state: () => state,
    watch: (fn) => {
      watchers.add(fn);
      return () => watchers.delete(fn);
    },
    acts,
  };
}
