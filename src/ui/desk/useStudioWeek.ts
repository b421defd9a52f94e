import { useEffect, useState } from 'preact/hooks';
import type { Answers } from '../../analysis/answers';
import type { Day } from '../../domain/day';
import type { Told } from '../analysing';
import { useApp } from '../app';

/** Every client's answers as of a day, as far as they are there. `failed`: no more come. */
export type StudioAsked = {
  readonly asOf: Day;
  readonly answers: ReadonlyMap<string, Answers>;
  readonly told?: Told;
  readonly state: 'working' | 'there' | 'failed';
};

/** Rows come in one act after another: they are waited out before anything is worked out anew, ms. */
const SETTLES = 400;
const CHANGES = ['kind:session', 'kind:otherWork', 'kind:role', 'kind:client', 'kind:settings'];

/** Returns the answers of all clients as of a day, worked out beside the page, and anew after records change; older ones stay until then. */
export function useStudioWeek(asOf: Day): StudioAsked {
  const { analysing, log } = useApp();
  const [asked, put] = useState<StudioAsked>(() => nothing(asOf));
  useEffect(() => {
    let call = new AbortController();
    let timer: ReturnType<typeof setTimeout> | undefined;
    const ask = (): void => {
      call.abort();
      const own = new AbortController();
      call = own;
      const each = (one: Answers, told: Told): void => {
        if (own.signal.aborted) return;
        put((before) => ({ ...before, told, answers: new Map(before.answers).set(one.stream, one) }));
      };
      void analysing()
        .then((all) => all.studio(asOf, each, own.signal))
        .catch(() => undefined)
        .then((all) => {
          if (own.signal.aborted) return;
          put((before) =>
            all
              ? { ...before, state: 'there', answers: new Map(all.map((one) => [one.stream, one])) }
              : { ...before, state: 'failed' },
          );
        });
    };
    put(nothing(asOf));
    ask();
    const off = log.watch(CHANGES, () => {
      clearTimeout(timer);
      timer = setTimeout(ask, SETTLES);
    });
    return () => {
      clearTimeout(timer);
      call.abort();
      off();
    };
  }, [analysing, log, asOf]);
  // what was asked for another day is of no use for this one
  return asked.asOf === asOf ? asked : nothing(asOf);
}

const nothing = (asOf: Day): StudioAsked => ({ asOf, state: 'working', answers: new Map() });
