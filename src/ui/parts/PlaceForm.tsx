import { useState } from 'preact/hooks';
import type { Place as KitPlace } from '../../domain/kit';
import { NO_PLACE, type PlaceFields, placeFields } from '../../domain/kitFields';
import { PLACE_KINDS, usualKit } from '../../domain/kitPresets';
import { LOAD_UNITS } from '../../domain/units';
import { useApp } from '../app';
import { type AnyFault, faultSentence } from '../faultWords';
import { PLACE_KIND } from '../libraryWords';
import { Chip, ChipRow } from './Chip';
import { TextField } from './TextField';

type PlaceFormProps = { readonly edited: KitPlace | undefined; readonly onKept: (id: string) => void };

/** A place and its kit. A new one may begin with what is usual in a kind of place; nothing is stored before it is kept. */
export function PlaceForm({ edited, onKept }: PlaceFormProps) {
  const { log, acts, world } = useApp();
  const [fields, setFields] = useState<PlaceFields>(edited ? placeFields(edited.name, edited) : NO_PLACE);
  const [fault, setFault] = useState<AnyFault>();
  const at = (field: string) => (fault?.field === field ? faultSentence(fault) : undefined);
  const put = (field: keyof PlaceFields) => (text: string) => setFields({ ...fields, [field]: text });
  const keep = () => {
    const kept = acts.savePlace(log, fields, world, edited?.id);
    if (kept.ok) onKept(kept.value.id);
    else setFault(kept.error);
  };
  return (
    <>
      <TextField label="Name of the place" value={fields.name} onText={put('name')} fault={at('place')} />
      {edited ? null : (
        <>
          <p class="hint">Begin with what is usual in</p>
          <ChipRow label="begin with the kit of" of="many">
            {PLACE_KINDS.map((kind) => (
              <Chip
                key={kind}
                onTap={() =>
                  setFields(placeFields(fields.name.trim() || PLACE_KIND[kind], usualKit(kind, fields.unit)))
                }
              >
                {PLACE_KIND[kind]}
              </Chip>
            ))}
          </ChipRow>
        </>
      )}
      <TextField
        label="Bands, from light to heavy, with commas between"
        value={fields.bands}
        onText={put('bands')}
        fault={at('bands')}
        hint="By the names you use, such as thin, grey, wide."
      />
      <TextField
        label="Highest pin of the stack"
        value={fields.pins}
        onText={put('pins')}
        mode="numeric"
        fault={at('pins')}
      />
      <ChipRow label="unit of bars, plates and dumbbells">
        {LOAD_UNITS.map((unit) => (
          <Chip key={unit} chosen={fields.unit === unit} onTap={() => setFields({ ...fields, unit })}>
            {unit}
          </Chip>
        ))}
      </ChipRow>
      <TextField label="Bars" value={fields.bars} onText={put('bars')} fault={at('bars')} hint="Such as 20 15." />
      <TextField
        label="Plates"
        value={fields.plates}
        onText={put('plates')}
        fault={at('plates')}
        hint="Such as 20 10 5 2.5 1.25."
      />
      <TextField
        label="Dumbbells"
        value={fields.dumbbells}
        onText={put('dumbbells')}
        fault={at('dumbbells')}
        hint="Such as 2-24 by 2, with commas between rows."
      />
      <button type="button" class="button button-act" onClick={keep}>
        Keep the place
      </button>
    </>
  );
}
