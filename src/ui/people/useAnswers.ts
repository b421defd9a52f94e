import { useEffect, useState } from 'preact/hooks';
import type { Answers } from '../../analysis/answers';
import type { Day } from '../../domain/day';
import type { Told } from '../analysing';
import { useApp } from '../app';

/** Where the answers of a client stand: worked out (`older` while newer ones are on their way), on the way, or not to be had. */
export type Asked = {
  readonly answers?: Answers;
  readonly told?: Told;
  readonly state: 'working' | 'there' | 'failed';
};

/** Rows come in one act after another: they are waited out before anything is worked out anew, ms. */
const SETTLES = 400;

/** Returns the answers of a client as of a day, worked out beside the page, and anew after that client's records change. */
export function useAnswers(stream: string, today: Day): Asked {
  const { analysing, log } = useApp();
  const [asked, put] = useState<Asked>({ state: 'working' });
  useEffect(() => {
    let call = new AbortController();
    let timer: ReturnType<typeof setTimeout> | undefined;
    const ask = () => {
      call.abort();
      const own = new AbortController();
      call = own;
      const tell = (told: Told) => own.signal.aborted || put((before) => ({ ...before, told }));
      void analysing()
        .then((all) => all.client(stream, today, tell, own.signal))
        .catch(() => undefined)
        .then((answers) => {
          if (own.signal.aborted) return;
          put(answers ? { state: 'there', answers } : { state: 'failed' });
        });
    };
    put({ state: 'working' });
    ask();
    const off = log.watch(
      [`series:${stream}`, 'kind:session', 'kind:otherWork', 'kind:result', 'kind:client', 'kind:settings'],
      () => {
        clearTimeout(timer);
        timer = setTimeout(ask, SETTLES);
      },
    );
    return () => {
      clearTimeout(timer);
      call.abort();
      off();
    };
  }, [analysing, log, stream, today]);
  return asked;
}
