import { useId } from 'preact/hooks';
import { useApp, useUpdate } from '../app';
import { back } from '../routes';
import { LOST_PART } from '../words';

/** Stands where a part of the app could not be loaded: with the network gone on a first visit, or its version gone from the server. */
export function LostPart({ again }: { again: () => void }) {
  const { update } = useApp();
  const said = useId();
  const isOld = useUpdate() === 'old';
  return (
    <section class="card lost-part" role="alertdialog" aria-modal="true" aria-labelledby={said}>
      <p id={said}>{isOld ? LOST_PART.old : LOST_PART.missing}</p>
      <div class="chips">
        <button type="button" class="button" onClick={isOld ? update.use : again}>
          {isOld ? 'Use the new version' : 'Try again'}
        </button>
        <button type="button" class="button button-plain" onClick={() => back({ page: 'today' })}>
          Back
        </button>
        <a class="button button-plain" href="/?repair">
          Repair the app
        </a>
      </div>
    </section>
  );
}
