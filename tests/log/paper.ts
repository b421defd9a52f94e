import type { Log } from '../../src/log/log';
import type { Row } from '../../src/merge/row';
import { createWorld, type TestWorld } from './fakes/world';
import { REAL } from './room';

/** A device on paper: memory and acts as they are, and no store. Two of them can live at once, and meet. */
export type Paper = {
  readonly log: Log;
  readonly world: TestWorld;
  readonly rows: () => readonly Row[];
  /** Takes in all that another device holds. */
  readonly meet: (other: Paper) => void;
};

/** Returns a device on paper that writes as `writer`. */
export function paper(writer: string, seed: number): Paper {
  const memory = REAL.createMemory(writer, () => {});
  const world = createWorld(seed);
  const verbs: Partial<Log> = {
    get: memory.get,
    ofKind: memory.ofKind,
    all: memory.all,
    loadSession: async () => true,
    commit({ rows }) {
      for (const { name, changes, fresh = false } of rows) {
        if (!fresh && !memory.get(REAL.keyOf(name))) throw new Error(`row ${name.id} is not held`);
        memory.write(name, changes, world.now());
      }
      return Promise.resolve({ ok: true, value: undefined });
    },
  };
  return {
    // an act that asks for another verb falls over, and the test with it
    log: verbs as Log,
    world,
    rows: memory.all,
    meet(other) {
      for (const row of other.rows()) memory.absorb(row);
    },
  };
}

/** Lets devices meet until all hold the same. */
export function allMeet(...devices: readonly Paper[]): void {
  for (const one of devices) for (const other of devices) if (one !== other) one.meet(other);
  for (const one of devices) for (const other of devices) if (one !== other) one.meet(other);
}
