import { useEffect, useLayoutEffect } from 'preact/hooks';
import { useApp, useWatch } from '../app';
import { waitingWords } from '../recordWords';
import { go } from '../routes';
import { gather, gatheredLast } from './waiting';

/** A line on Today, only where something waits on the Records page. The log is gone through only when something may have come in. */
export function RecordsLine({ drawn }: { drawn: () => void }) {
  const app = useApp();
  useWatch(['undo']);
  const known = gatheredLast(app);
  const said = known && waitingWords(known);
  const isUnknown = known === undefined;
  useEffect(() => {
    if (isUnknown) void app.log.ready.then(() => gather(app));
  }, [app, isUnknown]);
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
