import { useCallback, useMemo, useState } from 'preact/hooks';
import type { Answers } from '../../analysis/answers';
import type { Day } from '../../domain/day';
import type { Told } from '../analysing';
import { useApp } from '../app';
import { RECORDS, useAskedAnew } from '../askedAnew';

/** Where the answers of a client stand: worked out, on the way, or not to be had. */
export type Asked = {
  readonly answers?: Answers;
  readonly told?: Told;
  readonly state: 'working' | 'there' | 'failed';
};

/** Returns the answers of a client as of a day, worked out beside the page, and anew after that client's records change; older ones stay until then. */
export function useAnswers(stream: string, today: Day): Asked {
  const { analysing } = useApp();
  const [{ of, ...asked }, put] = useState<Asked & { readonly of: string }>({ of: stream, state: 'working' });
  const changes = useMemo(() => [`series:${stream}`, ...RECORDS], [stream]);
  const ask = useCallback(
    (signal: AbortSignal) => {
      // of another client nothing stays
      const since = (before: { readonly of: string } & Asked) =>
        before.of === stream ? before : { of: stream, state: 'working' as const };
      const tell = (told: Told) => signal.aborted || put((before) => ({ ...since(before), told }));
      void analysing()
        .then((all) => all.client(stream, today, tell, signal))
        .catch(() => undefined)
        .then((answers) => {
          if (signal.aborted) return;
          put(answers ? { of: stream, state: 'there', answers } : { of: stream, state: 'failed' });
        });
    },
    [analysing, stream, today],
  );
  useAskedAnew(changes, ask);
  return of === stream ? asked : { state: 'working' };
}
