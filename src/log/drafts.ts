import { sameValue } from '../merge/canonical';
import type { Json } from '../merge/row';

/*
 * What is typed and not yet logged: never stamped, never synced, and kept so that a killed app comes back with it. Written a moment
 * after the last change; clearing one belongs to the act that used it.
 */

export type Drafts = {
  readonly get: (key: string) => Json | undefined;
  readonly keys: () => readonly string[];
  /** Takes a new state; it is written when the typing pauses. */
  readonly set: (key: string, value: Json) => void;
  /** Takes what an act says the draft is now (`null`: gone) and returns what to put in the act's own transaction. */
  readonly settle: (key: string, value: Json) => ReadonlyMap<string, Json>;
  /** Takes the drafts in the store for its own, but for those that are newer here: not written yet, or on their way (`writing`). */
  readonly load: (stored: ReadonlyMap<string, Json>, writing: ReadonlyMap<string, Json>) => void;
  /** Writes now what waits: the page may be frozen next. */
  readonly flush: () => void;
};

const PAUSE_MS = 250;

/** Returns no drafts. `write` puts drafts in the store; `onChange` hears the key of every one that changes. */
export function createDrafts(write: (drafts: Map<string, Json>) => void, onChange: (key: string) => void): Drafts {
  const drafts = new Map<string, Json>();
  const waiting = new Map<string, Json>();
  let timer: ReturnType<typeof setTimeout> | undefined;

  function take(key: string, value: Json): void {
    if (value === null) drafts.delete(key);
    else drafts.set(key, value);
    onChange(key);
  }
  function flush(): void {
    clearTimeout(timer);
    timer = undefined;
    if (waiting.size === 0) return;
    write(new Map(waiting));
    waiting.clear();
  }

  return {
    get: (key) => drafts.get(key),
    keys: () => [...drafts.keys()],
    set(key, value) {
      take(key, value);
      waiting.set(key, value);
      clearTimeout(timer);
      timer = setTimeout(flush, PAUSE_MS);
    },
    settle(key, value) {
      // none was typed: nothing lies in the store, or its deletion waits already
      if (value === null && !drafts.has(key)) return new Map();
      take(key, value);
      waiting.delete(key);
      return new Map([[key, value]]);
    },
    load(stored, writing) {
      for (const key of new Set([...drafts.keys(), ...stored.keys()])) {
        const value = stored.get(key) ?? null;
        const isNewer = waiting.has(key) || writing.has(key);
        if (!isNewer && !sameValue(drafts.get(key) ?? null, value)) take(key, value);
      }
    },
    flush,
  };
}
