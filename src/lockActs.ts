import type { World } from './domain/world';
import type { Local } from './log/local';
import { isPin, mayBePin, newPin, type Pin, readPin } from './sync/pin';
import type { LockActs, LockAfter, Wait } from './ui/app';

/*
 * What a PIN does. Wrong ones are counted among the device's notes, each before it is tried, so that neither a reload nor a kill gives tries away.
 */

/** So many wrong ones in a row are forgiven. */
const FREE = 4;
const FIRST_WAIT_MS = 30_000;
const LONGEST_WAIT_MS = 15 * 60_000;

const PIN_COUNT = 'lock-wrong';
const OWNER_COUNT = 'lock-wrong-owner';

export type LockActsDeps = {
  readonly local: Local;
  readonly world: World;
  /** Whether a text is the recovery code or the passphrase of the records on this device. */
  readonly isOwner: (text: string) => Promise<'yes' | 'no' | 'none-made'>;
  /** Whether there is a recovery code or a passphrase at all. */
  readonly hasWayBack: () => Promise<boolean>;
};

/** The lock that is acted on. */
type Core = { readonly isOn: () => boolean; readonly open: () => void };

/** Where its record is kept among the device's notes; empty: off. */
const RECORD = 'lock';
const AFTERS: readonly LockAfter[] = [0, 1, 5, 15];

/** Returns what can be done with the lock. A record that cannot be read is thrown away at once: it opens. */
export function lockActs({ local, world, isOwner, hasWayBack }: LockActsDeps, { isOn, open }: Core): LockActs {
  let turn: Promise<unknown> = Promise.resolve();

  const count = (name: string): { wrong: number; at: number } => {
    const [wrong = 0, at = 0] = (local.get(name) ?? '').split(' ').map(Number);
    return { wrong: wrong || 0, at: at || 0 };
  };
  const note = (name: string, wrong: number): void => local.set(name, `${wrong} ${world.now()}`);

  /** Seconds until the next one is tried. */
  function waitOf(name: string): number {
    const { wrong, at } = count(name);
    if (wrong <= FREE) return 0;
    const wait = Math.min(FIRST_WAIT_MS * 2 ** (wrong - FREE - 1), LONGEST_WAIT_MS);
    const since = world.now() - at;
    // a clock set back: the wait begins anew, and no later than now
    if (since < 0) note(name, wrong);
    return Math.max(0, Math.ceil((wait - Math.max(0, since)) / 1000));
  }

  /** One at a time, counted; the answer of `check` where it is not `wrong`. */
  function tried<T extends string>(name: string, check: () => Promise<T | 'wrong'>): Promise<T | 'wrong' | Wait> {
    const mine = turn.then(async () => {
      const before = waitOf(name);
      if (before > 0) return { wait: before };
      const { wrong } = count(name);
      note(name, wrong + 1);
      const answer = await check();
      if (answer !== 'wrong') {
        note(name, 0);
        return answer;
      }
      const wait = waitOf(name);
      return wait > 0 ? { wait } : answer;
    });
    turn = mine.catch(() => undefined);
    return mine;
  }

  /** The record; undefined where it cannot be read, and then the lock is off. */
  function kept(): Pin | undefined {
    const text = local.get(RECORD);
    if (!text) return undefined;
    const read = readPin(parsed(text));
    if (read.ok) return read.value;
    local.set('lock-lost', 'yes');
    off();
    return undefined;
  }

  function off(): void {
    local.set(RECORD, '');
    note(PIN_COUNT, 0);
    open();
  }

  /** `right` also where there is no PIN any more. */
  const tryPin = (pin: string): Promise<'right' | 'wrong' | Wait> => {
    const pinKept = kept();
    if (!pinKept) return Promise.resolve('right');
    return tried(PIN_COUNT, async () => ((await isPin(pinKept, pin)) ? 'right' : 'wrong'));
  };

  async function keep(pin: string): Promise<'kept' | 'not-a-pin' | 'not-kept'> {
    const made = await newPin(pin, world.random);
    if (!made.ok) return 'not-a-pin';
    const text = JSON.stringify(made.value);
    local.set(RECORD, text);
    return local.get(RECORD) === text ? 'kept' : 'not-kept';
  }

  function keepAfter(after: LockAfter): void {
    local.set('lock-after', String(after));
  }

  addEventListener('storage', () => {
    // turned off in another tab
    if (!isOn()) open();
  });
  // whoever asks for this first learns whether there is a PIN at all
  kept();
  return {
    after: () => AFTERS.find((one) => String(one) === local.get('lock-after')) ?? 0,
    wasLost: () => Boolean(local.get('lock-lost')),
    hasWayBack,
    waiting: () => (isOn() ? waitOf(PIN_COUNT) : 0),
    async turnOn(pin, after) {
      if (isOn()) return 'on-already';
      if (!(await hasWayBack())) return 'no-way-back';
      if (!mayBePin(pin)) return 'not-a-pin';
      keepAfter(after);
      note(PIN_COUNT, 0);
      const done = await keep(pin);
      if (done === 'kept') local.set('lock-lost', '');
      return done === 'kept' ? 'on' : done;
    },
    async turnOff(pin) {
      const answer = await tryPin(pin);
      if (answer !== 'right') return answer;
      off();
      return isOn() ? 'not-kept' : 'off';
    },
    async change(pin, { pin: next, after }) {
      if (next !== undefined && !mayBePin(next)) return 'not-a-pin';
      const answer = await tryPin(pin);
      if (answer !== 'right') return answer;
      if (after !== undefined) keepAfter(after);
      const done = next === undefined || !isOn() ? 'kept' : await keep(next);
      return done === 'kept' ? 'changed' : done;
    },
    async unlock(pin) {
      const answer = await tryPin(pin);
      if (answer !== 'right') return answer;
      open();
      return 'open';
    },
    async unlockAsOwner(text) {
      const answer = await tried(OWNER_COUNT, async () => {
        const owner = await isOwner(text);
        return owner === 'no' ? 'wrong' : owner;
      });
      if (answer !== 'yes') return answer;
      off();
      return 'open';
    },
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
