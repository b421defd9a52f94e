import { useState } from 'preact/hooks';
import { type LockAfter, useApp, type Wait } from '../app';
import { afterSentence, afterText, LOCK, LOCK_AFTERS, LOCK_CARD, waitSentence } from '../lockWords';
import { Chip, ChipRow } from '../parts/Chip';
import { PinField, useLockActs } from '../parts/LockScreen';
import { say } from '../parts/say';
import { go } from '../routes';

type Doing = 'on' | 'pin' | 'after' | 'off';

/** The screen lock of this device: turned on, changed, turned off; and what it does not protect from. */
export function LockCard() {
  const { lock } = useApp();
  const [doing, setDoing] = useState<Doing>();
  const [refused, setRefused] = useState<string>();
  const acts = useLockActs();
  const isOn = lock.isOn();
  const done = (sentence: string) => {
    setDoing(undefined);
    say(sentence);
  };
  const begin = async () => {
    try {
      const has = await (await lock.acts()).hasWayBack();
      setRefused(has ? undefined : LOCK_CARD.noWayBack);
      if (has) setDoing('on');
    } catch {
      setRefused(LOCK.failed);
    }
  };
  return (
    <section class="card" aria-label="screen lock">
      <h2>{LOCK_CARD.title}</h2>
      {acts?.wasLost() && !isOn ? (
        <p class="fault" role="alert">
          {LOCK_CARD.lost}
        </p>
      ) : null}
      <p>{isOn ? acts && afterSentence(acts.after()) : LOCK_CARD.off}</p>
      <p class="hint">{LOCK_CARD.protects}</p>
      {refused && !isOn ? (
        <p class="fault" role="alert">
          {refused}
        </p>
      ) : null}
      {doing === undefined ? (
        <div class="chips chips-wrap">
          {isOn ? (
            <>
              <Opens what={LOCK_CARD.changePin} open={() => setDoing('pin')} />
              <Opens what={LOCK_CARD.changeAfter} open={() => setDoing('after')} />
              <Opens what={LOCK_CARD.turnOff} open={() => setDoing('off')} />
            </>
          ) : (
            <>
              <Opens what={LOCK_CARD.set} open={begin} />
              {refused === LOCK_CARD.noWayBack ? (
                <Opens what={LOCK_CARD.makeCode} open={() => go({ page: 'keys' })} />
              ) : null}
            </>
          )}
        </div>
      ) : (
        <LockForm key={doing} doing={doing} was={acts?.after() ?? 0} done={done} cancel={() => setDoing(undefined)} />
      )}
    </section>
  );
}

function Opens({ what, open }: { what: string; open: () => unknown }) {
  return (
    <button type="button" class="button" onClick={() => void open()}>
      {what}
    </button>
  );
}

const ACT: Readonly<Record<Doing, string>> = {
  on: LOCK_CARD.turnOn,
  pin: LOCK_CARD.keepPin,
  after: LOCK_CARD.keepAfter,
  off: LOCK_CARD.turnOff,
};

type LockFormProps = {
  readonly doing: Doing;
  /** When it asks as it is. */
  readonly was: LockAfter;
  readonly done: (sentence: string) => void;
  readonly cancel: () => void;
};

function LockForm({ doing, was, done, cancel }: LockFormProps) {
  const { lock } = useApp();
  const [now, setNow] = useState('');
  const [pin, setPin] = useState('');
  const [again, setAgain] = useState('');
  const [after, setAfter] = useState<LockAfter>(doing === 'on' ? 5 : was);
  const [fault, setFault] = useState<{ at: 'now' | 'pin' | 'again'; said: string }>();
  const [busy, setBusy] = useState(false);
  const isNew = doing === 'on' || doing === 'pin';
  const at = doing === 'on' ? 'pin' : 'now';

  const act = async () => {
    if (busy) return;
    if (isNew && !/^[0-9]{4,12}$/.test(pin)) return setFault({ at: 'pin', said: LOCK.notAPin });
    if (isNew && pin !== again) return setFault({ at: 'again', said: LOCK_CARD.unequal });
    setBusy(true);
    setFault(undefined);
    try {
      const acts = await lock.acts();
      const answer =
        doing === 'on'
          ? await acts.turnOn(pin, after)
          : doing === 'off'
            ? await acts.turnOff(now)
            : await acts.change(now, doing === 'pin' ? { pin } : { after });
      if (answer === 'on' || answer === 'off' || answer === 'changed') return done(DONE[answer]);
      setFault({ at, said: faultSentence(answer) });
    } catch {
      setFault({ at, said: LOCK.failed });
    } finally {
      setBusy(false);
    }
  };
  const faultAt = (field: 'now' | 'pin' | 'again') => (fault?.at === field ? fault.said : undefined);
  return (
    <form
      class="lock-form"
      onSubmit={(event) => {
        event.preventDefault();
        void act();
      }}
    >
      {doing === 'on' ? null : (
        <PinField label={LOCK_CARD.now} value={now} onText={setNow} fault={faultAt('now')} first={true} />
      )}
      {isNew ? (
        <>
          <PinField label={LOCK_CARD.first} value={pin} onText={setPin} fault={faultAt('pin')} first={doing === 'on'} />
          <PinField label={LOCK_CARD.again} value={again} onText={setAgain} fault={faultAt('again')} />
        </>
      ) : null}
      {doing === 'on' || doing === 'after' ? (
        <>
          <h3>{LOCK_CARD.asks}</h3>
          <ChipRow label={LOCK_CARD.asks} of="many">
            {LOCK_AFTERS.map((one) => (
              <Chip key={one} chosen={one === after} onTap={() => setAfter(one)}>
                {afterText(one)}
              </Chip>
            ))}
          </ChipRow>
        </>
      ) : null}
      <div class="chips chips-wrap">
        <button type="submit" class="button button-act" disabled={busy}>
          {busy ? LOCK.checking : ACT[doing]}
        </button>
        <button type="button" class="button button-plain" onClick={cancel}>
          {LOCK_CARD.cancel}
        </button>
      </div>
    </form>
  );
}

const DONE = { on: LOCK_CARD.turnedOn, off: LOCK_CARD.turnedOff, changed: LOCK_CARD.changed } as const;

type LockFault = 'wrong' | 'on-already' | 'no-way-back' | 'not-a-pin' | 'not-kept' | Wait;

function faultSentence(fault: LockFault): string {
  switch (fault) {
    case 'wrong':
      return LOCK.wrong;
    case 'on-already':
      return LOCK_CARD.onAlready;
    case 'no-way-back':
      return LOCK_CARD.noWayBack;
    case 'not-a-pin':
      return LOCK.notAPin;
    case 'not-kept':
      return LOCK_CARD.notKept;
    default:
      return waitSentence(fault);
  }
}
