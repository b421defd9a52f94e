import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { Result } from '../../domain/result';
import type { DoorFault } from '../../sync/doors';
import { TextField } from '../parts/TextField';
import { useWork, WorkBar } from '../parts/useWork';
import type { KeptFault, Watching } from '../sealing';
import { doorFaultSentence, WENT_WRONG } from '../sealWords';

type Props = {
  readonly label?: string;
  readonly hint?: string;
  readonly act: string;
  readonly attempt: (secret: string, watch: Watching) => Promise<Result<void, DoorFault | KeptFault>>;
  readonly done: () => void;
  /** What stands beside the button. */
  readonly beside?: (busy: boolean) => ComponentChildren;
};

/** Asks for the recovery code or the passphrase, which open keys; why one does not stands at the field. */
export function SecretForm({ label = 'Recovery code or passphrase', hint, act, attempt, done, beside }: Props) {
  const work = useWork();
  const [secret, setSecret] = useState('');
  const [fault, setFault] = useState<string>();
  const tryIt = async (): Promise<void> => {
    setFault(undefined);
    const opened = await work.run((watch) => attempt(secret, watch)).catch(() => undefined);
    if (!opened?.ok) return setFault(opened ? doorFaultSentence(opened.error) : WENT_WRONG);
    setSecret('');
    done();
  };
  return (
    <form
      class="seal-form"
      onSubmit={(event) => {
        event.preventDefault();
        void tryIt();
      }}
    >
      <TextField exact label={label} value={secret} onText={setSecret} fault={fault} {...(hint ? { hint } : {})} />
      <WorkBar work={work} what="Trying it…" />
      <div class="chips chips-wrap">
        <button type="submit" class="button button-act" disabled={work.busy}>
          {act}
        </button>
        {beside?.(work.busy)}
      </div>
    </form>
  );
}
