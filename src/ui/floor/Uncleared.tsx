import type { Entry } from '../../domain/entry';
import { heldBy } from '../../domain/painBefore';
import { useApp } from '../app';
import { number } from '../format';
import { heldSentence } from '../painWords';
import { go } from '../routes';
import { heaviestOf, inUnit } from './closed';
import type { Pad } from './usePad';

/** What was stopped in a session before and is not cleared: how far it is offered, and where a clearance is noted. */
export function Uncleared({ pad, entry }: { pad: Pad; entry: Entry }) {
  const { place, session } = pad;
  const app = useApp();
  const most = heaviestOf(app, place, session, entry.exercise);
  if (most === undefined) return null;
  const { log, views } = app;
  const times = log.lastTimes(place.stream, entry.exercise, place.session) ?? [];
  const held = heldBy(times, views.client(log, place.stream)?.clearances[entry.exercise]);
  return (
    <div class="adapt">
      <p class="fault" role="alert">
        {heldSentence(held, most === null ? null : `${number(inUnit(entry.unit, most))} ${entry.unit}`)}
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
