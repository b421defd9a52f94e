/** What a screen may watch: a row by its key, all rows of a kind, or one of the log's other tellings. */
export type Topic = string;

export const kindTopic = (kind: string): Topic => `kind:${kind}`;
export const STATUS: Topic = 'status';
export const UNDO: Topic = 'undo';
export const draftTopic = (key: string): Topic => `draft:${key}`;
export const seriesTopic = (stream: string): Topic => `series:${stream}`;

export type Watchers = {
  /** Calls `fn` after a change to any of the topics, once for all changes of one step. Returns the way to stop. */
  readonly watch: (topics: readonly Topic[], fn: () => void) => () => void;
  readonly tell: (topic: Topic) => void;
  /**
   * Keeps back what is told until the function returned is called, or the next frame is due: drawing takes the very thread that a write
   * waits for, and a write that is complete before the frame is drawn once, as saved.
   */
  readonly holdBack: () => () => void;
};

/** Calls `fn` before the next frame is drawn; returns the way to call it off. */
export type NextFrame = (fn: () => void) => () => void;

/** Returns an empty list of watchers. */
export function createWatchers(nextFrame: NextFrame): Watchers {
  const byTopic = new Map<Topic, Set<() => void>>();
  let told = new Set<() => void>();
  let holders = 0;
  let scheduled = false;

  function schedule(): void {
    if (holders > 0 || scheduled || told.size === 0) return;
    scheduled = true;
    queueMicrotask(() => {
      scheduled = false;
      flush();
    });
  }

  function flush(): void {
    const now = told;
    told = new Set();
    for (const fn of now) fn();
  }

  return {
    watch(topics, fn) {
      for (const topic of topics) {
        const fns = byTopic.get(topic) ?? new Set();
        byTopic.set(topic, fns.add(fn));
      }
      return () => {
        for (const topic of topics) byTopic.get(topic)?.delete(fn);
        told.delete(fn);
      };
    },
    tell(topic) {
      const fns = byTopic.get(topic);
      if (!fns?.size) return;
      for (const fn of fns) told.add(fn);
      schedule();
    },
    holdBack() {
      holders += 1;
      let held = true;
      const release = (): void => {
        if (!held) return;
        held = false;
        callOff();
        holders -= 1;
        schedule();
      };
      const callOff = nextFrame(release);
      return release;
    },
  };
}
