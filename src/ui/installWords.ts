import type { UpdateState } from './app';
import { countOf } from './format';
import type { InstallWay } from './parts/install';

/* How the app gets onto a phone and why, where records live, and which version this is. */

/** What lives where, when it can be lost, what to do: one sentence each. */
export const STORAGE_IN_THREE = [
  'Everything you log lies in this browser on this device, twice, and nowhere else: there is no account and no server.',
  'It is lost with the device, when this site’s data is cleared in the browser, and in Safari after seven days without a visit unless the app is on the Home Screen.',
  'So put the app on the Home Screen or install it, and once a week save the file below to a place that is not this device.',
] as const;

export const INSTALL_TITLE = 'Put the app on this device';

type Hint = { readonly how: string; readonly why: string };

const OWN_WINDOW =
  'Installed, it opens from its own icon without a network, and the browser is less likely to clear its records.';
const SEVEN_DAYS =
  'In a tab, Safari deletes all records after seven days without a visit; on the Home Screen it does not.';

/** Returns how the app is installed on this kind of browser, and why; null where it is installed already. */
export function installHint(way: InstallWay): Hint | null {
  switch (way) {
    case 'installed':
      return null;
    case 'button':
      return { how: 'One tap installs it.', why: OWN_WINDOW };
    case 'ios':
      return { how: 'Tap Share, then “Add to Home Screen”, and log in the app that appears there.', why: SEVEN_DAYS };
    case 'mac-safari':
      return { how: 'In the menu File, choose “Add to Dock”, and log in the app that appears there.', why: SEVEN_DAYS };
    case 'firefox-phone':
      return { how: 'Open the browser’s menu and choose “Install” or “Add app to Home screen”.', why: OWN_WINDOW };
    case 'firefox-desk':
      return {
        how: 'Firefox on a computer may not offer to install it; a bookmark does as well.',
        why: 'Its records are kept in this browser either way: allow it to keep them when it asks, and save the file every week.',
      };
    case 'menu':
      return { how: 'Open the browser’s menu and choose “Install app” or “Add to Home screen”.', why: OWN_WINDOW };
  }
}

/** Returns the warning that installed apps of Apple’s begin empty: whether there are records to move makes it urgent. */
export function startsEmpty(clients: number): string {
  return clients === 0
    ? 'Do it before you log: the installed app does not see what a Safari tab holds.'
    : 'The installed app begins empty: it does not see what this tab holds. Save the backup file here first, and keep it until the records are in the installed app.';
}

/** Returns which version this is. */
export const versionText = (build: string): string => `Version ${build}.`;

/** Returns where the version stands, for the Backup page. */
export function versionSentence(state: UpdateState, isNewerOnServer: boolean, running: boolean): string {
  if (state === 'old') return 'A newer version has taken over; this page goes over to it when no session runs.';
  if (state === 'ready')
    return running ? 'A newer version is here and waits until no session runs.' : 'A newer version is ready.';
  if (isNewerOnServer)
    return 'A newer version is on the server and is being fetched. If it does not come, close the app and open it again.';
  return 'It is kept on this device whole, and opens without a network.';
}

export const NOT_KEPT_YET = 'It is not yet kept on this device: until it is, it needs a network to open.';

/** Returns that a backup is due: how long ago the last one was (null: there was none), and how many records are nowhere else (0: not known). */
export function backupDue(days: number | null, rows: number): string {
  const last = days === null ? 'There is no backup yet' : `The last backup was ${countOf(days, 'day')} ago`;
  return rows === 0 ? `${last}.` : `${last}, and ${onlyHere(rows)}.`;
}

/** Returns how many records are on this device alone. */
export const onlyHere = (rows: number): string =>
  `${countOf(rows, 'record')} ${rows === 1 ? 'is' : 'are'} only on this device`;

export const WHAT_IS_A_RECORD =
  'A session is one record with all its sets; a client is one, and whatever you added or changed.';

export const codeDue = 'Do you still have the recovery code? Type it back from the paper once, and you know.';
