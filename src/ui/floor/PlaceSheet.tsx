import { useState } from 'preact/hooks';
import type { Place as KitPlace } from '../../domain/kit';
import { useApp, useWatch } from '../app';
import { PlaceForm } from '../parts/PlaceForm';
import { Sheet } from '../parts/Sheet';
import type { Pad } from './usePad';

/** Where the session is: its bands and pins are those of the place. A place can be added or changed here. */
export function PlaceSheet({ pad, close }: { pad: Pad; close: () => void }) {
  const { log, acts, views } = useApp();
  useWatch(['kind:kit']);
  const { place, session } = pad;
  const [edited, setEdited] = useState<KitPlace | 'new'>();
  const choose = (id: string) => {
    void acts.choosePlace(log, place, session.place === id ? null : id);
    close();
  };
  if (edited !== undefined) {
    return (
      <Sheet title={edited === 'new' ? 'A new place' : edited.name} onClose={close}>
        <PlaceForm edited={edited === 'new' ? undefined : edited} onKept={choose} />
      </Sheet>
    );
  }
  return (
    <Sheet title="Place" onClose={close}>
      <ul class="pick-list">
        {views.places(log).map((one) => (
          <li key={one.id} class="list-line">
            <button
              type="button"
              class="button pick"
              aria-pressed={session.place === one.id}
              onClick={() => choose(one.id)}
            >
              <span dir="auto">{one.name}</span>
              {session.place === one.id ? ', here' : ''}
            </button>
            <button type="button" class="button" aria-label={`change ${one.name}`} onClick={() => setEdited(one)}>
              change
            </button>
          </li>
        ))}
      </ul>
      <button type="button" class="button" onClick={() => setEdited('new')}>
        Add a place
      </button>
    </Sheet>
  );
}
