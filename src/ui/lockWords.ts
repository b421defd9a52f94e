import type { LockAfter, Wait } from './app';
import { duration } from './format';

/* What the screen lock says. */

export const LOCK = {
  title: 'Locked',
  intro: 'Nothing of the records is shown until the PIN is typed.',
  pin: 'PIN',
  unlock: 'Unlock',
  checking: 'Checking…',
  forgotten: 'Forgotten the PIN?',
  backToPin: 'Back to the PIN',
  wayBack:
    'Your recovery code or passphrase opens the app and turns the lock off. Then set a new PIN on the Backup page.',
  code: 'Recovery code or passphrase',
  open: 'Open, and turn the lock off',
  wrong: 'That is not the PIN.',
  wrongCode: 'That is neither the recovery code nor the passphrase of the records here.',
  noneMade: 'This device has no recovery code and no passphrase: only the PIN opens it. The records are kept.',
  notAPin: 'A PIN is 4 to 12 digits.',
  failed: 'It could not be checked. Try again; if that does not help, reload the app. The records are kept.',
} as const;

export const LOCK_CARD = {
  title: 'Screen lock',
  protects:
    'It keeps a colleague with this phone in hand out of the app. It does not protect against somebody who copies the phone’s storage: the records are not encrypted there; the phone’s own lock and encryption do that.',
  lost: 'The lock was off: what it had kept could not be read.',
  off: 'It is off.',
  set: 'Set a PIN',
  first: 'New PIN, 4 to 12 digits',
  again: 'The same PIN again',
  unequal: 'The two are not the same.',
  turnOn: 'Turn it on',
  cancel: 'Cancel',
  noWayBack: 'Make a recovery code first: without one, a forgotten PIN would keep you out for good.',
  makeCode: 'To the recovery code',
  notKept: 'This browser did not keep it: nothing was changed.',
  onAlready: 'It is on already: another tab turned it on.',
  now: 'PIN as it is now',
  asks: 'It asks for the PIN',
  changePin: 'Change the PIN',
  keepPin: 'Keep the new PIN',
  changeAfter: 'Change when it asks',
  keepAfter: 'Keep when it asks',
  turnOff: 'Turn it off',
  turnedOn: 'The screen lock is on.',
  turnedOff: 'The screen lock is off.',
  changed: 'Kept.',
} as const;

export const LOCK_AFTERS: readonly LockAfter[] = [0, 1, 5, 15];

/** Returns what a choice of “when it asks” is called. */
export function afterText(after: LockAfter): string {
  return after === 0 ? 'at once' : after === 1 ? 'after 1 minute' : `after ${after} minutes`;
}

/** Returns the sentence that says when it asks. */
export function afterSentence(after: LockAfter): string {
  return `It is on, and asks ${after === 0 ? 'as soon as the app was out of sight' : `${afterText(after)} out of sight`}, and at each start.`;
}

/** Returns what is said while nothing is tried. */
export function waitSentence({ wait }: Wait): string {
  return `Too many wrong ones in a row. The next can be tried in ${duration(wait)}.`;
}
