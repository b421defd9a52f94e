import { useCallback, useState } from 'preact/hooks';
import type { Answers } from '../../analysis/answers';
import type { Day } from '../../domain/day';
import type { Told } from '../analysing';
import { useApp } from '../app';
import { RECORDS, useAskedAnew } from '../askedAnew';

/** Every client's answers as of a day, as far as they are there. `failed`: no more come. */
export type StudioAsked = {
  readonly asOf: Day;
  readonly answers: ReadonlyMap<string, Answers>;
  readonly told?: Told;
  readonly state: 'working' | 'there' | 'failed';
};

/** Returns the answers of all clients as of a day, worked out beside the page, and anew after records change; older ones stay until then. */
export function useStudioWeek(asOf: Day): StudioAsked {
  const { analysing } = useApp();
  const [asked, put] = useState<StudioAsked>(() => nothing(asOf));
  const ask = useCallback(
    (signal: AbortSignal) => {
      const each = (one: Answers, told: Told): void => {
        if (signal.aborted) return;
        put((before) => {
          const own = before.asOf === asOf ? before : nothing(asOf);
          return { ...own, told, answers: new Map(own.answers).set(one.stream, one) };
        });
      };
      void analysing()
        .then((all) => all.studio(asOf, each, signal))
        .catch(() => undefined)
        .then((all) => {
          if (signal.aborted) return;
          put((before) =>
            all
              ? { asOf, state: 'there', answers: new Map(all.map((one) => [one.stream, one])) }
              : { ...(before.asOf === asOf ? before : nothing(asOf)), state: 'failed' },
          );
        });
    },
    [analysing, asOf],
  );
  useAskedAnew(RECORDS, ask);
  // what was asked for another day is of no use for this one
  return asked.asOf === asOf ? asked : nothing(asOf);
}

const nothing = (asOf: Day): StudioAsked => ({ asOf, state: 'working', answers: new Map() });
