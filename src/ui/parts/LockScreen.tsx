import { useEffect, useId, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { type LockActs, useApp } from '../app';
import { LOCK, waitSentence } from '../lockWords';
import { holdRoute } from '../routes';
import { APP } from '../words';
import { TextField } from './TextField';
import { useTicking } from './useTicking';

/** All there is of the app while it is locked. */
export function LockScreen() {
  const [forgotten, setForgotten] = useState(false);
  useLayoutEffect(stayHere, []);
  return (
    <main class="page lock-screen">
      <h1>
        {APP} <span class="lock-state">{LOCK.title}</span>
      </h1>
      {forgotten ? <WayBack back={() => setForgotten(false)} /> : <PinForm forgotten={() => setForgotten(true)} />}
    </main>
  );
}

/** Back would close what is half typed behind it. */
function stayHere(): () => void {
  holdRoute(true);
  return () => holdRoute(false);
}

function PinForm({ forgotten }: { forgotten: () => void }) {
  const { lock } = useApp();
  const [pin, setPin] = useState('');
  const [fault, setFault] = useState<string>();
  const [checking, setChecking] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  const acts = useLockActs();
  const wait = useTicking(() => acts?.waiting() ?? 0);
  const unlock = async () => {
    if (checking || wait > 0) return;
    if (!/^[0-9]{4,}$/.test(pin)) return setFault(LOCK.notAPin);
    setChecking(true);
    setFault(undefined);
    try {
      const answer = await (await lock.acts()).unlock(pin);
      // the screen goes with the answer `open`
      if (answer === 'open') return;
      setFault(answer === 'wrong' ? LOCK.wrong : undefined);
      setPin('');
      form.current?.querySelector('input')?.focus();
    } catch {
      setFault(LOCK.failed);
    } finally {
      setChecking(false);
    }
  };
  return (
    <form
      class="lock-form"
      ref={form}
      onSubmit={(event) => {
        event.preventDefault();
        void unlock();
      }}
    >
      <p class="hint">{LOCK.intro}</p>
      <PinField
        label={LOCK.pin}
        value={pin}
        onText={setPin}
        fault={wait > 0 ? waitSentence({ wait }) : fault}
        first={true}
      />
      <button type="submit" class="button button-act lock-open" disabled={checking || wait > 0}>
        {checking ? LOCK.checking : LOCK.unlock}
      </button>
      <button type="button" class="button button-plain" onClick={forgotten}>
        {LOCK.forgotten}
      </button>
    </form>
  );
}

/** The way out where the PIN is forgotten. */
function WayBack({ back }: { back: () => void }) {
  const { lock } = useApp();
  const [text, setText] = useState('');
  const [fault, setFault] = useState<string>();
  const [checking, setChecking] = useState(false);
  const open = async () => {
    if (checking || text.trim() === '') return;
    setChecking(true);
    setFault(undefined);
    try {
      const answer = await (await lock.acts()).unlockAsOwner(text);
      if (answer === 'open') return;
      setFault(answer === 'wrong' ? LOCK.wrongCode : answer === 'none-made' ? LOCK.noneMade : waitSentence(answer));
    } catch {
      setFault(LOCK.failed);
    } finally {
      setChecking(false);
    }
  };
  return (
    <form
      class="lock-form"
      onSubmit={(event) => {
        event.preventDefault();
        void open();
      }}
    >
      <p>{LOCK.wayBack}</p>
      <TextField label={LOCK.code} value={text} onText={setText} lines="many" fault={fault} exact />
      <button type="submit" class="button button-act lock-open" disabled={checking}>
        {checking ? LOCK.checking : LOCK.open}
      </button>
      <button type="button" class="button button-plain" onClick={back}>
        {LOCK.backToPin}
      </button>
    </form>
  );
}

type PinFieldProps = {
  readonly label: string;
  readonly value: string;
  readonly onText: (text: string) => void;
  /** A sentence that says why it was not taken. */
  readonly fault?: string | undefined;
  /** Whether it is typed at once, without a tap into it. */
  readonly first?: boolean;
};

/** A field for digits that nobody is to read over a shoulder. */
export function PinField({ label, value, onText, fault, first = false }: PinFieldProps) {
  const own = useId();
  const said = `${own}-said`;
  return (
    <div>
      <div class="field">
        <label for={own}>{label}</label>
        <input
          id={own}
          type="password"
          inputMode="numeric"
          autocomplete="off"
          maxLength={12}
          value={value}
          ref={first ? focusOnce : null}
          aria-invalid={fault !== undefined}
          {...(fault ? { 'aria-describedby': said } : {})}
          onInput={(event) => onText(event.currentTarget.value)}
        />
      </div>
      {fault ? (
        <p class="fault" id={said} role="alert">
          {fault}
        </p>
      ) : null}
    </div>
  );
}

function focusOnce(field: HTMLInputElement | null): void {
  field?.focus();
}

/** Returns what can be done with the screen lock, once it is loaded. */
export function useLockActs(): LockActs | undefined {
  const { lock } = useApp();
  const [acts, setActs] = useState<LockActs>();
  useEffect(() => {
    // what uses it asks again, and says what is the matter
    lock.acts().then(setActs, () => undefined);
  }, [lock]);
  return acts;
}
