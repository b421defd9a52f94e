import { useEffect, useRef, useState } from 'preact/hooks';
import { instantAt } from '../../domain/day';
import { useApp } from '../app';
import { dayShort } from '../format';
import { say } from '../parts/say';
import { TextField } from '../parts/TextField';
import { backupsWords, ERASE } from '../recordWords';
import { replace } from '../routes';
import type { SealedBefore } from '../sealing';
import { saveFaultSentence } from '../storeWords';

type Props = {
  readonly stream: string;
  readonly alias: string;
  /** To whom the client was handed over: then a stub stays. */
  readonly handedTo?: string;
};

/** [M10] Erasing for good: asks for the client's name to be typed, and says what it wipes and what it does not reach. */
export function EraseClient({ stream, alias, handedTo }: Props) {
  const { log, acts, world, sealing } = useApp();
  const [open, setOpen] = useState(false);
  const hasStub = useRef(false);
  const [typed, setTyped] = useState('');
  const [fault, setFault] = useState<string>();
  const [failed, setFailed] = useState<string>();
  const { phase, seat, lastBackup } = log.status();
  const isWriter = phase === 'open' && seat === 'writer';
  const withStub = handedTo !== undefined;
  const erase = async () => {
    const isSame = typed.trim() === alias.trim();
    setFault(isSame ? undefined : ERASE.different);
    if (!isSame) return;
    // first: a stub of one who is still here does no harm, an erased one without it is forgotten
    const stub = withStub && !hasStub.current ? await acts.keepStub(log, alias, handedTo, world) : undefined;
    hasStub.current = true;
    const erased = stub && !stub.ok ? stub : await acts.eraseClient(log, stream);
    if (!erased.ok) return setFailed(`Not saved yet: ${saveFaultSentence(erased.error)}.`);
    // what is not done now is done when the keys are next used
    await sealing().then(
      (own) => own.forgetErased(),
      () => undefined,
    );
    say(ERASE.done);
    replace({ page: 'today' });
  };
  if (!open)
    return (
      <section class="card" aria-label="erase">
        <button type="button" class="button button-plain" onClick={() => setOpen(true)}>
          {withStub ? 'Erase here, and keep a stub…' : ERASE.begin}
        </button>
      </section>
    );
  return (
    <section class="card" aria-label="erase">
      <h2>{withStub ? 'Erase here, and keep a stub' : 'Erase for good'}</h2>
      <p>{ERASE.wipes}</p>
      {withStub ? <p>{ERASE.stub}</p> : null}
      <p>{ERASE.reaches}</p>
      <ul>
        <li>– {backupsWords(lastBackup === null ? null : instantAt(lastBackup, world.zone()).day)}</li>
        <SealedFiles stream={stream} />
        <li>– {ERASE.copies}</li>
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

const WHAT = { vault: 'everything', clients: 'some clients', handover: 'handed over' } as const;

/** The sealed files of this device that hold the client: what was handed over is known, where it lies now only to the trainer. */
function SealedFiles({ stream }: { stream: string }) {
  const { sealing, world } = useApp();
  const [files, setFiles] = useState<readonly SealedBefore[]>([]);
  useEffect(() => {
    void sealing()
      .then((own) => own.keys())
      .then((keys) => {
        const all = typeof keys === 'string' ? [] : keys.sealed;
        setFiles(all.filter(({ what, streams }) => what === 'vault' || streams.includes(stream)));
      });
  }, [sealing, stream]);
  return (
    <>
      {files.map(({ at, what }) => (
        <li key={at}>
          – a sealed file of {dayShort(instantAt(at, world.zone()).day)}: {WHAT[what]}
        </li>
      ))}
    </>
  );
}
