import { useCallback, useEffect, useState } from 'preact/hooks';
import { instantAt } from '../../domain/day';
import { useApp } from '../app';
import { DEMO } from '../demoWords';
import { dayLong } from '../format';
import { PageHead } from '../parts/PageHead';
import { say } from '../parts/say';
import { useWork, WorkBar } from '../parts/useWork';
import type { KeysState } from '../sealing';
import { doorFaultSentence, keptFaultSentence, WENT_WRONG } from '../sealWords';
import { noteCode, noteRight } from './codeNote';
import { LostPhone } from './LostPhone';
import { PassphraseFields, typedTwice } from './PassphraseFields';
import { SecretForm } from './SecretForm';
import './seal.css';

/** What opens the keys of this device: the recovery code, a passphrase; and what to do when a device is lost. */
export function Keys() {
  const { sealing, demo, notes, world } = useApp();
  const [keys, setKeys] = useState<KeysState>();
  const [fault, setFault] = useState<string>();
  const [code, setCode] = useState<string>();
  const look = useCallback(async () => {
    const state = await (await sealing()).keys();
    if (typeof state !== 'string') {
      setFault(undefined);
      return setKeys(state);
    }
    setFault(keptFaultSentence({ type: state === 'damaged' ? 'damaged-keys' : 'unread' }));
  }, [sealing]);
  useEffect(() => void look(), [look]);
  if (demo.shown)
    return (
      <main class="page">
        <PageHead title="Keys" />
        <p>{DEMO.noFiles}</p>
      </main>
    );
  return (
    <main class="page">
      <PageHead title="Keys" />
      <p class="hint">
        By these keys your devices know each other’s files. They lie on this device; a recovery code or a passphrase
        brings them to a new one when this is gone. Nobody else can, and there is no way round them.
      </p>
      {fault ? (
        <p class="fault" role="alert">
          {fault}
        </p>
      ) : null}
      {keys?.locked ? <Unlock done={() => void look()} /> : null}
      {keys && !keys.locked ? (
        <>
          <RecoveryCode keys={keys} code={code} show={setCode} changed={() => void look()} />
          <Passphrase keys={keys} changed={() => void look()} />
          <LostPhone
            changed={(next) => {
              noteCode(notes, world.now());
              setCode(next);
              void look();
            }}
          />
        </>
      ) : null}
    </main>
  );
}

type CodeProps = {
  readonly keys: KeysState;
  /** The code, while it is shown. */
  readonly code: string | undefined;
  readonly show: (code: string | undefined) => void;
  readonly changed: () => void;
};

function RecoveryCode({ keys, code, show, changed }: CodeProps) {
  const { sealing, world, notes } = useApp();
  const [sure, setSure] = useState(false);
  const [fault, setFault] = useState<string>();
  const make = async (): Promise<void> => {
    setSure(false);
    setFault(undefined);
    const made = await (await sealing()).newCode();
    if (!made.ok) return setFault(doorFaultSentence(made.error));
    noteCode(notes, world.now());
    show(made.value);
    changed();
  };
  const dayOf = (at: number) => dayLong(instantAt(at, world.zone()).day);
  return (
    <section class="card" aria-label="recovery code">
      <h2>Recovery code</h2>
      {code ? (
        <>
          <p>
            <strong>Write it down now, on paper. It is shown this once.</strong> It opens your keys on a new phone.
          </p>
          <p class="seal-code">{code}</p>
          <p>Then make a new backup: those made before do not know this code.</p>
        </>
      ) : keys.code ? (
        <p>
          {keys.code.made === null ? 'Made on another device.' : `Made ${dayOf(keys.code.made)}.`}{' '}
          {keys.code.confirmed === null ? 'It was never typed back.' : `Last typed back ${dayOf(keys.code.confirmed)}.`}
        </p>
      ) : (
        <p>
          None yet. A backup’s seven words bring the records back; this code brings the keys too, so that a new phone is
          one of your devices.
        </p>
      )}
      {keys.code ? (
        <AskBack
          done={() => {
            show(undefined);
            changed();
          }}
        />
      ) : null}
      {code ? null : !keys.code ? (
        <button type="button" class="button button-act" onClick={() => void make()}>
          Make the recovery code
        </button>
      ) : sure ? (
        <>
          <p>
            The old code then opens nothing that is made from now on. It still opens the keys in older backup files.
          </p>
          <button type="button" class="button" onClick={() => void make()}>
            Make a new code
          </button>
        </>
      ) : (
        <button type="button" class="button button-plain" onClick={() => setSure(true)}>
          A new code…
        </button>
      )}
      {fault ? (
        <p class="fault" role="alert">
          {fault}
        </p>
      ) : null}
    </section>
  );
}

/** Asks the code back: what was written down is known to be right only once it was read from the paper. */
function AskBack({ done }: { done: () => void }) {
  const { sealing, notes, world } = useApp();
  return (
    <SecretForm
      label="Type it back from the paper"
      hint="Spaces, dashes and small letters do not matter."
      act="Is it right?"
      attempt={async (typed) => (await sealing()).confirmCode(typed)}
      done={() => {
        noteRight(notes, world);
        say('The code is right.');
        done();
      }}
    />
  );
}

function Passphrase({ keys, changed }: { keys: KeysState; changed: () => void }) {
  const { sealing } = useApp();
  const work = useWork();
  const [open, setOpen] = useState(false);
  const [typed, setTyped] = useState({ once: '', twice: '' });
  const [fault, setFault] = useState<string>();
  const set = async (): Promise<void> => {
    const why = typedTwice(typed);
    setFault(why);
    if (why) return;
    const done = await work
      .run(async (watch) => (await sealing()).setPassphrase(typed.once, watch))
      .catch(() => undefined);
    if (!done?.ok) return setFault(done ? doorFaultSentence(done.error) : WENT_WRONG);
    setTyped({ once: '', twice: '' });
    setOpen(false);
    say('The passphrase is set.');
    changed();
  };
  return (
    <section class="card" aria-label="passphrase">
      <h2>Passphrase</h2>
      <p>
        {keys.hasPassphrase
          ? 'One is set. Changing it changes nothing else: records and files stay as they are.'
          : 'None is set. It is a second way to the keys, for those who would rather remember than keep a paper.'}
      </p>
      {open ? (
        <form
          class="seal-form"
          onSubmit={(event) => {
            event.preventDefault();
            void set();
          }}
        >
          <PassphraseFields typed={typed} type={setTyped} fault={fault} />
          <WorkBar work={work} what="Working it into a key…" />
          <button type="submit" class="button button-act" disabled={work.busy}>
            Set the passphrase
          </button>
        </form>
      ) : (
        <button type="button" class="button" onClick={() => setOpen(true)}>
          {keys.hasPassphrase ? 'Change the passphrase…' : 'Set a passphrase…'}
        </button>
      )}
    </section>
  );
}

/** Another of the trainer's devices made new keys: its code, or the new passphrase, opens them here. */
function Unlock({ done }: { done: () => void }) {
  const { sealing } = useApp();
  return (
    <section class="card" aria-label="new keys">
      <h2>New keys were made</h2>
      <p>
        Another of your devices made new keys. Until they are opened here, this device seals no files. Logging goes on
        as ever.
      </p>
      <SecretForm
        act="Open the keys"
        attempt={async (secret, watch) => (await sealing()).unlock(secret, watch)}
        done={() => {
          say('The keys are open.');
          done();
        }}
      />
    </section>
  );
}
