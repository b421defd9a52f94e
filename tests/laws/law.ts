import * as fc from 'fast-check';
import type { MergeRoom } from './room';

export type Run = {
  readonly seed: number;
  readonly cases: number;
  /** Of a failure found before: where it stood in the tree of smaller cases. */
  readonly path?: string;
  /** True where it is enough to know that the law is broken, not by which smallest case. */
  readonly hasty?: boolean;
};

/** A law of the architecture as something that can be tried on any room. */
export type Law<Room = MergeRoom> = {
  readonly number: string;
  readonly says: string;
  /** Returns the case that breaks the law, in words, with the seed to repeat it; undefined where it held in every case. */
  readonly brokenBy: (room: Room, run: Run) => string | undefined;
};

/** Returns a law that must hold for all inputs; `hold` throws where it does not. */
export function law<Inputs extends [unknown, ...unknown[]], Room = MergeRoom>(
  number: string,
  says: string,
  inputs: { [K in keyof Inputs]: fc.Arbitrary<Inputs[K]> },
  hold: (room: Room, ...inputs: Inputs) => void,
): Law<Room> {
  return {
    number,
    says,
    brokenBy(room, { seed, cases, path, hasty }) {
      const property = fc.property(...inputs, (...given: Inputs) => hold(room, ...given));
      const details = fc.check(property, {
        seed,
        numRuns: cases,
        endOnFailure: hasty ?? false,
        ...(path === undefined ? {} : { path }),
      });
      if (!details.failed) return undefined;
      return `[${number}] ${says}\nrepeat with LAWS_SEED=${seed} (path ${details.counterexamplePath})\n${fc.defaultReportMessage(details)}`;
    },
  };
}

/** Throws where something that a law promises is not so. */
export function must(so: boolean, otherwise: string | (() => string)): asserts so {
  if (!so) throw new Error(typeof otherwise === 'string' ? otherwise : otherwise());
}
