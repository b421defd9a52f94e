import { useState } from 'preact/hooks';
import { instantAt } from '../../domain/day';
import { useApp } from '../app';
import { say } from '../parts/say';
import { TextField } from '../parts/TextField';
import { backupsWords, ERASE } from '../recordWords';
import { replace } from '../routes';
import { saveFaultSentence } from '../storeWords';

/** [M10] Erasing for good: asks for the client's name to be typed, and says what it wipes and what it does not reach. */
export function EraseClient({ stream, alias }: { stream: string; alias: string }) {
  const { log, acts, world } = useApp();
  const [open, setOpen] = useState(false);
  const [typed, setTyped] = useState('');
  const [fault, setFault] = useState<string>();
  const [failed, setFailed] = useState<string>();
  const { phase, seat, lastBackup } = log.status();
  const isWriter = phase === 'open' && seat === 'writer';
  const erase = async () => {
    const isSame = typed.trim() === alias.trim();
    setFault(isSame ? undefined : ERASE.different);
    if (!isSame) return;
    const erased = await acts.eraseClient(log, stream);
    if (!erased.ok) return setFailed(`Not saved yet: ${saveFaultSentence(erased.error)}.`);
    say(ERASE.done);
    replace({ page: 'today' });
  };
  if (!open)
    return (
      <section class="card" aria-label="erase">
        <button type="button" class="button button-plain" onClick={() => setOpen(true)}>
          {ERASE.begin}
        </button>
      </section>
    );
  return (
    <section class="card" aria-label="erase">
      <h2>Erase for good</h2>
      <p>{ERASE.wipes}</p>
      <p>{ERASE.reaches}</p>
      <ul>
        <li>– {backupsWords(lastBackup === null ? null : instantAt(lastBackup, world.zone()).day)}</li>
        <li>– {ERASE.bundles}</li>
      </ul>
      <p class="hint">{ERASE.disk}</p>
      <p>
        <strong>{ERASE.final}</strong> To go on, type <b dir="auto">{alias}</b>.
      </p>
      <TextField label="The client’s name" value={typed} onText={setTyped} fault={fault} />
      {failed ? (
        <p class="fault" role="alert">
          {failed}
        </p>
      ) : null}
      <button type="button" class="button" disabled={!isWriter} onClick={() => void erase()}>
        Erase for good
      </button>
      <button type="button" class="button button-plain" onClick={() => setOpen(false)}>
        Do not erase
      </button>
    </section>
  );
}
