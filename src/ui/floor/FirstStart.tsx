import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { useApp } from '../app';
import { faultSentence } from '../faultWords';
import { DemoOffer } from '../parts/DemoOffer';
import { TextField } from '../parts/TextField';
import { go } from '../routes';
import { PAIN_CAUTION } from '../setWords';
import { APP, CAUTION } from '../words';

/** Any name will do to begin with; it can be changed on the client’s page. */
const FIRST_ALIAS = 'Client A';

/** The first start: the first session begins with one tap, under any name; all else can come later. `above` is drawn with it, not before. */
export function FirstStart({ above }: { above: ComponentChildren }) {
  const { log, acts, loadActs, world } = useApp();
  const [alias, setAlias] = useState(FIRST_ALIAS);
  const [fault, setFault] = useState<string>();
  const start = async () => {
    await Promise.all([log.ready, loadActs()]);
    const kept = acts.saveClient(log, { alias, short: '', dayName: '', day: '' }, world);
    if (!kept.ok) return setFault(faultSentence(kept.error));
    const { stream, session } = acts.startSession(log, kept.value.id, world);
    go({ page: 'session', stream, session });
  };
  return (
    <>
      {above}
      <form
        class="card first-start"
        onSubmit={(event) => {
          event.preventDefault();
          void start();
        }}
      >
        <h2>{APP}</h2>
        <p>Log a real set now: a name, one tap, an exercise. Nothing has to be set up first.</p>
        <TextField
          label="Who trains? An alias is enough"
          value={alias}
          onText={(text) => {
            setAlias(text);
            setFault(undefined);
          }}
          fault={fault}
        />
        <button type="submit" class="button button-act">
          Start the first session
        </button>
        <p class="hint">{CAUTION}</p>
        <p class="hint">{PAIN_CAUTION}</p>
        <button type="button" class="button button-plain" onClick={() => go({ page: 'bring-in' })}>
          I have a backup file
        </button>
        <button type="button" class="button button-plain" onClick={() => go({ page: 'backup' })}>
          Where records are kept, and how to keep them
        </button>
      </form>
      <DemoOffer />
    </>
  );
}
