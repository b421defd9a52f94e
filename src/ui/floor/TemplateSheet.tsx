import { useState } from 'preact/hooks';
import { instantAt } from '../../domain/day';
import { weekFrom } from '../../domain/settings';
import { type WeekDay, weekDayOf } from '../../domain/template';
import { useApp } from '../app';
import { WEEK_DAY } from '../blockWords';
import { faultSentence } from '../faultWords';
import { Chip, ChipRow } from '../parts/Chip';
import { Sheet } from '../parts/Sheet';
import { say } from '../parts/say';
import { TextField } from '../parts/TextField';
import type { Pad } from './usePad';

/** Keeps the session as a template: its list and blocks, with what was done as what to begin with. On its days Today offers it. */
export function TemplateSheet({ pad, close }: { pad: Pad; close: () => void }) {
  const { log, acts, views, world } = useApp();
  const { place, session } = pad;
  const [name, setName] = useState('');
  const day = session.start?.day ?? instantAt(world.now(), world.zone()).day;
  const [days, setDays] = useState<readonly WeekDay[]>([weekDayOf(day)]);
  const [fault, setFault] = useState<string>();
  const keep = () => {
    const kept = acts.keepTemplate(log, place, name, days, world);
    if (!kept.ok) return setFault(faultSentence(kept.error));
    say('Template kept.');
    close();
  };
  return (
    <Sheet title="Keep as a template" onClose={close}>
      <TextField label="Name of the template" value={name} onText={setName} fault={fault} />
      <p class="hint">On which days Today offers it</p>
      <ChipRow label="days of the week" of="many">
        {weekFrom(views.settings(log).firstDay).map((one) => (
          <Chip
            key={one}
            chosen={days.includes(one)}
            onTap={() => setDays(days.includes(one) ? days.filter((other) => other !== one) : [...days, one])}
          >
            {WEEK_DAY[one]}
          </Chip>
        ))}
      </ChipRow>
      <button type="button" class="button button-act" onClick={keep}>
        Keep the template
      </button>
    </Sheet>
  );
}
