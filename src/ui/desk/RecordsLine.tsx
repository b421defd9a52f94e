import { useEffect, useLayoutEffect } from 'preact/hooks';
import { useApp, useWatch } from '../app';
import { waitingWords } from '../recordWords';
import { go } from '../routes';
import { gather, waiting } from './waiting';

/** The import after which the log was gone through last. */
let gatheredAfter: number | undefined;

/** A line on Today, only where something waits on the Records page. The log is gone through once a launch, and after an import. */
export function RecordsLine({ drawn }: { drawn: () => void }) {
  const app = useApp();
  const { log } = app;
  useWatch(['undo']);
  const last = log.lastAct();
  const imported = last?.act.type === 'import' ? last.n : undefined;
  const said = waiting.value && waitingWords(waiting.value);
  useEffect(() => {
    if (waiting.value && (imported === undefined || imported === gatheredAfter)) return;
    gatheredAfter = imported;
    void log.ready.then(() => gather(app));
  }, [app, log, imported]);
  // what comes late must not push what is under the thumb away
  useLayoutEffect(() => {
    if (said !== undefined) drawn();
  }, [said, drawn]);
  if (said === undefined) return null;
  return (
    <button type="button" class="button" onClick={() => go({ page: 'records' })}>
      {said}
    </button>
  );
}
