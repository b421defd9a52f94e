import { useState } from 'preact/hooks';
import { instantAt } from '../../domain/day';
import { useApp, useWatch } from '../app';
import { Chip, ChipRow } from '../parts/Chip';
import { TextField } from '../parts/TextField';
import { WorkBar } from '../parts/useWork';
import { SealedFile, useSealed } from './SealedBackup';

/** Some clients as a sealed file, with all that is private: for another device of one's own. */
export function SealSome() {
  const { log, views, name, world } = useApp();
  useWatch(['kind:client']);
  const [open, setOpen] = useState(false);
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const [sender, setSender] = useState('');
  const made = useSealed();
  const clients = views.clients(log);
  if (clients.length === 0) return null;
  if (!open)
    return (
      <section class="card" aria-label="some clients">
        <button type="button" class="button button-plain" onClick={() => setOpen(true)}>
          A sealed file of some clients…
        </button>
      </section>
    );
  const toggle = (stream: string) =>
    setChosen(chosen.includes(stream) ? chosen.filter((one) => one !== stream) : [...chosen, stream]);
  return (
    <section class="card" aria-label="some clients">
      <h2>Some clients as a sealed file</h2>
      <p class="hint">
        With everything that is noted, private notes and pain too, and words of its own: for another device of yours.
        For another trainer, use Hand over on the client’s page.
      </p>
      {made.sealed ? (
        <SealedFile
          sealed={made.sealed}
          fileName={`${name}-clients-${instantAt(world.now(), world.zone()).day}.age`}
          said="File handed over."
        />
      ) : (
        <>
          <ChipRow label="Clients" of="many">
            {clients.map(({ id, alias }) => (
              <Chip key={id} chosen={chosen.includes(id)} onTap={() => toggle(id)}>
                <span dir="auto">{alias}</span>
              </Chip>
            ))}
          </ChipRow>
          <TextField
            label="Who sends it"
            value={sender}
            onText={setSender}
            hint="Shown where it is opened. Optional."
          />
          <WorkBar work={made.work} what="Sealing the file…" />
          <button
            type="button"
            class="button button-act"
            disabled={chosen.length === 0 || made.work.busy}
            onClick={() => made.seal({ what: 'clients', streams: chosen, sender: sender.trim().slice(0, 200) })}
          >
            Prepare the sealed file
          </button>
        </>
      )}
      {made.fault ? (
        <p class="fault" role="alert">
          {made.fault}
        </p>
      ) : null}
    </section>
  );
}
