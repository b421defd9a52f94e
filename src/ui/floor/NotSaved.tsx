import { useApp, useWatch } from '../app';
import { countOf } from '../format';
import { useTicking } from '../parts/useTicking';
import { go } from '../routes';
import { openFaultSentence, saveFaultSentence } from '../storeWords';

/** How long a write may take before the screen says that it is not saved yet. */
const SLOW_MS = 5000;

/** Says what is on the screen and not in the store, why, and the way out. Nothing where all is saved. */
export function NotSaved() {
  const { log, world } = useApp();
  useWatch(['status']);
  const status = log.status();
  const slow = useTicking(() => (status.unsavedSince !== null && world.now() - status.unsavedSince > SLOW_MS ? 1 : 0));
  const lost = status.phase === 'yielded';
  if (!lost && !status.saveFault && !slow) return null;
  return (
    <div class="not-saved" role="alert">
      <p>
        <strong>{status.unsaved > 0 ? 'NOT SAVED' : 'NOT SAVING'}</strong>:{' '}
        {lost
          ? 'a newer version of the app is open in another tab; reload to go on there'
          : `${status.unsaved > 0 ? `${countOf(status.unsaved, 'record')} on this screen alone; ` : ''}${
              status.openFault && status.saveFault?.type === 'connection-lost'
                ? openFaultSentence(status.openFault)
                : saveFaultSentence(status.saveFault)
            }`}
      </p>
      <div class="chips">
        <button type="button" class="button" onClick={() => log.retry()}>
          Try again
        </button>
        <button type="button" class="button" onClick={() => go({ page: 'backup' })}>
          Save a file
        </button>
      </div>
    </div>
  );
}
