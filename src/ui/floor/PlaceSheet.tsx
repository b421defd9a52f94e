import { useState } from 'preact/hooks';
import type { Place as KitPlace, PlaceFields } from '../../domain/kit';
import { useApp, useWatch } from '../app';
import { type AnyFault, faultSentence } from '../faultWords';
import { Sheet } from '../parts/Sheet';
import { TextField } from '../parts/TextField';
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

function PlaceForm({ edited, onKept }: { edited: KitPlace | undefined; onKept: (id: string) => void }) {
  const { log, acts, world } = useApp();
  const [fields, setFields] = useState<PlaceFields>({
    name: edited?.name ?? '',
    bands: edited?.bands.join(', ') ?? '',
    pins: edited?.pins === undefined ? '' : String(edited.pins),
  });
  const [fault, setFault] = useState<AnyFault>();
  const at = (field: string) => (fault?.field === field ? faultSentence(fault) : undefined);
  const keep = () => {
    const kept = acts.savePlace(log, fields, world, edited?.id);
    if (kept.ok) onKept(kept.value.id);
    else setFault(kept.error);
  };
  return (
    <>
      <TextField
        label="Name of the place"
        value={fields.name}
        onText={(name) => setFields({ ...fields, name })}
        fault={at('place')}
      />
      <TextField
        label="Bands, from light to heavy, with commas between"
        value={fields.bands}
        onText={(bands) => setFields({ ...fields, bands })}
        fault={at('bands')}
        hint="By the names you use, such as thin, grey, wide."
      />
      <TextField
        label="Highest pin of the stack"
        value={fields.pins}
        onText={(pins) => setFields({ ...fields, pins })}
        mode="numeric"
        fault={at('pins')}
      />
      <button type="button" class="button button-act" onClick={keep}>
        Keep the place
      </button>
    </>
  );
}
