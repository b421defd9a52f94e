import type { Entry } from '../../domain/entry';
import { useApp } from '../app';
import { unclearedSentence } from '../careWords';
import { number } from '../format';
import { go } from '../routes';
import { heaviestOf, inUnit } from './closed';
import type { Pad } from './usePad';

/** What was stopped in a session before and is not cleared: how far it is offered, and where a clearance is noted. */
export function Uncleared({ pad, entry }: { pad: Pad; entry: Entry }) {
  const { place, session } = pad;
  const most = heaviestOf(useApp(), place, session, entry.exercise);
  if (most === undefined) return null;
  return (
    <div class="adapt">
      <p class="fault" role="alert">
        {unclearedSentence(most === null ? null : `${number(inUnit(entry.unit, most))} ${entry.unit}`)}
      </p>
      <button
        type="button"
        class="button"
        onClick={() => go({ page: 'session', ...place, sheet: { name: 'clearance', exercise: entry.exercise } })}
      >
        Note a clearance
      </button>
    </div>
  );
}
