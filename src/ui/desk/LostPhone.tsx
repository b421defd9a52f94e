import { useState } from 'preact/hooks';
import { useApp } from '../app';
import { say } from '../parts/say';
import { useWork, WorkBar } from '../parts/useWork';
import { go } from '../routes';
import { doorFaultSentence, WENT_WRONG } from '../sealWords';
import { PassphraseFields, typedTwice } from './PassphraseFields';

/** What to do, in its order, when a device is lost; new keys are the step that happens here. `changed` hears the new recovery code. */
export function LostPhone({ changed }: { changed: (code: string) => void }) {
  const { sealing } = useApp();
  const work = useWork();
  const [open, setOpen] = useState(false);
  const [typed, setTyped] = useState({ once: '', twice: '' });
  const [fault, setFault] = useState<string>();
  const rotate = async (): Promise<void> => {
    const why = typedTwice(typed);
    setFault(why);
    if (why) return;
    const turned = await work.run(async (watch) => (await sealing()).rotate(typed.once, watch)).catch(() => undefined);
    if (!turned?.ok) return setFault(turned ? doorFaultSentence(turned.error) : WENT_WRONG);
    setTyped({ once: '', twice: '' });
    setOpen(false);
    say('New keys are made. The new recovery code is shown above.');
    changed(turned.value);
  };
  return (
    <section class="card" aria-label="a lost phone">
      <h2>When a phone is lost</h2>
      <ol class="seal-steps">
        <li>Lock or erase it from afar, with what its maker offers for that.</li>
        <li>
          On the new phone: install the app, tap Bring a file in, open the last backup with its seven words, and type
          the recovery code. Everything up to that backup is there.
        </li>
        <li>
          Here, on a device that you still have: make new keys. The old code and passphrase then open nothing that comes
          later.
        </li>
        <li>Make a new sealed backup; its words are new too.</li>
        <li>
          Tell the clients it concerns. The records on a lost phone are protected by its own lock alone; local rules may
          ask for more.
        </li>
      </ol>
      <button type="button" class="button" onClick={() => go({ page: 'bring-in' })}>
        Bring a file in
      </button>
      {open ? (
        <form
          class="seal-form"
          onSubmit={(event) => {
            event.preventDefault();
            void rotate();
          }}
        >
          <p>
            New keys need a new passphrase, and come with a new recovery code. Your other devices ask for one of them
            once. What the lost phone had received stays readable to whoever opens it.
          </p>
          <PassphraseFields typed={typed} type={setTyped} fault={fault} />
          <WorkBar work={work} what="Making new keys…" />
          <button type="submit" class="button button-act" disabled={work.busy}>
            Make new keys
          </button>
        </form>
      ) : (
        <button type="button" class="button button-plain" onClick={() => setOpen(true)}>
          New keys…
        </button>
      )}
    </section>
  );
}
